"""`make`: every paper and drawing of a saved plan, into one folder."""

from pathlib import Path
from typing import Any

import click

from holeplacer.cli import (
    cut_sheets,
    dividing,
    job,
    outputs,
    result,
    sections_result,
    template_papers,
    wall_result,
)
from holeplacer.cli.choices import process_option
from holeplacer.cli.dividing import dividing_options
from holeplacer.cli.progress import Progress
from holeplacer.cli.sections import FILES, SectionedCommand, option
from holeplacer.cli.wall import wall_options
from holeplacer.documents import report
from holeplacer.errors import ExportError
from holeplacer.plan import plan_file

CUT = Path("cut")
"""Where below the folder all lies that goes to the table."""

PAPER = Path("paper")
"""Where below the folder all lies that goes to the wall."""

MADE = {
    "dxf": CUT / "holes.dxf",
    "csv": Path("hole-schedule.csv"),
    "picture": Path("picture.svg"),
    "report": Path("report.json"),
}
"""What is made, by kind, and where below the folder it lies."""


_HELP = """Make all that goes out from PLAN: cut drawing, template, hole schedule, picture, report.

PLAN is a file saved by the window or by `propose --save`. Where sheets are at hand, the folder
`cut` below holds the whole sign, a drawing per sheet, a coupon and a cut list. The folder `paper`
holds the full-size template for a plotter's roll and tiled onto sheets, and as SVG and DXF. Files
of the same name are replaced, each only once its successor is proven. Ends with 1 if a rule is
broken.

\b
Examples:
  holeplacer make sign.holeplan --to out
  holeplacer make sign.holeplan --to out --stock "48 x 47 1/8 in" --kerf-offset --paper A3
"""


@click.command(cls=SectionedCommand, help=_HELP)
@click.argument("plan", type=outputs.FILE)
@option(
    FILES,
    "--to",
    "folder",
    type=outputs.FILE,
    required=True,
    metavar="DIR",
    help="Folder to write to; made if it is not there.",
)
@process_option
@dividing_options
@wall_options
@cut_sheets.cutting_options
@template_papers.template_options
@outputs.drawing_options
def make(plan: Path, folder: Path, **given: Any) -> int:
    """Write every file into the folder and print where they lie."""
    decided = plan_file.load_plan(plan)
    with Progress() as progress:
        steps = job.Steps(progress)
        layout = job.laid_out_as_saved(decided, steps, given)
        steps("divide")
        parted = dividing.divided(layout, progress)
        evaluation = dividing.joined(job.evaluated(layout, steps), parted)
        told = report.report(layout, evaluation, seconds=steps.seconds, **parted.reported)
        steps("write")
        written = outputs.write_all(
            outputs.Result(layout, evaluation, told),
            targets_below(folder),
            plan,
            outputs.wish_of(given),
        )
        written += cut_sheets.write(layout, parted, folder / CUT, given, (plan,))
        written += template_papers.write(layout, folder_of(folder / PAPER), given, (plan,))
        written += wall_result.write_hardware(layout, folder / PAPER, (plan,))
    lines = [
        result.heading(layout),
        *result.checked(layout, evaluation),
        *wall_result.lines(layout),
        *result.unsupported(told.unsupported),
        *sections_result.lines(layout.plan, parted),
        *result.findings(evaluation.findings),
        *written,
        result.closing(),
    ]
    click.echo("\n".join(lines))
    return int(evaluation.broken > 0)


def targets_below(folder: Path) -> dict[str, Path]:
    """Every file that is made, its folders made first.

    Raises:
        ExportError: A folder can't be made.
    """
    return {kind: folder_of((folder / name).parent) / name.name for kind, name in MADE.items()}


def folder_of(path: Path) -> Path:
    """A folder, made if it is not there.

    Raises:
        ExportError: It can't be made.
    """
    try:
        path.mkdir(parents=True, exist_ok=True)
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise ExportError(
            f"the folder can't be made ({reason.lower()})",
            where=str(path).replace("\0", "\\0"),
            remedy="choose another",
        ) from error
    return path
