"""Candidates: straight cuts across one stroke, from contact to contact of the axis's discs.

Such a cut is a chord of an inscribed disc and so lies in metal and crosses no other stroke; two of
them don't cross. Left out are those too near a hole, a tip or a junction, those beside a fixed
seam, and slanted ones (chord much shorter than the disc is wide), which would run into a corner.
"""

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from holeplacer.geometry.curve import Points
from holeplacer.medial_axis.axis import Axis, Branch
from holeplacer.outline.outline import Outline
from holeplacer.plan.plan import Plan
from holeplacer.plan.seam import Seam
from holeplacer.rules import seam_distance

PITCH_MM = 4.0
"""Way along the axis between two candidates."""

_LEAST_CHORD = 0.9
"""Least chord by clear width."""

_LEAST_MM = 0.1
_INSET = 1e-3
_SLACK_MM = 1e-6

Floats = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Candidates:
    """Cuts in order of branch and way; one row each, all arrays read-only.

    Attributes:
        branch: (n,) index of the branch.
        piece: (n,) index of the outline's piece.
        s: (n,) way along the branch, mm.
        ends: (n, 2, 2) both ends, on the cut edges.
        weld_mm: (n,) length of the cut.
        turn_rad: (n,) by how much the axis turns over a stroke's width about the cut.
        taper: (n,) change of clear width per way along the axis.
        hole_mm, tip_mm, junction_mm: (n,) distance to the nearest hole's edge, tip, junction
            disc; infinite where there is none.
    """

    branch: NDArray[np.intp]
    piece: NDArray[np.intp]
    s: Floats
    ends: Floats
    weld_mm: Floats
    turn_rad: Floats
    taper: Floats
    hole_mm: Floats
    tip_mm: Floats
    junction_mm: Floats

    def __post_init__(self) -> None:
        """Make all arrays read-only."""
        for array in vars(self).values():
            array.setflags(write=False)

    def __len__(self) -> int:
        """Number of cuts."""
        return len(self.s)

    def taken(self, rows: NDArray[np.intp] | NDArray[np.bool_]) -> "Candidates":
        """Only these rows."""
        return Candidates(**{name: array[rows] for name, array in vars(self).items()})

    def seam(self, row: int) -> Seam:
        """One cut as a seam."""
        return Seam(*self.ends[row].ravel().tolist())


def candidates(plan: Plan, outline: Outline, axis: Axis) -> Candidates:
    """All cuts that keep the entered distances.

    Args:
        plan: Its holes, fixed seams and least distance of seams.
        outline: The cut outline.
        axis: Its medial axis.
    """
    rows = [_of_branch(index, branch) for index, branch in enumerate(axis.branches)]
    branch, s, left, right, width, turn, taper = (
        np.concatenate([row[column] for row in rows]) if rows else np.empty(0)
        for column in range(7)
    )
    index = branch.astype(np.intp)
    pieces = np.array([item.piece for item in axis.branches], dtype=np.intp)
    ends = _on_edge(outline, np.stack([left.reshape(-1, 2), right.reshape(-1, 2)], axis=1))
    chord = np.hypot(*(ends[:, 1] - ends[:, 0]).T)
    hole = _distance(ends, *_discs(plan))
    tip, junction = clearances(axis, ends)
    every = Candidates(index, pieces[index], s, ends, chord, turn, taper, hole, tip, junction)
    clear = plan.sections.seam_clear_mm - _SLACK_MM
    room = clear_of_holes(plan, ends) & (tip >= clear) & (junction >= clear)
    across = (chord >= _LEAST_CHORD * width) & (chord > _LEAST_MM)
    kept = every.taken(room & across & _beside_fixed(plan, ends))
    return kept.taken(_within(outline, kept.ends))


def clearances(axis: Axis, ends: Floats) -> tuple[Floats, Floats]:
    """Distance of each cut to the nearest tip and junction disc, mm.

    Args:
        axis: The medial axis.
        ends: (n, 2, 2) ends of the cuts.
    """
    tips = np.array([tip.xy for tip in axis.tips]).reshape(-1, 2)
    junction = axis.degree >= 3
    return (
        _distance(ends, tips, np.zeros(len(tips))),
        _distance(ends, axis.node_xy[junction], axis.node_clearance[junction]),
    )


def clear_of_holes(plan: Plan, ends: Floats) -> NDArray[np.bool_]:
    """Whether each cut keeps every hole's distance from seams.

    Args:
        plan: Its holes and limits.
        ends: (n, 2, 2) ends of the cuts.
    """
    at, _ = _discs(plan)
    least = [seam_distance.limit(plan, plan.diameter_of(hole)) for hole in plan.holes]
    return _distance(ends, at, np.array(least)) >= -_SLACK_MM


def _discs(plan: Plan) -> tuple[Points, Floats]:
    """Centres and radii of the holes."""
    at = np.array([(hole.x_mm, hole.y_mm) for hole in plan.holes]).reshape(-1, 2)
    return at, np.array([plan.diameter_of(hole) / 2 for hole in plan.holes])


def _distance(ends: Floats, at: Points, radius: Floats) -> Floats:
    """Distance of each cut to the nearest disc's edge."""
    if len(at) == 0 or len(ends) == 0:
        return np.full(len(ends), np.inf)
    way = ends[:, None, 1] - ends[:, None, 0]
    to = at[None] - ends[:, None, 0]
    square = np.maximum((way**2).sum(axis=2), 1e-300)
    share = np.clip((to * way).sum(axis=2) / square, 0.0, 1.0)
    off = to - share[..., None] * way
    return np.asarray((np.hypot(off[..., 0], off[..., 1]) - radius).min(axis=1), float)


def _of_branch(index: int, branch: Branch) -> tuple[NDArray[np.generic], ...]:
    """Branch, way, left and right contact, clear width, turn and taper of its stations."""
    count = max(int(branch.length_mm / PITCH_MM), 1)
    s = (np.arange(count) + 0.5) * branch.length_mm / count

    def along(values: Floats, at: Floats) -> Floats:
        return np.interp(at, branch.s, values)

    contacts = np.stack([along(column, s) for column in branch.contacts.reshape(-1, 4).T], axis=1)
    half = along(branch.clearance, s)
    before, after = np.maximum(s - half, 0.0), np.minimum(s + half, branch.length_mm)
    places = [
        np.stack([along(branch.xy[:, 0], at), along(branch.xy[:, 1], at)], axis=1)
        for at in (before, s, after)
    ]
    into, out = places[1] - places[0], places[2] - places[1]
    cross = into[:, 0] * out[:, 1] - into[:, 1] * out[:, 0]
    turn = np.abs(np.arctan2(cross, (into * out).sum(axis=1)))
    step = np.maximum(after - before, 1e-9)
    wider = along(branch.clearance, after) - along(branch.clearance, before)
    taper = np.abs(2 * wider / step)
    return np.full(count, index), s, contacts[:, :2], contacts[:, 2:], 2 * half, turn, taper


def _on_edge(outline: Outline, ends: Floats) -> Floats:
    """Ends moved onto the cut edge: between two axis points contacts were interpolated."""
    if len(ends) == 0:
        return ends.reshape(0, 2, 2)
    return outline.nearest_edge(ends.reshape(-1, 2)).reshape(-1, 2, 2)


def _beside_fixed(plan: Plan, ends: Floats) -> NDArray[np.bool_]:
    """Whether each cut keeps its distance from the seams that stay."""
    fixed = [seam for seam in plan.seams if seam.fixed]
    if not fixed or len(ends) == 0:
        return np.ones(len(ends), bool)
    lines = shapely.linestrings([[(s.x1_mm, s.y1_mm), (s.x2_mm, s.y2_mm)] for s in fixed])
    apart = shapely.distance(shapely.linestrings(ends), shapely.union_all(lines))
    return np.asarray(apart > plan.sections.seam_clear_mm, bool)


def _within(outline: Outline, ends: Floats) -> NDArray[np.bool_]:
    """Whether each cut, but for its very ends, lies in metal."""
    if len(ends) == 0:
        return np.ones(0, bool)
    way = ends[:, 1] - ends[:, 0]
    inner = np.stack([ends[:, 0] + _INSET * way, ends[:, 1] - _INSET * way], axis=1)
    return np.asarray(shapely.contains_properly(outline.region, shapely.linestrings(inner)), bool)
