"""Elsewhere: places along the stroke for a hole that can't be where it is, the others kept.

A place has metal enough, is clear of seams, of other holes, of what is blocked in the wall and of
what was found there. Whether strokes and pieces are held from it is not looked at here.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from holeplacer.geometry.curve import Points
from holeplacer.medial_axis import ways
from holeplacer.medial_axis.axis import Axis
from holeplacer.medial_axis.ways import AxisPoint, AxisPoints, Floats, Indices
from holeplacer.outline.outline import Outline
from holeplacer.placement import candidates, wall_room
from holeplacer.placement.stretches import Stretches
from holeplacer.plan.hole import Hole
from holeplacer.plan.plan import Plan
from holeplacer.rules import edge_distance, neighbours, seam_distance, spacing

_GRID_MM = 0.01
_INSET_MM = 0.02
_APART_MM = 0.01
"""Ways to either side of the lost hole are told apart by two points so far from its foot."""


@dataclass(frozen=True, eq=False)
class Places:
    """Places for one hole, the nearest first.

    Attributes:
        axis: The axis they lie on.
        points: (n,) on the axis.
        xy: (n, 2) the same in the plane, rounded to a hundredth, mm.
        way_mm: (n,) way along the axis from the lost hole.
        onward: (n,) whether it leaves the lost hole towards the end of that hole's branch.
    """

    axis: Axis
    points: AxisPoints
    xy: Points
    way_mm: Floats
    onward: NDArray[np.bool_]

    def __len__(self) -> int:
        return len(self.xy)

    def __getitem__(self, chosen: NDArray[np.bool_] | Indices) -> "Places":
        return Places(
            self.axis,
            self.points[chosen],
            self.xy[chosen],
            self.way_mm[chosen],
            self.onward[chosen],
        )

    def halfway(self, other: "Places") -> "Places | None":
        """The place half way between two single ones on one branch and side; else None."""
        branch, s = int(self.points.branch[0]), (self.points.s[0] + other.points.s[0]) / 2
        if branch != other.points.branch[0] or self.onward[0] != other.onward[0]:
            return None
        point = AxisPoints.on_branches([branch], [float(s)])
        way = (self.way_mm + other.way_mm) / 2
        return Places(self.axis, point, _rounded(self.axis, point), way, self.onward)


def places(plan: Plan, outline: Outline, axis: Axis, lost: Hole, *, pitch_mm: float) -> Places:
    """Where a hole like the lost one may be, no further than one spacing along the stroke.

    Args:
        plan: With the holes that stay; the lost one may be among them, if it stays in the sheet.
        outline: The cut outline.
        axis: Its medial axis.
        lost: The hole that can't be where it is.
        pitch_mm: Greatest distance between places tried; ends of what is free are among them.
    """
    foot, _ = ways.foot(axis, (lost.x_mm, lost.y_mm))
    if foot.branch < 0:
        return _measured(axis, AxisPoints.on_branches([], []), foot)
    points = _sampled(_room(plan, outline, axis, plan.diameter_of(lost)), pitch_mm)
    found = _measured(axis, points, foot)
    found = found[found.way_mm <= spacing.limit(plan)]
    return found[np.argsort(found.way_mm, kind="stable")]


def _room(plan: Plan, outline: Outline, axis: Axis, diameter_mm: float) -> Stretches:
    centres = np.array([(hole.x_mm, hole.y_mm) for hole in plan.holes]).reshape(-1, 2)
    apart = [neighbours.limit(plan, diameter_mm, plan.diameter_of(hole)) for hole in plan.holes]
    least = edge_distance.limit(plan, diameter_mm)
    room = candidates.candidates(axis, least, centres, np.array(apart))
    room = wall_room.allowed(plan, outline, axis, room)
    from_seams = seam_distance.limit(plan, diameter_mm)
    return candidates.clear_of_seams(axis, room, plan.seams, from_seams)


def _sampled(room: Stretches, pitch_mm: float) -> AxisPoints:
    count = np.maximum(np.ceil(room.length / pitch_mm).astype(int), 1) + 1
    inset = np.minimum(_INSET_MM, room.length / 2)
    share = np.concatenate([np.linspace(0.0, 1.0, n) for n in count] or [np.empty(0)])
    index = np.repeat(np.arange(len(room)), count)
    s = room.low[index] + inset[index] + share * (room.length - 2 * inset)[index]
    return AxisPoints.on_branches(room.branch[index], s)


def _measured(axis: Axis, points: AxisPoints, foot: AxisPoint) -> Places:
    if not len(points):
        none = np.empty(0)
        return Places(axis, points, np.empty((0, 2)), none, none.astype(bool))
    length = axis.branches[foot.branch].length_mm
    back, on = (
        ways.reach(axis, AxisPoints.on_branches([foot.branch], [s])).way_at(points.branch, points.s)
        for s in (max(foot.s_mm - _APART_MM, 0.0), min(foot.s_mm + _APART_MM, length))
    )
    way = ways.reach(axis, AxisPoints.on_branches([foot.branch], [foot.s_mm])).way_at(
        points.branch, points.s
    )
    return Places(axis, points, _rounded(axis, points), way, on < back)


def _rounded(axis: Axis, points: AxisPoints) -> Points:
    return np.asarray(np.round(ways.places(axis, points) / _GRID_MM) * _GRID_MM)


def pairs(
    before: Plan, without: Plan, outline: Outline, axis: Axis, found: Places
) -> tuple[tuple[int, int], ...]:
    """Two places each that together reach all strokes the lost hole held, the nearest first.

    Args:
        before: The plan with the lost hole.
        without: The same without it.
        outline: The cut outline.
        axis: Its medial axis.
        found: Places to choose from.
    """
    served = _served(before, without, outline, axis, found)
    if not len(found):
        return ()
    one, two = np.triu_indices(len(found), 1)
    good = (served[one] | served[two]).all(axis=1)
    one, two = one[good], two[good]
    order = np.argsort(found.way_mm[one] + found.way_mm[two], kind="stable")
    return tuple(zip(one[order].tolist(), two[order].tolist(), strict=True))


def _served(
    before: Plan, without: Plan, outline: Outline, axis: Axis, found: Places
) -> NDArray[np.bool_]:
    """(n, k) whether each place is near enough to each thing that only the lost hole held."""
    half, most = spacing.limit(before) / 2, spacing.overhang_limit(before)
    bare, had = (spacing.spans(plan, outline, axis) for plan in (without, before))
    strokes = _sampled(Stretches(bare.far.branch, bare.far.low, bare.far.high), 2.0)
    held = had.reach.way_at(strokes.branch, strokes.s) <= half
    strokes = strokes[held]
    lost_tips = [
        tip
        for tip, now, then, asked in zip(
            axis.tips,
            bare.tips.way_mm.tolist(),
            had.tips.way_mm.tolist(),
            bare.tips.demanded.tolist(),
            strict=True,
        )
        if asked and now > most >= then
    ]
    nodes = np.array([tip.node for tip in lost_tips], np.intp)
    beyond = np.array([tip.reach_mm for tip in lost_tips])
    rows = []
    for index in range(len(found)):
        reach = ways.reach(axis, found.points[[index]])
        near = reach.way_at(strokes.branch, strokes.s) <= half
        rows.append(np.concatenate([near, reach.node_way[nodes] + beyond <= most]))
    return np.array(rows, bool)
