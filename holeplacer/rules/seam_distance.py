"""Seam distance: holes far enough from the seams along which sections are cut and welded.

Until it is welded a seam is a cut edge, so that the edge distance counts towards it; then heat,
filler and grinding need room, so that a hole's edge stays as far away as is entered.
"""

from functools import lru_cache

import numpy as np

from holeplacer.geometry.curve import Points
from holeplacer.medial_axis.axis import Axis
from holeplacer.outline.outline import Outline
from holeplacer.plan.hole import Hole
from holeplacer.plan.plan import Plan
from holeplacer.plan.seam import Seam
from holeplacer.rules import edge_distance
from holeplacer.rules.finding import Finding, Place, PlaceKind

NAME = "seam_distance"


def limit(plan: Plan, diameter_mm: float | None = None) -> float:
    """Least distance from a hole's centre to a seam, mm.

    Args:
        plan: The plan.
        diameter_mm: Hole diameter; None takes the plan's.
    """
    return _governing(plan, diameter_mm)[0]


def governs(plan: Plan, diameter_mm: float | None = None) -> str:
    """What the limit comes from, with its figures."""
    return _governing(plan, diameter_mm)[1]


def check(plan: Plan, outline: Outline, axis: Axis) -> tuple[Finding, ...]:  # noqa: ARG001 (as every rule)
    """Every hole too near a seam, the nearest seam named."""
    if not plan.seams or not plan.holes:
        return ()
    apart = distances(plan.seams, np.array([(hole.x_mm, hole.y_mm) for hole in plan.holes]))
    nearest = apart.argmin(axis=1)
    diameters = [plan.diameter_of(hole) for hole in plan.holes]
    least = {
        diameter: limit(plan, diameter) - edge_distance.SLACK_MM for diameter in set(diameters)
    }
    found = []
    for row, hole in enumerate(plan.holes):
        seam = int(nearest[row])
        value = float(apart[row, seam])
        if value < least[diameters[row]]:
            found.append(_finding(plan, hole, seam, value))
    return tuple(found)


def distances(seams: tuple[Seam, ...], at: Points) -> Points:
    """(n, m) distance of each point to each seam, mm.

    Args:
        seams: m seams.
        at: (n, 2) points.
    """
    ends = _ends(seams)
    way = ends[:, 1] - ends[:, 0]
    to = at[:, None] - ends[None, :, 0]
    square = np.maximum((way**2).sum(axis=1), 1e-300)
    share = np.clip((to * way).sum(axis=2) / square, 0.0, 1.0)
    off = to - share[..., None] * way
    return np.asarray(np.hypot(off[..., 0], off[..., 1]), float)


@lru_cache(maxsize=4)  # while a hole is dragged the seams stay
def _ends(seams: tuple[Seam, ...]) -> Points:
    rows = [(seam.x1_mm, seam.y1_mm, seam.x2_mm, seam.y2_mm) for seam in seams]
    ends = np.array(rows, float).reshape(-1, 2, 2)
    ends.setflags(write=False)
    return ends


def _governing(plan: Plan, diameter_mm: float | None) -> tuple[float, str]:
    diameter = plan.standoff.hole_mm if diameter_mm is None else diameter_mm
    clear = plan.sections.seam_clear_mm
    return max(
        (
            clear + diameter / 2,
            f"half the hole and {clear:.4g} mm for heat, filler and grinding",
        ),
        (
            edge_distance.limit(plan, diameter),
            f"as to a cut edge: {edge_distance.governs(plan, diameter)}",
        ),
    )


def _finding(plan: Plan, hole: Hole, seam: int, value: float) -> Finding:
    diameter = plan.diameter_of(hole)
    least = limit(plan, diameter)
    return Finding(
        rule=NAME,
        place=Place(PlaceKind.HOLE, hole.number, (hole.x_mm, hole.y_mm)),
        value=value,
        limit=least,
        message=(
            f"Hole {hole.number} is {value:.2f} mm from seam {seam + 1}, at least {least:.2f} mm "
            f"needed ({governs(plan, diameter)})"
        ),
        way_out=f"move hole or seam {least - value:.2f} mm along the stroke",
    )
