"""Edge demand: each thing that asks for metal round a hole, with its figure and its reason.

The one place where the parts of the least edge distance are put together; the rule, the
proposal, the canvas and the ways out all ask here.
"""

from dataclasses import dataclass
from functools import lru_cache

from holeplacer.plan.limits import Limits
from holeplacer.plan.plan import Plan, SheetChoice, StandoffChoice
from holeplacer.rules import edge_rule
from holeplacer.sheet import process
from holeplacer.standoffs import clearance_hole


@dataclass(frozen=True)
class Demand:
    """One part of the least edge distance.

    Attributes:
        name: `rule_set`, `edge_distance` (entered), `ligament` (entered), `process`, `washer`
            or `cap`.
        mm: Least distance from the hole's centre to the cut edge.
        because: How the figure comes about, for a person.
    """

    name: str
    mm: float
    because: str


def stud_mm(standoff: StandoffChoice, hole_mm: float) -> float:
    """Stud through a hole: the hardware's, or the thinner one that a smaller hole takes."""
    if hole_mm >= standoff.hole_mm:
        return standoff.stud_mm
    return min(standoff.stud_mm, clearance_hole.stud_for_hole(hole_mm))


def demands(plan: Plan, diameter_mm: float | None = None) -> tuple[Demand, ...]:
    """Everything that asks for metal round a hole.

    Args:
        plan: The plan.
        diameter_mm: Hole diameter; None takes the plan's.

    Returns:
        The rule set's demand (or the entered one in its place), then ligament, process, and
        washer and cap where there are any.
    """
    hole = plan.standoff.hole_mm if diameter_mm is None else diameter_mm
    return _demands(plan.sheet, plan.standoff, plan.limits, hole)


def governing(plan: Plan, diameter_mm: float | None = None) -> Demand:
    """The greatest of the demands."""
    return max(demands(plan, diameter_mm), key=lambda demand: demand.mm)


@lru_cache(maxsize=1024)  # asked for every hole at every move of the mouse
def _demands(
    sheet: SheetChoice, standoff: StandoffChoice, limits: Limits, hole_mm: float
) -> tuple[Demand, ...]:
    parts = [
        _rule_demand(standoff, limits, hole_mm),
        _ligament_demand(limits, hole_mm),
        _process_demand(sheet, hole_mm),
    ]
    if standoff.washer_mm > 0:
        washer = standoff.washer_mm
        parts.append(
            Demand("washer", washer / 2, f"half of the {washer:.4g} mm washer bears on metal")
        )
    if standoff.cap_mm > 0:
        parts.append(_cap_demand(standoff, limits))
    return tuple(parts)


def _ligament_demand(limits: Limits, hole_mm: float) -> Demand:
    ligament = limits.ligament_mm
    because = f"half of the {hole_mm:.4g} mm hole and {ligament:.4g} mm ligament"
    return Demand("ligament", hole_mm / 2 + ligament, because)


def _process_demand(sheet: SheetChoice, hole_mm: float) -> Demand:
    least = process.process(sheet.process).least_ligament_mm(sheet.thickness_mm)
    because = (
        f"half of the {hole_mm:.4g} mm hole and {least:.4g} mm, the least ligament "
        f"{sheet.process} leaves in {sheet.thickness_mm:.4g} mm sheet"
    )
    return Demand("process", hole_mm / 2 + least, because)


def _rule_demand(standoff: StandoffChoice, limits: Limits, hole_mm: float) -> Demand:
    entered = limits.edge_distance_mm
    if entered is not None:
        return Demand("edge_distance", entered, f"the edge distance of {entered:.4g} mm entered")
    rule = edge_rule.edge_rule(limits.rule_set)
    stud = stud_mm(standoff, hole_mm)
    mm = rule.edge_mm(stud, hole_mm)
    of, what = (stud, "stud") if rule.edge_of == "d" else (hole_mm, "hole")
    return Demand("rule_set", mm, f"{rule.title}: {mm / of:.3g} × {of:.4g} mm {what}")


def _cap_demand(standoff: StandoffChoice, limits: Limits) -> Demand:
    cap, past = standoff.cap_mm, limits.cap_overhang_mm
    because = f"half of the {cap:.4g} mm cap less {past:.4g} mm it may reach past the edge"
    return Demand("cap", cap / 2 - past, because)
