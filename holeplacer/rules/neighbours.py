"""Neighbours: holes far enough from each other, and hardware that does not touch."""

import numpy as np
from scipy.spatial import cKDTree

from holeplacer.medial_axis.axis import Axis
from holeplacer.outline.outline import Outline
from holeplacer.plan.hole import Hole
from holeplacer.plan.plan import Plan
from holeplacer.rules import edge_demand, edge_rule
from holeplacer.rules.finding import Finding, Place, PlaceKind

NAME = "neighbours"

_SLACK_MM = 1e-6


def limit(
    plan: Plan, diameter_mm: float | None = None, other_diameter_mm: float | None = None
) -> float:
    """Least distance between the centres of two holes, mm.

    The greatest of: the entered figure, or the rule set's factor times the larger stud or hole;
    both holes' halves and the ligament between them; and the widest hardware, which must not
    touch.

    Args:
        plan: The plan.
        diameter_mm: Diameter of one hole; None takes the plan's.
        other_diameter_mm: Diameter of the other; None takes the first one's.
    """
    one = plan.standoff.hole_mm if diameter_mm is None else diameter_mm
    two = one if other_diameter_mm is None else other_diameter_mm
    return max(mm for mm, _ in _demands(plan, one, two))


def governs(
    plan: Plan, diameter_mm: float | None = None, other_diameter_mm: float | None = None
) -> str:
    """What the limit comes from, with its figures."""
    one = plan.standoff.hole_mm if diameter_mm is None else diameter_mm
    two = one if other_diameter_mm is None else other_diameter_mm
    return max(_demands(plan, one, two))[1]


def check(plan: Plan, outline: Outline, axis: Axis) -> tuple[Finding, ...]:  # noqa: ARG001 (as every rule)
    """Every pair of holes that are too near each other, the lower number first."""
    if len(plan.holes) < 2:
        return ()
    largest = max(plan.diameter_of(hole) for hole in plan.holes)
    xy = np.array([(hole.x_mm, hole.y_mm) for hole in plan.holes])
    findings = []
    for i, j in sorted(cKDTree(xy).query_pairs(limit(plan, largest))):
        apart = float(np.hypot(*(xy[j] - xy[i])))
        finding = _finding(plan, plan.holes[i], plan.holes[j], apart)
        if finding is not None:
            findings.append(finding)
    return tuple(findings)


def _demands(plan: Plan, one_mm: float, two_mm: float) -> tuple[tuple[float, str], ...]:
    hole = max(one_mm, two_mm)
    rule = edge_rule.edge_rule(plan.limits.rule_set)
    stud = edge_demand.stud_mm(plan, hole)
    by_rule = (
        rule.spacing_mm(stud, hole),
        f"{rule.title}: {rule.spacing_factor:.3g} × "
        + (f"{stud:.4g} mm stud" if rule.spacing_of == "d" else f"{hole:.4g} mm hole"),
    )
    entered = plan.limits.neighbour_mm
    asked = by_rule if entered is None else (entered, f"the {entered:.4g} mm entered")
    metal = edge_demand.demands(plan, hole)
    ligament = max(part.mm for part in metal if part.name in ("ligament", "process")) - hole / 2
    across = (one_mm + two_mm) / 2 + ligament
    hardware = plan.standoff
    widest = max(hardware.barrel_mm, hardware.cap_mm, hardware.washer_mm)
    return (
        asked,
        (across, f"half of both holes and {ligament:.4g} mm ligament between them"),
        (widest, f"hardware {widest:.4g} mm wide must not touch"),
    )


def _finding(plan: Plan, one: Hole, two: Hole, apart_mm: float) -> Finding | None:
    diameters = plan.diameter_of(one), plan.diameter_of(two)
    least = limit(plan, *diameters)
    if apart_mm >= least - _SLACK_MM:
        return None
    short = least - apart_mm
    return Finding(
        rule=NAME,
        place=Place(PlaceKind.HOLE, one.number, (one.x_mm, one.y_mm)),
        value=apart_mm,
        limit=least,
        message=(
            f"Holes {one.number} and {two.number} are {apart_mm:.2f} mm apart, at least "
            f"{least:.2f} mm needed ({governs(plan, *diameters)})"
        ),
        way_out=f"move them {short:.2f} mm further apart, or leave one out",
    )
