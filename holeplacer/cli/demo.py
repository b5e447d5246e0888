"""Demo: the main job on the sign that comes with the program, for a machine without a display."""

import tempfile
from pathlib import Path

import click

from holeplacer import resources
from holeplacer.cli import commands

DEMO = ("demo", "thistledown.svg")

WIND = "1kPa"
"""Entered, so that the demo has strength to show; no place on earth is meant by it."""

STOCK = "48 x 48 in"
"""Sheets that the demo sign is divided onto."""


def run_demo() -> int:
    """Propose holes for the demo sign, write drawing, list, picture and plan, say where they lie.

    The demo is meant to have something to tell, so that findings are no failure here.

    Returns:
        Exit status.
    """
    folder = Path(tempfile.mkdtemp(prefix="holeplacer-demo-"))
    click.echo(f"The demo sign in a wind of {WIND}, entered as an example and valid for no place.")
    status = commands.run(
        [
            "propose",
            str(resources.resource_path(*DEMO)),
            *("--pressure", WIND),
            *("--stock", STOCK),
            *("--dxf", str(folder / "holes.dxf")),
            *("--csv", str(folder / "hole-schedule.csv")),
            *("--picture", str(folder / "picture.svg")),
            *("--report", str(folder / "report.json")),
            *("--save", str(folder / "thistledown.holeplan")),
        ]
    )
    return commands.FINE if status == commands.FINDINGS else status
