"""`propose`: the fewest holes that satisfy every rule, or the best places for a given number."""

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
from holeplacer.cli.choices import choice_options
from holeplacer.cli.dividing import dividing_options
from holeplacer.cli.loading import loading_options
from holeplacer.cli.progress import Progress
from holeplacer.cli.reading import reading_options
from holeplacer.cli.sections import LIMITS, SectionedCommand, option
from holeplacer.cli.wall import wall_options
from holeplacer.documents import report
from holeplacer.placement import propose as placement
from holeplacer.plan import edit

_HELP = """Place mounting holes on the strokes of ARTWORK, as few as the rules allow.

ARTWORK is a DXF or SVG drawing of the lettering's outline, or a saved plan, whose fixed holes
and seams stay. With sheets at hand (--stock) it is divided into the fewest sections that fit them.
Ends with 1 if a rule is broken or a stroke stays unsupported.

\b
Examples:
  holeplacer propose sign.svg
  holeplacer propose sign.dxf --units mm --width "6' 2 1/2\\""
  holeplacer propose sign.svg --hole 1/4 --spacing 12in --dxf cut.dxf --csv holes.csv
  holeplacer propose sign.svg --metal aluminium --gauge 14 --pressure 20psf
  holeplacer propose sign.svg --stock "48 x 47 1/8 in" --margin 1/2in --save sign.holeplan
"""


@click.command(cls=SectionedCommand, help=_HELP)
@click.argument("artwork", type=outputs.FILE)
@reading_options
@choice_options
@option(
    LIMITS,
    "--count",
    type=click.IntRange(1, 10_000),
    metavar="NUMBER",
    help="Place this many holes, as well as can be, instead of the fewest.",
)
@dividing_options
@loading_options
@sheet_limits.sheet_limits_option
@wall_options
@outputs.file_options("report", "dxf", "csv", "picture", "save")
def propose(artwork: Path, count: int | None, **given: Any) -> int:
    """Place holes, write what was asked for, print the result."""
    targets = outputs.targets_of(given, artwork)
    plan = job.opened(artwork, given)
    with Progress() as progress:
        steps = job.Steps(progress)
        layout = dividing.without_free_seams(job.laid_out(plan, given, steps))
        steps("place")
        proposal = placement.propose(
            layout.plan,
            layout.outline,
            layout.axis,
            count=count,
            near=layout.plan.holes,
            progress=progress,
        )
        layout = job.with_plan(layout, edit.with_holes(layout.plan, proposal.holes))
        steps("divide")
        layout, choice = dividing.with_seams_chosen(layout, progress)
        parted = dividing.divided(layout, progress, choice)
        evaluation = dividing.joined(job.evaluated(layout, steps), parted)
        limits = sheet_limits.asked(layout, evaluation, given, progress)
        told = report.report(
            layout,
            evaluation,
            proposal=proposal,
            seconds=steps.seconds,
            limits=limits,
            **parted.reported,
        )
        steps("write")
        written = outputs.write_all(
            outputs.Result(layout, evaluation, told), targets, artwork, outputs.wish_of(given)
        )
    lines = [
        result.heading(layout),
        *result.placed(layout, evaluation, proposal),
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
