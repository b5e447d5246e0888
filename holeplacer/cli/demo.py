"""Demo: the main job on the sign that comes with the program, for a machine without a display."""

import tempfile
from pathlib import Path

import click

from holeplacer import resources
from holeplacer.cli import commands, dividing, job
from holeplacer.cli.progress import Progress
from holeplacer.plan import plan_file

DEMO = ("demo", "thistledown.svg")

WIND = "1kPa"
"""Entered, so that the demo has strength to show; no place on earth is meant by it."""

STOCK = "48 x 48 in"
"""Sheets that the demo sign is divided onto."""


def run_demo() -> int:
    """Do the main job on the demo sign, write all that comes of it, and say where it lies.

    That is drawing, list, picture, report, plan, and the folder that goes to the table.

    The demo is meant to have something to tell, so that findings are no failure here.

    Returns:
        Exit status.
    """
    folder = Path(tempfile.mkdtemp(prefix="holeplacer-demo-"))
    plan = folder / "thistledown.holeplan"
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
            *("--save", str(plan)),
        ]
    )
    if status not in (commands.FINE, commands.FINDINGS):
        return status
    return commands.guarded(lambda: _write_cut_folder(plan, folder / "cut"))


def _write_cut_folder(path: Path, to: Path) -> int:
    """Write what goes to the table, as the saved plan has it."""
    from holeplacer.documents import cut_folder  # slow to load

    with Progress() as progress:
        layout = job.laid_out_as_saved(plan_file.load_plan(path), job.Steps(progress), {})
        laid = dividing.laid(layout, progress)
        if laid is None:
            return commands.FINE
        to.mkdir()
        made = cut_folder.write_cut_folder(layout, laid, to, protected=(path,))
    for index, file in enumerate(made.files):
        click.echo(f"{'' if index else 'Cut folder':<15} {file}")
    return commands.FINE
