"""Span deflection: how much each side of each hole gives, beside the length that gives.

A hole's side is the metal that is nearer to it than to any other hole, on the way that leaves it
there. The furthest point of a side is the middle of a span, or an overhang's tip: twice the way to
it is the span, or the span that an overhang counts as, since a cantilever counts as twice its
length (IBC Table 1604.3, footnote; from memory).
"""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from holeplacer.medial_axis import ways
from holeplacer.medial_axis.axis import Axis
from holeplacer.medial_axis.ways import AxisPoints
from holeplacer.rules.spacing import Spans
from holeplacer.structure.response import Response

Floats = NDArray[np.float64]
Indices = NDArray[np.intp]


@dataclass(frozen=True)
class SideDeflection:
    """One side of one hole.

    Attributes:
        hole: Index of the hole in the plan.
        deflection_mm: Greatest deflection of the axis there, without sign; of an overhang that of
            its tip, which goes on straight from the axis's end.
        length_mm: Way from the hole to the side's furthest point.
        overhang: That point is a tip, not the middle of a span.
        at_mm: Where the deflection is.
    """

    hole: int
    deflection_mm: float
    length_mm: float
    overhang: bool
    at_mm: tuple[float, float]


def side_deflections(
    axis: Axis, spans: Spans, stations: tuple[Floats, ...], response: Response
) -> tuple[SideDeflection, ...]:
    """Every side that some metal is nearest to, by hole.

    Args:
        axis: Medial axis.
        spans: How the holes stand along it.
        stations: Per branch, ways along it at which the response is known.
        response: To one case.
    """
    reach = spans.reach
    if not reach.sites or not len(reach.branch):
        return ()
    branch = np.repeat(np.arange(len(stations)), [len(s) for s in stations]).astype(np.intp)
    s = np.concatenate(stations)
    moved = np.concatenate(response.deflection_mm)
    side = _nearest_side(reach, branch, s)
    station = np.flatnonzero(side >= 0)
    ends = _ends(axis)
    side_of_end, moved_end = reach.node_side[ends.node], _beyond(ends, stations, s, moved)
    hung = side_of_end >= 0
    group = np.concatenate([side[station], side_of_end[hung]])
    deflection = np.abs(np.concatenate([moved[station], moved_end[hung]]))
    worst = _greatest(group, deflection, 2 * reach.sites)
    length, at_tip = _lengths(axis, reach)
    holes = np.flatnonzero(spans.counts)
    places = ways.places(axis, AxisPoints.on_branches(branch[station], s[station]))
    places = np.concatenate([places, ends.xy[hung]])
    return tuple(
        SideDeflection(
            hole=int(holes[number // 2]),
            deflection_mm=float(deflection[top]),
            length_mm=float(length[number]),
            overhang=bool(at_tip[number]),
            at_mm=(float(places[top, 0]), float(places[top, 1])),
        )
        for number, top in enumerate(worst.tolist())
        if top >= 0 and length[number] > 0
    )


def allowed_mm(
    axis: Axis,
    spans: Spans,
    stations: tuple[Floats, ...],
    *,
    span_ratio: float,
    overhang_ratio: float,
) -> tuple[Floats, ...]:
    """Deflection allowed at every station: length over ratio of the side it lies on.

    Args:
        axis: Medial axis.
        spans: How the holes stand along it.
        stations: Per branch, ways along it.
        span_ratio: Span over deflection.
        overhang_ratio: Overhang over deflection.

    Returns:
        Per branch, mm; infinite where no hole can be reached.
    """
    counts = np.cumsum([len(s) for s in stations])[:-1]
    reach = spans.reach
    if not reach.sites or not len(reach.branch):
        return tuple(np.full(len(s), np.inf) for s in stations)
    branch = np.repeat(np.arange(len(stations)), [len(s) for s in stations]).astype(np.intp)
    side = _nearest_side(reach, branch, np.concatenate(stations))
    length, at_tip = _lengths(axis, reach)
    by_side = np.where(at_tip, length / overhang_ratio, 2 * length / span_ratio)
    allowed = np.where(side >= 0, by_side[side], np.inf)
    return tuple(np.split(allowed, counts))


def _nearest_side(reach: ways.Reach, branch: Indices, s: Floats) -> Indices:
    """Side of a hole that each branch point is nearest to; -1 where none can be reached."""
    gap = reach.gap_of(branch, s)
    left = reach.left_way[gap] + s - reach.low[gap]
    right = reach.right_way[gap] + reach.high[gap] - s
    return np.where(left <= right, reach.left_side[gap], reach.right_side[gap])


@dataclass(frozen=True, eq=False)
class _Ends:
    """Tips at the end of a branch.

    Attributes:
        node: (t,) the axis end.
        branch: (t,) its branch.
        at_start: (t,) it is that branch's start, not its end.
        reach_mm: (t,) from the axis end to the tip.
        xy: (t, 2) the tip.
    """

    node: Indices
    branch: Indices
    at_start: NDArray[np.bool_]
    reach_mm: Floats
    xy: Floats


@lru_cache(maxsize=4)  # the same wherever the holes are
def _ends(axis: Axis) -> _Ends:
    branch_at = {item.end: number for number, item in enumerate(axis.branches)}
    branch_at |= {item.start: number for number, item in enumerate(axis.branches)}
    tips = [tip for tip in axis.tips if tip.node in branch_at]
    branch = [branch_at[tip.node] for tip in tips]
    pairs = zip(branch, tips, strict=True)
    return _Ends(
        node=np.array([tip.node for tip in tips], np.intp),
        branch=np.array(branch, np.intp),
        at_start=np.array([axis.branches[b].start == tip.node for b, tip in pairs], bool),
        reach_mm=np.array([tip.reach_mm for tip in tips], float),
        xy=np.array([tip.xy for tip in tips], float).reshape(-1, 2),
    )


def _beyond(ends: _Ends, stations: tuple[Floats, ...], s: Floats, moved: Floats) -> Floats:
    """Movement of each tip: on from the axis's end as straight as it leaves it."""
    stop = np.cumsum([len(way) for way in stations])
    start = stop - [len(way) for way in stations]
    last = np.where(ends.at_start, start[ends.branch], stop[ends.branch] - 1)
    before = np.where(ends.at_start, last + 1, last - 1)
    slope = (moved[last] - moved[before]) / np.abs(s[last] - s[before])
    tip: Floats = moved[last] + slope * ends.reach_mm
    return tip


def _greatest(group: Indices, value: Floats, groups: int) -> Indices:
    """Index of the greatest value of each group; -1 for a group without one."""
    order = np.lexsort((value, group))
    last = np.flatnonzero(np.diff(group[order], append=-1))
    found = np.full(groups, -1, np.intp)
    found[group[order][last]] = order[last]
    return found


def _lengths(axis: Axis, reach: ways.Reach) -> tuple[Floats, NDArray[np.bool_]]:
    """Way to the furthest point of each side, and whether that is a tip."""
    length = np.zeros(2 * reach.sites)
    for side in (reach.left_side, reach.right_side):
        near = (side >= 0) & np.isfinite(reach.peak_way)
        np.maximum.at(length, side[near], reach.peak_way[near])
    at_tip = np.zeros(2 * reach.sites, bool)
    for tip in axis.tips:
        side_of_tip, way = int(reach.node_side[tip.node]), float(reach.node_way[tip.node])
        if side_of_tip >= 0 and way + tip.reach_mm > length[side_of_tip]:
            length[side_of_tip], at_tip[side_of_tip] = way + tip.reach_mm, True
    return length, at_tip
