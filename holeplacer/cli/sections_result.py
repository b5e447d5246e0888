"""Sections result: what dividing the sign came to, in lines for a person."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from holeplacer.cli.dividing import Divided
from holeplacer.cli.facts import both_units
from holeplacer.plan.plan import Plan

if TYPE_CHECKING:  # slow to load, and most jobs divide nothing
    from holeplacer.cutting.division import Compared, Division
    from holeplacer.seams.choice import SeamChoice


def lines(plan: Plan, parted: Divided) -> Iterator[str]:
    """Sections, seams, sheets and what they cost to cut; the usual ways beside."""
    if parted.division is None:
        if plan.seams:
            yield "Sections        not laid on sheets: none is at hand (--stock)"
        return
    seams = len(plan.seams)
    weld = sum(seam.length_mm for seam in plan.seams)
    made = parted.division
    if made.layout is None:
        yield f"Sections        not laid on sheets, {_seams(seams, weld)}"
    else:
        count = len(made.layout.sections)
        yield f"Sections        {count}{_proof(parted.choice)}, {_seams(seams, weld)}"
        yield f"Sheets          {_sheets(made)}"
        yield from (f"                {note}" for note in _unmeasured(made))
    for item in parted.compared:
        yield f"Or              {item.way.name}: {_compared(item)}"


def _proof(choice: SeamChoice | None) -> str:
    if choice is None:
        return ""
    if choice.proven:
        return ", proven: no fewer fit the sheets"
    return f" (at least {choice.lower_bound} are needed)"


def _seams(count: int, weld_mm: float) -> str:
    if not count:
        return "no seam"
    return f"{_counted(count, 'seam')} with {both_units(weld_mm)} of weld"


def _sheets(made: Division) -> str:
    whole = made.whole
    if made.layout is None or whole is None:
        return "none, for sections fit none"
    time = "" if whole.minutes is None else f", about {whole.minutes:.0f} min"
    return (
        f"{len(made.layout.sheets)}, scrap {100 * whole.scrap_share:.1f} %, cut "
        f"{whole.cut_mm / 1e3:.2f} m, {_counted(whole.pierces, 'pierce')}{time}"
    )


def _unmeasured(made: Division) -> Iterator[str]:
    if made.layout is None:
        return
    for number, used in enumerate(made.layout.sheets, start=1):
        if not used.stock.measured:
            yield f"sheet {number} was not measured: measure it before cutting"


def _compared(item: Compared) -> str:
    way = item.way
    near = f", {way.too_near} too near hole, tip or junction" if way.too_near else ""
    misfits = f"; {_counted(way.misfits, 'section')} fit no sheet" if way.misfits else ""
    sheets = f"; sheets {_sheets(item.division)}" if item.division.layout is not None else misfits
    sections = _counted(way.sections, "section")
    return f"{sections}, {_seams(len(way.seams), way.weld_mm)}{near}{sheets}"


def _counted(count: int, noun: str) -> str:
    return f"{count} {noun}" if count == 1 else f"{count} {noun}s"
