"""`make`: every paper and drawing of a saved plan, into one folder."""

from pathlib import Path
from typing import Any

import click

from holeplacer.cli import cut_sheets, dividing, job, outputs, result, sections_result
from holeplacer.cli.choices import process_option
from holeplacer.cli.dividing import dividing_options
from holeplacer.cli.progress import Progress
from holeplacer.cli.sections import FILES, SectionedCommand, option
from holeplacer.documents import report
from holeplacer.errors import ExportError
from holeplacer.plan import plan_file

CUT = Path("cut")
"""Where below the folder all lies that goes to the table."""

MADE = {
    "dxf": CUT / "holes.dxf",
    "csv": Path("hole-schedule.csv"),
    "picture": Path("picture.svg"),
    "report": Path("report.json"),
}
"""What is made, by kind, and where below the folder it lies."""


_HELP = """Make all that goes out from PLAN: cut drawing, hole schedule, picture, report.

PLAN is a file saved by the window or by `propose --save`. Where sheets are at hand, the folder
`cut` below holds the whole sign, a drawing per sheet, a coupon and a cut list. Files of the same
name are replaced, each only once its successor is proven. Ends with 1 if a rule is broken.

\b
Examples:
  holeplacer make sign.holeplan --to out
  holeplacer make sign.holeplan --to out --stock "48 x 47 1/8 in" --kerf-offset --paper letter
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
@cut_sheets.cutting_options
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
    lines = [
        result.heading(layout),
        *result.checked(layout, evaluation),
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
    targets = {kind: folder / name for kind, name in MADE.items()}
    for path in targets.values():
        try:
            path.parent.mkdir(parents=True, exist_ok=True)
        except (OSError, ValueError) as error:
            reason = getattr(error, "strerror", None) or str(error)
            raise ExportError(
                f"the folder can't be made ({reason.lower()})",
                where=str(path.parent).replace("\0", "\\0"),
                remedy="choose another",
            ) from error
    return targets
