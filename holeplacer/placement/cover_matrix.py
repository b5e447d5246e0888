"""Cover matrix: which places cover which demands, with only the places that can matter.

For a finite set of demands the places form finitely many classes: those inside the same balls.
On a stretch, a class that no neighbouring class contains begins where the first ball ends after
one has begun, so the ends of the demands' balls are the only places needed. The matrix is exact
for its demands: no place, at any pitch, covers a set of them that no column covers.
"""

from dataclasses import dataclass

import numpy as np
from scipy.sparse import csr_array
from scipy.sparse.csgraph import dijkstra

from holeplacer.medial_axis import ways
from holeplacer.medial_axis.axis import Axis
from holeplacer.medial_axis.ways import AxisPoints, Floats, Indices
from holeplacer.placement import stretches
from holeplacer.placement.stretches import Stretches

_SLACK_MM = 1e-7
_CHUNK = 4_000_000


@dataclass(frozen=True, eq=False)
class CoverMatrix:
    """Places and what they cover.

    Attributes:
        places: (n,) columns, in order of stretch and way.
        covers: (demands, places) 1 where the place is within the demand's radius.
    """

    places: AxisPoints
    covers: csr_array


def cover_matrix(
    axis: Axis,
    room: Stretches,
    points: AxisPoints,
    radius: Floats,
    *,
    groups: tuple[Stretches, ...] = (),
    group_radius: float = 0.0,
    also: AxisPoints | None = None,
) -> CoverMatrix:
    """Places in `room` against demands.

    Args:
        axis: The piece's axis.
        room: Where holes may be.
        points: (m,) the demands, on branches.
        radius: (m,) how far a hole may be from each, mm.
        groups: Sets of stretches; each adds a row, covered by all places within
            `group_radius` of any of its points.
        group_radius: mm.
        also: More places to take as columns, all in `room`.
    """
    balls = [_balls(axis, points, radius)]
    for number, group in enumerate(groups):
        balls.append(_group_ball(axis, group, group_radius, len(points) + number))
    demand, branch, low, high = (np.concatenate(column) for column in zip(*balls, strict=True))
    demand, stretch, low, high = _in_room(room, demand, branch, low, high)
    shift = np.concatenate([[0.0], np.cumsum(room.length + 1.0)])[:-1] - room.low
    low, high = low + shift[stretch], high + shift[stretch]
    line = _first_ends(low, high)
    if also is not None and len(also):
        inside = room.holding(also.branch, also.s)
        line = np.unique(np.concatenate([line, also.s + shift[inside]]))
    covers = _covers(line, demand, low, high, len(points) + len(groups))
    begins = room.low + shift
    on = np.maximum(np.searchsorted(begins, line + _SLACK_MM, side="right") - 1, 0)
    s = np.clip(line - shift[on], room.low[on], room.high[on])
    return CoverMatrix(AxisPoints.on_branches(room.branch[on], s), covers)


def _balls(
    axis: Axis, points: AxisPoints, radius: Floats
) -> tuple[Indices, Indices, Floats, Floats]:
    """All within each demand's radius, as intervals: demand, branch, from, to."""
    net = ways.network(axis)
    order = np.argsort(points.branch, kind="stable")
    size = max(1, _CHUNK // max(net.nodes, 1))
    found = [
        _balls_by_nodes(net, order[first : first + size], points, radius)
        for first in range(0, len(order), size)
    ]
    own = np.arange(len(points))
    length = net.length[points.branch]
    found.append(
        (
            own,
            points.branch,
            np.maximum(points.s - radius, 0.0),
            np.minimum(points.s + radius, length),
        )
    )
    demand, branch, low, high = (np.concatenate(column) for column in zip(*found, strict=True))
    return demand, branch, low, high


def _group_ball(
    axis: Axis, group: Stretches, radius: float, row: int
) -> tuple[Indices, Indices, Floats, Floats]:
    """All within a radius of some stretches: the balls of their ends, and they themselves."""
    ends = AxisPoints.on_branches(
        np.concatenate([group.branch, group.branch]), np.concatenate([group.low, group.high])
    )
    _, branch, low, high = _balls(axis, ends, np.full(len(ends), radius))
    branch = np.concatenate([branch, group.branch])
    low, high = np.concatenate([low, group.low]), np.concatenate([high, group.high])
    whole = stretches.joined(branch, low, high)
    return np.full(len(whole), row), whole.branch, whole.low, whole.high


def _balls_by_nodes(
    net: ways.Network, chosen: Indices, points: AxisPoints, radius: Floats
) -> tuple[Indices, Indices, Floats, Floats]:
    """What the chosen demands reach through nodes."""
    branch, s = points.branch[chosen], points.s[chosen]
    start, end = net.start[branch], net.end[branch]
    nodes, row = np.unique(np.concatenate([start, end]), return_inverse=True)
    limit = float(radius[chosen].max(initial=0.0)) + _SLACK_MM
    way = dijkstra(net.node_graph, directed=True, indices=nodes, limit=limit)
    by_start = way[row[: len(chosen)]] + s[:, np.newaxis]
    by_end = way[row[len(chosen) :]] + (net.length[branch] - s)[:, np.newaxis]
    budget = radius[chosen, np.newaxis] - np.minimum(by_start, by_end)
    demand, node = np.nonzero(budget >= 0)
    left = budget[demand, node]
    ends = np.concatenate([net.start, net.end])
    sort = np.argsort(ends, kind="stable")
    first = np.searchsorted(ends[sort], np.arange(net.nodes + 1))
    pair, member = stretches.runs(first[node], first[node + 1])
    incident = sort[member]
    at_end = incident >= len(net.start)
    reached = incident - np.where(at_end, len(net.start), 0)
    length, left = net.length[reached], left[pair]
    low = np.where(at_end, np.maximum(length - left, 0.0), 0.0)
    high = np.where(at_end, length, np.minimum(left, length))
    return chosen[demand[pair]], reached, low, high


def _in_room(
    room: Stretches, demand: Indices, branch: Indices, low: Floats, high: Floats
) -> tuple[Indices, Indices, Floats, Floats]:
    """Cut intervals to the stretches: demand, stretch, from, to."""
    first = np.searchsorted(room.branch, branch, side="left")
    last = np.searchsorted(room.branch, branch, side="right")
    ball, stretch = stretches.runs(first, last)
    low = np.maximum(low[ball], room.low[stretch])
    high = np.minimum(high[ball], room.high[stretch])
    real = low <= high + _SLACK_MM
    return demand[ball[real]], stretch[real], low[real], np.maximum(high[real], low[real])


def _first_ends(low: Floats, high: Floats) -> Floats:
    """Ends of intervals that come right after a beginning, along one line."""
    at = np.concatenate([low - _SLACK_MM, high])
    ending = np.repeat([False, True], len(low))
    order = np.lexsort((ending, at))
    ending, at = ending[order], at[order]
    first = ending.copy()
    first[1:] &= ~ending[:-1]
    ends: Floats = at[first]
    return ends


def _covers(line: Floats, demand: Indices, low: Floats, high: Floats, rows: int) -> csr_array:
    first = np.searchsorted(line, low - _SLACK_MM, side="left")
    last = np.searchsorted(line, high + _SLACK_MM, side="right")
    ball, column = stretches.runs(first, last)
    ones = np.ones(len(column), np.int32)
    matrix = csr_array((ones, (demand[ball], column)), shape=(rows, len(line)))
    matrix.sum_duplicates()
    matrix.data[:] = 1
    return matrix
