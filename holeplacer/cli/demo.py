"""Demo: the main job on the sign that comes with the program, for a machine without a display."""

import tempfile
from pathlib import Path

from holeplacer import resources
from holeplacer.cli import commands

DEMO = ("demo", "thistledown.svg")


def run_demo() -> int:
    """Propose holes for the demo sign, write drawing, list, picture and plan, say where they lie.

    The demo is meant to have something to tell, so that findings are no failure here.

    Returns:
        Exit status.
    """
    folder = Path(tempfile.mkdtemp(prefix="holeplacer-demo-"))
    status = commands.run(
        [
            "propose",
            str(resources.resource_path(*DEMO)),
            *("--dxf", str(folder / "holes.dxf")),
            *("--csv", str(folder / "hole-schedule.csv")),
            *("--picture", str(folder / "picture.svg")),
            *("--report", str(folder / "report.json")),
            *("--save", str(folder / "thistledown.holeplan")),
        ]
    )
    return commands.FINE if status == commands.FINDINGS else status
