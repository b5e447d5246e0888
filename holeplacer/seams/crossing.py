"""Crossing: the seam straight across a stroke at one point of its axis, from cut edge to cut edge.

Its ends are the contacts of the inscribed disc there, so that it lies in metal and crosses no other
stroke.
"""

import math
from dataclasses import dataclass

import numpy as np

from holeplacer.medial_axis import ways
from holeplacer.medial_axis.axis import Axis
from holeplacer.medial_axis.ways import LONE, AxisPoint
from holeplacer.outline.outline import Outline
from holeplacer.plan.plan import Plan
from holeplacer.plan.seam import Seam
from holeplacer.rules import seam_distance
from holeplacer.seams import candidates, seams

_LEAST_MM = 0.1
_SLACK_MM = 1e-6


@dataclass(frozen=True)
class Room:
    """How far a seam is from one thing it keeps away from.

    Attributes:
        what: Such as `hole 7`, `tip` or `junction`.
        value_mm: To a hole's centre, a tip, a junction's disc.
        least_mm: What it must be.
    """

    what: str
    value_mm: float
    least_mm: float

    @property
    def short(self) -> bool:
        """Whether there is less than there must be."""
        return self.value_mm < self.least_mm - _SLACK_MM


def seam_across(outline: Outline, axis: Axis, at: AxisPoint, *, fixed: bool = False) -> Seam | None:
    """The seam at a point of the axis; None at a blob, or where there is nothing to cut.

    Args:
        outline: The cut outline.
        axis: Its medial axis.
        at: Where on it.
        fixed: Whether the seam is to stay where it is.
    """
    if at.branch == LONE:
        return None
    branch = axis.branches[at.branch]
    contacts = [np.interp(at.s_mm, branch.s, column) for column in branch.contacts.reshape(-1, 4).T]
    ends = outline.nearest_edge(np.array(contacts).reshape(2, 2))
    x1, y1, x2, y2 = ends.ravel().tolist()
    seam = Seam(x1, y1, x2, y2, fixed)
    return seam if seam.length_mm > _LEAST_MM else None


def foot_of(axis: Axis, seam: Seam) -> AxisPoint | None:
    """The point of the axis at a seam's middle; None where there is no axis."""
    if not axis.branches:
        return None
    return ways.foot(axis, seam.middle_mm)[0]


def room(plan: Plan, axis: Axis, seam: Seam) -> tuple[Room, ...]:
    """How far a seam is from the hole that limits it most, the nearest tip and junction."""
    ends = np.array([[(seam.x1_mm, seam.y1_mm), (seam.x2_mm, seam.y2_mm)]])
    tip, junction = (float(found[0]) for found in candidates.clearances(axis, ends))
    least = seams.limit(plan)
    found = [Room("tip", tip, least), Room("junction", junction, least)]
    if plan.holes:
        at = np.array([(hole.x_mm, hole.y_mm) for hole in plan.holes])
        apart = seam_distance.distances((seam,), at)[:, 0]
        limits = np.array([seam_distance.limit(plan, plan.diameter_of(h)) for h in plan.holes])
        worst = int(np.argmin(apart - limits))
        number = plan.holes[worst].number
        found.insert(0, Room(f"hole {number}", float(apart[worst]), float(limits[worst])))
    return tuple(item for item in found if math.isfinite(item.value_mm))
