"""Process: a hole under the process's least diameter is marked, and drilled afterwards."""

from functools import lru_cache

from holeplacer.medial_axis.axis import Axis
from holeplacer.outline.outline import Outline
from holeplacer.plan.hole import Hole
from holeplacer.plan.plan import Plan, SheetChoice
from holeplacer.rules.finding import Finding, Place, PlaceKind
from holeplacer.sheet import process

NAME = "process"

_SLACK_MM = 1e-6


def limit(plan: Plan) -> float | None:
    """Smallest hole the process cuts cleanly in this sheet, mm; None where all are drilled."""
    return _limit(plan.sheet)


@lru_cache(maxsize=16)  # asked for every hole at every move of the mouse
def _limit(sheet: SheetChoice) -> float | None:
    return process.process(sheet.process).least_hole_mm(sheet.thickness_mm)


def is_drilled(plan: Plan, diameter_mm: float) -> bool:
    """Whether a hole of this diameter is only marked by the process."""
    least = limit(plan)
    return least is None or diameter_mm < least - _SLACK_MM


def check(plan: Plan, outline: Outline, axis: Axis) -> tuple[Finding, ...]:  # noqa: ARG001 (as every rule)
    """A note for the holes that become centre marks; none where every hole is drilled anyway.

    Holes of the plan's diameter share one note; a hole of its own diameter has its own.
    """
    least = limit(plan)
    if least is None:
        return ()
    small = least - _SLACK_MM
    marked = [hole for hole in plan.holes if plan.diameter_of(hole) < small]
    common = [hole for hole in marked if hole.diameter_mm is None]
    notes = [_note(plan, hole, f"Hole {hole.number}", least) for hole in marked if hole.diameter_mm]
    if common:
        count = len(common)
        who = f"{count} holes" if count > 1 else f"Hole {common[0].number}"
        notes.insert(0, _note(plan, common[0], who, least, whole_plan=count > 1))
    return tuple(notes)


def _note(plan: Plan, hole: Hole, who: str, least: float, *, whole_plan: bool = False) -> Finding:
    diameter, sheet = plan.diameter_of(hole), plan.sheet
    return Finding(
        rule=NAME,
        place=Place(
            PlaceKind.PLAN if whole_plan else PlaceKind.HOLE,
            0 if whole_plan else hole.number,
            (hole.x_mm, hole.y_mm),
        ),
        value=diameter,
        limit=least,
        message=(
            f"{who} of {diameter:.2f} mm: {sheet.process} cuts no hole under {least:.2f} mm "
            f"cleanly in {sheet.thickness_mm:.4g} mm sheet; centre marks to drill take their place"
        ),
        way_out=f"drill them, or take a hole of {least:.2f} mm or more",
        broken=False,
    )
