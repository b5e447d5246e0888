"""`show`: the facts about artwork, for a person."""

from collections.abc import Mapping
from pathlib import Path
from typing import Any

import click

from holeplacer.cli import facts, job, outputs
from holeplacer.cli.choices import choice_options
from holeplacer.cli.progress import Progress
from holeplacer.cli.reading import reading_options
from holeplacer.cli.sections import SectionedCommand
from holeplacer.evaluation.layout import Layout

_HELP = """Say what ARTWORK is: size, pieces, strokes, and all that was read, mended and left out.

ARTWORK is a DXF or SVG drawing of the lettering's outline, or a saved plan.

\b
Example:
  holeplacer show sign.svg --width 6ft
"""


@click.command(cls=SectionedCommand, help=_HELP)
@click.argument("artwork", type=outputs.FILE)
@reading_options
@choice_options
@outputs.file_options("report")
def show(artwork: Path, **given: Any) -> int:
    """Print the facts; the rules are loaded and asked only for a report."""
    targets = outputs.targets_of(given, artwork)
    plan = job.opened(artwork, given)
    with Progress() as progress:
        steps = job.Steps(progress)
        layout = job.laid_out(plan, given, steps)
        written = _reported(layout, steps, targets, artwork) if targets else []
    click.echo("\n".join([*facts.artwork_facts(layout), *written]))
    return 0


def _reported(
    layout: Layout, steps: job.Steps, targets: Mapping[str, Path], artwork: Path
) -> list[str]:
    """Write the report; lines that say where it lies."""
    from holeplacer.documents import report

    evaluation = job.evaluated(layout, steps)
    told = report.report(layout, evaluation, seconds=steps.seconds)
    steps("write")
    return outputs.write_all(outputs.Result(layout, evaluation, told), targets, artwork)
