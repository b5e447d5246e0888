"""Neighbours: holes far enough from each other, and hardware that does not touch."""

from functools import lru_cache

import numpy as np

from holeplacer.medial_axis.axis import Axis
from holeplacer.outline.outline import Outline
from holeplacer.plan.hole import Hole
from holeplacer.plan.limits import Limits
from holeplacer.plan.plan import Plan, SheetChoice, StandoffChoice
from holeplacer.rules import edge_demand, edge_rule
from holeplacer.rules.finding import Finding, Place, PlaceKind
from holeplacer.sheet import process

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
    return _governing(plan, one, two)[0]


def governs(
    plan: Plan, diameter_mm: float | None = None, other_diameter_mm: float | None = None
) -> str:
    """What the limit comes from, with its figures."""
    one = plan.standoff.hole_mm if diameter_mm is None else diameter_mm
    two = one if other_diameter_mm is None else other_diameter_mm
    return _governing(plan, one, two)[1]


def check(plan: Plan, outline: Outline, axis: Axis) -> tuple[Finding, ...]:  # noqa: ARG001 (as every rule)
    """Every pair of holes that are too near each other, the lower number first."""
    if len(plan.holes) < 2:
        return ()
    from scipy.spatial import cKDTree  # slow to load, and a plan without holes needs none

    largest = max(plan.diameter_of(hole) for hole in plan.holes)
    xy = np.array([(hole.x_mm, hole.y_mm) for hole in plan.holes])
    findings = []
    for i, j in sorted(cKDTree(xy).query_pairs(limit(plan, largest))):
        apart = float(np.hypot(*(xy[j] - xy[i])))
        finding = _finding(plan, plan.holes[i], plan.holes[j], apart)
        if finding is not None:
            findings.append(finding)
    return tuple(findings)


def _governing(plan: Plan, one_mm: float, two_mm: float) -> tuple[float, str]:
    least, most = sorted((one_mm, two_mm))
    return max(_demands(plan.sheet, plan.standoff, plan.limits, least, most))


@lru_cache(maxsize=256)  # asked for every pair of holes at every move of the mouse
def _demands(
    sheet: SheetChoice, hardware: StandoffChoice, limits: Limits, small_mm: float, large_mm: float
) -> tuple[tuple[float, str], ...]:
    rule = edge_rule.edge_rule(limits.rule_set)
    stud = edge_demand.stud_mm(hardware, large_mm)
    of, what = (stud, "stud") if rule.spacing_of == "d" else (large_mm, "hole")
    asked = (
        rule.spacing_mm(stud, large_mm),
        f"{rule.title}: {rule.spacing_factor:.3g} × {of:.4g} mm {what}",
    )
    if limits.neighbour_mm is not None:
        asked = (limits.neighbour_mm, f"the {limits.neighbour_mm:.4g} mm entered")
    least = process.process(sheet.process).least_ligament_mm(sheet.thickness_mm)
    ligament = max(limits.ligament_mm, least)
    widest = max(hardware.barrel_mm, hardware.cap_mm, hardware.washer_mm)
    return (
        asked,
        (
            (small_mm + large_mm) / 2 + ligament,
            f"half of both holes and {ligament:.4g} mm ligament between them",
        ),
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
