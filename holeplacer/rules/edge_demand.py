"""Edge demand: each thing that asks for metal round a hole, with its figure and its reason.

The one place where the parts of the least edge distance are put together; the rule, the
proposal, the canvas and the ways out all ask here.
"""

from dataclasses import dataclass

from holeplacer.plan.plan import Plan
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


def stud_mm(plan: Plan, diameter_mm: float) -> float:
    """Stud that goes through a hole: the plan's, or the thinner one that a smaller hole takes."""
    if diameter_mm >= plan.standoff.hole_mm:
        return plan.standoff.stud_mm
    return min(plan.standoff.stud_mm, clearance_hole.stud_for_hole(diameter_mm))


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
    least = process.process(plan.sheet.process).least_ligament_mm(plan.sheet.thickness_mm)
    parts = [
        _rule_demand(plan, hole),
        Demand(
            "ligament",
            hole / 2 + plan.limits.ligament_mm,
            f"half of the {hole:.4g} mm hole and {plan.limits.ligament_mm:.4g} mm ligament",
        ),
        Demand(
            "process",
            hole / 2 + least,
            f"half of the {hole:.4g} mm hole and {least:.4g} mm, the least ligament "
            f"{plan.sheet.process} leaves in {plan.sheet.thickness_mm:.4g} mm sheet",
        ),
    ]
    if plan.standoff.washer_mm > 0:
        washer = plan.standoff.washer_mm
        parts.append(
            Demand("washer", washer / 2, f"half of the {washer:.4g} mm washer bears on metal")
        )
    if plan.standoff.cap_mm > 0:
        parts.append(_cap_demand(plan))
    return tuple(parts)


def governing(plan: Plan, diameter_mm: float | None = None) -> Demand:
    """The greatest of the demands."""
    return max(demands(plan, diameter_mm), key=lambda demand: demand.mm)


def _rule_demand(plan: Plan, hole_mm: float) -> Demand:
    entered = plan.limits.edge_distance_mm
    if entered is not None:
        return Demand("edge_distance", entered, f"the edge distance of {entered:.4g} mm entered")
    rule = edge_rule.edge_rule(plan.limits.rule_set)
    stud = stud_mm(plan, hole_mm)
    mm = rule.edge_mm(stud, hole_mm)
    what = f"{stud:.4g} mm stud" if rule.edge_of == "d" else f"{hole_mm:.4g} mm hole"
    factor = mm / (stud if rule.edge_of == "d" else hole_mm)
    return Demand("rule_set", mm, f"{rule.title}: {factor:.3g} × {what}")


def _cap_demand(plan: Plan) -> Demand:
    cap, past = plan.standoff.cap_mm, plan.limits.cap_overhang_mm
    because = f"half of the {cap:.4g} mm cap less {past:.4g} mm it may reach past the edge"
    return Demand("cap", cap / 2 - past, because)
