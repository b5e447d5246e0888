"""`check`: hold a saved plan to every rule."""

from pathlib import Path
from typing import Any

import click

from holeplacer.cli import (
    dividing,
    job,
    outputs,
    result,
    sections_result,
    sheet_limits,
    wall_result,
)
from holeplacer.cli.choices import process_option
from holeplacer.cli.dividing import dividing_options
from holeplacer.cli.loading import loading_options
from holeplacer.cli.progress import Progress
from holeplacer.cli.sections import SectionedCommand
from holeplacer.cli.wall import wall_options
from holeplacer.documents import report
from holeplacer.plan import plan_file

_HELP = """Hold the holes of PLAN to every rule and list what is broken.

PLAN is a file saved by the window or by `propose --save`. Ends with 1 if a rule is broken or
a load is more than sheet, standoff or anchor may bear. Loads, sheets at hand and process given
here are tried in place of the plan's own; the file stays as it is.

\b
Examples:
  holeplacer check sign.holeplan --report report.json
  holeplacer check sign.holeplan --pressure 30psf
  holeplacer check sign.holeplan --stock "47 1/8 x 47 1/8 in"
"""


@click.command(cls=SectionedCommand, help=_HELP)
@click.argument("plan", type=outputs.FILE)
@process_option
@dividing_options
@loading_options
@sheet_limits.sheet_limits_option
@wall_options
@outputs.file_options("report")
def check(plan: Path, **given: Any) -> int:
    """Evaluate a plan and print what was found."""
    targets = outputs.targets_of(given, plan)
    with Progress() as progress:
        steps = job.Steps(progress)
        layout = job.laid_out_as_saved(plan_file.load_plan(plan), steps, given)
        steps("divide")
        parted = dividing.divided(layout, progress)
        evaluation = dividing.joined(job.evaluated(layout, steps), parted)
        limits = sheet_limits.asked(layout, evaluation, given, progress)
        told = report.report(
            layout, evaluation, seconds=steps.seconds, limits=limits, **parted.reported
        )
        steps("write")
        written = outputs.write_all(outputs.Result(layout, evaluation, told), targets, plan)
    lines = [
        result.heading(layout),
        *result.checked(layout, evaluation),
        *result.strength(layout.plan, evaluation.strength),
        *wall_result.lines(layout),
        *sheet_limits.lines(layout, evaluation, limits),
        *result.unsupported(told.unsupported),
        *sections_result.lines(layout.plan, parted),
        *result.findings(evaluation.findings),
        *written,
        result.closing(),
    ]
    click.echo("\n".join(lines))
    return int(evaluation.broken > 0)
