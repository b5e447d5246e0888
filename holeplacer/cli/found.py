"""`found`: what can be done about a hole that can't be drilled where the template has it."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import click

from holeplacer.cli import job, outputs
from holeplacer.cli.loading import loading_options
from holeplacer.cli.progress import Progress
from holeplacer.cli.sections import SectionedCommand, option
from holeplacer.errors import InputError
from holeplacer.evaluation import found_blocked
from holeplacer.evaluation.comparison import Figures
from holeplacer.evaluation.found_blocked import Alternative
from holeplacer.plan import edit, plan_file, validity
from holeplacer.plan.plan import Plan

_HELP = """Say what can be done about HOLE of PLAN, which was found blocked on site.

WHAT was met there, such as "steel" or "conduit". Before the sign is cut the hole is moved along
its stroke; afterwards (--cut) it can be left empty, its standoff glued on, or holes drilled on site
close by. All others stay. Ends with 1 if no way keeps every rule that was kept before.

\b
Examples:
  holeplacer found sign.holeplan 7 steel
  holeplacer found sign.holeplan 7 conduit --cut --take 1 --save sign.holeplan
"""

_AS_FOUND = "As found"


@click.command(cls=SectionedCommand, help=_HELP)
@click.argument("plan", type=outputs.FILE)
@click.argument("hole", type=click.IntRange(min=1))
@click.argument("what", default="")
@option(
    _AS_FOUND,
    "--cut/--not-cut",
    "cut",
    default=None,
    help="Whether the sign is cut, so that no hole can be moved. Default: as the plan says.",
)
@option(
    _AS_FOUND,
    "--take",
    type=click.IntRange(min=1),
    metavar="N",
    help="Take the N-th way out into the plan, its papers one revision on; with --save.",
)
@option(_AS_FOUND, "--date", default="", help="Date of that revision, as you write it.")
@loading_options
@outputs.file_options("save")
def found(plan: Path, hole: int, what: str, **given: Any) -> int:
    """List the ways out, each with its figures; take one if asked to."""
    targets = outputs.targets_of(given, plan)
    if (given["take"] is None) != (given["save"] is None):
        raise click.UsageError("--take and --save go together")
    with Progress() as progress:
        saved = plan_file.load_plan(plan)
        layout = job.laid_out_as_saved(saved, job.Steps(progress), given)
        marked = validity.checked(found_blocked.marked(layout.plan, hole, what))
        offered = found_blocked.alternatives(
            marked, layout.outline, layout.axis, hole, cut=given["cut"], progress=progress
        )
    lines = [f"Hole {hole} was found blocked{': ' * bool(what)}{what}", *_listed(offered)]
    if given["take"] is not None:
        chosen = _chosen(marked, offered, given["take"], given["date"])
        chosen = edit.with_loading(chosen, saved.loading)  # others were only tried
        plan_file.save_plan(validity.checked(chosen), targets["save"])
        lines += [
            f"Taken: way {given['take']}, revision {chosen.wall.revisions[-1].number}",
            f"{'Plan':<15} {targets['save']}",
        ]
    click.echo("\n".join(lines))
    return int(not any(item.passes for item in offered))


def _chosen(plan: Plan, offered: tuple[Alternative, ...], number: int, date: str) -> Plan:
    if number > len(offered):
        raise InputError(
            f"there is no way out {number}",
            where="--take",
            remedy=f"take 1 to {len(offered)}" if offered else "there is none",
        )
    return found_blocked.taken(plan, offered[number - 1], date)


def _listed(offered: tuple[Alternative, ...]) -> Iterator[str]:
    if not offered:
        yield "No way out."
    for number, item in enumerate(offered, start=1):
        yield f"{number:>2}. {item.words}"
        yield f"    {'keeps every rule' if item.passes else 'DOES NOT PASS'}"
        yield from (f"    {line}" for line in _compared(item.before, item.after))
        for finding in item.breaks:
            which = "whichever way" if finding in item.beside else "breaks"
            yield f"    {which}: {finding.message}"


def _compared(before: Figures, after: Figures) -> Iterator[str]:
    """Each figure before and after, one line for each that is known."""
    yield f"largest span     {before.largest_span_mm:.1f} -> {after.largest_span_mm:.1f} mm"
    if before.bare_mm or after.bare_mm:
        yield f"out of reach     {before.bare_mm:.1f} -> {after.bare_mm:.1f} mm of stroke"
    if after.utilisation is not None and before.utilisation is not None:
        yield f"utilisation      {before.utilisation:.2f} -> {after.utilisation:.2f}"
    if after.deflection_mm is not None and before.deflection_mm is not None:
        yield f"deflection       {before.deflection_mm:.2f} -> {after.deflection_mm:.2f} mm"
    if before.broken or after.broken:
        yield f"rules broken     {before.broken} -> {after.broken}"
