"""Ways along the axis: how far every stretch and tip is from the nearest hole, exactly.

The way from a point of a branch to the nearest hole is a piecewise-linear function of the point:
between two places that bound a gap it rises from one, peaks, and falls towards the other. So its
greatest value, the spans and the uncovered stretches have closed forms; nothing is sampled.
"""

from dataclasses import dataclass
from functools import cached_property, lru_cache

import numpy as np
import shapely
from numpy.typing import ArrayLike, NDArray
from scipy.sparse import csr_array
from scipy.sparse.csgraph import dijkstra

from holeplacer.geometry.curve import Points
from holeplacer.medial_axis.axis import Axis

Floats = NDArray[np.float64]
Indices = NDArray[np.intp]

LONE = -1
"""Branch number of a point that is a lone node: a blob has no branch."""

_ZERO_WAY_MM = 1e-12
"""Stands for a way of length zero, which a sparse graph can't tell from no way at all."""


@dataclass(frozen=True)
class AxisPoint:
    """A point of the axis.

    Attributes:
        branch: Index of the branch; `LONE` at a lone node.
        s_mm: Way along the branch from its start.
        node: The lone node; -1 on a branch.
    """

    branch: int
    s_mm: float
    node: int = -1


@dataclass(frozen=True, eq=False)
class AxisPoints:
    """Points of the axis, as arrays of one length; the attributes are those of `AxisPoint`."""

    branch: Indices
    s: Floats
    node: Indices

    @staticmethod
    def on_branches(branch: ArrayLike, s: ArrayLike) -> "AxisPoints":
        """Points that all lie on branches."""
        at = np.asarray(branch, np.intp)
        return AxisPoints(at, np.asarray(s, float), np.full(at.shape, -1, np.intp))

    def __len__(self) -> int:
        return len(self.branch)

    def __getitem__(self, chosen: ArrayLike) -> "AxisPoints":
        index = np.asarray(chosen)
        return AxisPoints(self.branch[index], self.s[index], self.node[index])

    def at(self, index: int) -> AxisPoint:
        """One of them."""
        return AxisPoint(int(self.branch[index]), float(self.s[index]), int(self.node[index]))


@dataclass(frozen=True, eq=False)
class Feet:
    """Nearest axis point of each given point, and how far off the axis it lies, mm."""

    points: AxisPoints
    distance: Floats


@dataclass(frozen=True, eq=False)
class Network:
    """The axis as flat arrays. All branches' points are laid out one after the other.

    Attributes:
        start, end, length: (b,) nodes and length of each branch.
        first: (b + 1,) where each branch's points begin in the flat arrays.
        xy, clearance, s: The flat arrays.
        nodes: Number of nodes.
    """

    axis: Axis
    start: Indices
    end: Indices
    length: Floats
    first: Indices
    xy: Points
    clearance: Floats
    s: Floats
    nodes: int

    @cached_property
    def node_graph(self) -> csr_array:
        """(m, m) lengths of branches; parallel ones stand side by side: for shortest ways only."""
        return _graph(self.start, self.end, self.length, self.nodes)

    @cached_property
    def lone(self) -> Indices:
        """Nodes without branches."""
        return np.flatnonzero(self.axis.degree == 0)

    @cached_property
    def _segments(self) -> tuple[shapely.STRtree, Indices, Indices]:
        """Tree over all axis segments, then lone nodes; each segment's branch and first point."""
        last = self.first[1:] - 1
        begin = np.setdiff1d(np.arange(len(self.xy)), last)
        lines = shapely.linestrings(np.stack([self.xy[begin], self.xy[begin + 1]], axis=1))
        blobs = shapely.points(self.axis.node_xy[self.lone])
        branch = np.searchsorted(self.first, begin, side="right") - 1
        return shapely.STRtree(np.concatenate([lines, blobs])), branch, begin

    @cached_property
    def _line(self) -> tuple[Floats, Floats]:
        """All branches on one line, 1 mm apart: where each begins, and where each point is."""
        shift = np.concatenate([[0.0], np.cumsum(self.length + 1.0)])
        return shift, self.s + np.repeat(shift[:-1], np.diff(self.first))

    def locate(self, points: AxisPoints) -> tuple[Indices, Floats]:
        """Flat index of the segment each branch point lies on, and the share of it passed."""
        shift, line = self._line
        at = shift[points.branch] + np.clip(points.s, 0.0, self.length[points.branch])
        index = np.searchsorted(line, at, side="right") - 1
        low, high = self.first[points.branch], self.first[points.branch + 1] - 2
        index = np.clip(index, low, high)
        step = self.s[index + 1] - self.s[index]
        passed = at - line[index]
        return index, np.divide(passed, step, out=np.zeros_like(passed), where=step > 0)


@lru_cache(maxsize=8)
def network(axis: Axis) -> Network:
    """The axis as flat arrays, kept for as long as the axis is in use."""
    count = len(axis.branches)
    sizes = [len(branch.s) for branch in axis.branches]
    empty: list[Floats] = [np.empty(0)]
    return Network(
        axis=axis,
        start=np.fromiter((branch.start for branch in axis.branches), np.intp, count),
        end=np.fromiter((branch.end for branch in axis.branches), np.intp, count),
        length=np.fromiter((branch.length_mm for branch in axis.branches), float, count),
        first=np.concatenate([[0], np.cumsum(sizes)]).astype(np.intp),
        xy=np.concatenate([b.xy for b in axis.branches] or [np.empty((0, 2))]),
        clearance=np.concatenate([b.clearance for b in axis.branches] or empty),
        s=np.concatenate([b.s for b in axis.branches] or empty),
        nodes=len(axis.node_xy),
    )


def places(axis: Axis, points: AxisPoints) -> Points:
    """(n, 2) coordinates of axis points, mm."""
    return _interpolated(axis, points, network(axis).xy, axis.node_xy)


def clearances(axis: Axis, points: AxisPoints) -> Floats:
    """(n,) radius of the inscribed disc at axis points, mm."""
    flat = network(axis).clearance[:, np.newaxis]
    return _interpolated(axis, points, flat, axis.node_clearance[:, np.newaxis])[:, 0]


def feet(axis: Axis, xy: ArrayLike) -> Feet:
    """Nearest axis point of each point.

    Args:
        axis: The axis; it has at least one branch or lone node.
        xy: (n, 2) mm.
    """
    net = network(axis)
    tree, segment_branch, segment_first = net._segments  # noqa: SLF001 (same module)
    at = np.asarray(xy, float).reshape(-1, 2)
    found = np.asarray(tree.nearest(shapely.points(at)), np.intp).reshape(-1)
    on_branch = found < len(segment_first)
    index = np.where(on_branch, found, 0)
    branch = np.full(len(at), LONE, np.intp)
    node = np.full(len(at), -1, np.intp)
    s = np.zeros(len(at))
    foot = np.empty_like(at)
    if len(segment_first):
        begin = segment_first[index]
        origin, along = net.xy[begin], net.xy[begin + 1] - net.xy[begin]
        square = np.maximum((along**2).sum(axis=1), 1e-300)
        share = np.clip(((at - origin) * along).sum(axis=1) / square, 0.0, 1.0)
        foot[:] = origin + share[:, np.newaxis] * along
        s[:] = net.s[begin] + share * (net.s[begin + 1] - net.s[begin])
        branch[on_branch] = segment_branch[index][on_branch]
    lone = ~on_branch
    node[lone] = net.lone[found[lone] - len(segment_first)]
    foot[lone] = axis.node_xy[node[lone]]
    s[lone] = 0.0
    return Feet(AxisPoints(branch, s, node), np.hypot(*(at - foot).T))


def foot(axis: Axis, xy: tuple[float, float]) -> tuple[AxisPoint, float]:
    """Nearest axis point of one point, and its distance, mm."""
    found = feet(axis, [xy])
    return found.points.at(0), float(found.distance[0])


@dataclass(frozen=True, eq=False)
class Reach:
    """Ways from every part of the axis to the nearest of some sites (holes, or other points).

    The axis is cut at the sites into k gaps. From `low` to `high` on its branch a gap's way to
    the nearest site is min(left_way + x, right_way + width - x), x counted from `low`.

    Attributes:
        branch, low, high: (k,) the gaps, in order along each branch.
        left_way, right_way: (k,) way from the gap's ends to the nearest site; 0 at a site itself,
            infinite if none can be reached.
        left_side, right_side: (k,) the site that way leads to and the side it arrives at:
            2 x site for the side towards the branch's start, + 1 for the other; -1 for none.
        node_way, node_side: (m,) the same for the nodes.
        sites: Number of sites.
    """

    branch: Indices
    low: Floats
    high: Floats
    left_way: Floats
    right_way: Floats
    left_side: Indices
    right_side: Indices
    node_way: Floats
    node_side: Indices
    sites: int

    @cached_property
    def joined(self) -> Floats:
        """(k,) way from site to site through each gap."""
        way: Floats = self.left_way + self.right_way + self.high - self.low
        return way

    @cached_property
    def peak_way(self) -> Floats:
        """(k,) greatest way within each gap."""
        peak: Floats = self.joined / 2
        return peak

    @cached_property
    def peak_s(self) -> Floats:
        """(k,) where on the branch it is reached."""
        width = self.high - self.low
        with np.errstate(invalid="ignore"):
            x = (width + self.right_way - self.left_way) / 2
        at: Floats = self.low + np.clip(np.where(np.isfinite(x), x, width / 2), 0.0, width)
        return at

    def gap_of(self, branch: Indices, s: Floats) -> Indices:
        """Gap that holds each branch point; at a site, the gap before or after it."""
        keys = self.branch + self.low / self._longest
        at = branch + np.clip(s, 0.0, self._longest * (1 - 1e-12)) / self._longest
        return np.searchsorted(keys, at, side="right") - 1

    def way_at(self, branch: Indices, s: Floats) -> Floats:
        """(n,) way from each branch point to its nearest site, mm."""
        gap = self.gap_of(branch, s)
        before = np.maximum(s - self.low[gap], 0.0)
        after = np.maximum(self.high[gap] - s, 0.0)
        return np.minimum(self.left_way[gap] + before, self.right_way[gap] + after)

    @cached_property
    def _longest(self) -> float:
        """More than any branch's length: makes branch and way one sorted key."""
        return float(self.high.max(initial=0.0)) * 2 + 1.0

    def beyond(self, radius_mm: float) -> tuple[Indices, Floats, Floats]:
        """Parts of the axis further than a radius from all sites: gap, from and to, mm.

        A part that begins or ends with its gap does so at the very same number.
        """
        width = self.high - self.low
        first = np.clip(radius_mm - self.left_way, 0.0, width)
        last = np.clip(width + self.right_way - radius_mm, 0.0, width)
        far = np.flatnonzero(last > first)
        ends = np.where(last < width, self.low + last, self.high)
        return far, self.low[far] + first[far], ends[far]

    def spans(self) -> tuple[Floats, Indices]:
        """Way from each side of each site to the next site in that direction.

        Returns:
            (sites, 2) ways, infinite where no other site follows; (sites, 2) the site that
            follows, -1 for none. Read-only.
        """
        return self._spans

    @cached_property
    def _spans(self) -> tuple[Floats, Indices]:
        real = (self.left_side != self.right_side) & (self.left_side >= 0) & (self.right_side >= 0)
        one, two = self.left_side[real], self.right_side[real]
        one, two = np.concatenate([one, two]), np.concatenate([two, one])
        way = np.concatenate([self.joined[real]] * 2)
        order = np.argsort(-way, kind="stable")
        spans = np.full(2 * self.sites, np.inf)
        nexts = np.full(2 * self.sites, -1, np.intp)
        spans[one[order]] = way[order]
        nexts[one[order]] = two[order] // 2
        for found in (spans, nexts):
            found.setflags(write=False)
        return spans.reshape(-1, 2), nexts.reshape(-1, 2)


def reach(axis: Axis, sites: AxisPoints) -> Reach:
    """Ways from all of the axis to the nearest site.

    Args:
        axis: The axis.
        sites: (n,) where holes count; several may share a place.
    """
    net = network(axis)
    on_branch = np.flatnonzero(sites.branch >= 0)
    gap = _gaps(net, sites.branch[on_branch], sites.s[on_branch])
    branch, low, high = gap.branch, gap.low, gap.high
    left = np.where(gap.left >= 0, on_branch[gap.left] * 2 + 1, -1) if len(on_branch) else gap.left
    right = np.where(gap.right >= 0, on_branch[gap.right] * 2, -1) if len(on_branch) else gap.right
    bounded = (left >= 0) & (right >= 0)
    joined = ~bounded
    ends_left = np.where(left >= 0, net.nodes + left, net.start[branch])
    ends_right = np.where(right >= 0, net.nodes + right, net.end[branch])
    size = net.nodes + 2 * len(sites)
    graph = _graph(ends_left[joined], ends_right[joined], (high - low)[joined], size)
    sides = np.concatenate([left[left >= 0], right[right >= 0]])
    node_way, node_side = _nearest(graph, sides, net.nodes)
    alone = np.flatnonzero(sites.branch < 0)
    node_way[sites.node[alone]] = 0.0
    node_side[sites.node[alone]] = 2 * alone
    start, end = net.start[branch], net.end[branch]
    return Reach(
        branch=branch,
        low=low,
        high=high,
        left_way=np.where(left >= 0, 0.0, node_way[start]),
        right_way=np.where(right >= 0, 0.0, node_way[end]),
        left_side=np.where(left >= 0, left, node_side[start]),
        right_side=np.where(right >= 0, right, node_side[end]),
        node_way=node_way,
        node_side=node_side,
        sites=len(sites),
    )


@lru_cache(maxsize=8)
def straight_extents(axis: Axis) -> tuple[float, ...]:
    """Greatest straight distance between two axis points of each piece, by piece index, mm.

    Zero for a blob, and for a piece without an axis.
    """
    net = network(axis)
    piece = np.fromiter((branch.piece for branch in axis.branches), np.intp, len(axis.branches))
    of_point = np.repeat(piece, np.diff(net.first))
    extents = []
    for index in range(int(axis.node_piece.max(initial=-1)) + 1):
        hull = shapely.convex_hull(shapely.multipoints(net.xy[of_point == index]))
        corners = shapely.get_coordinates(hull)
        across, up = (corners[:, np.newaxis] - corners).transpose(2, 0, 1)
        extents.append(float(np.hypot(across, up).max(initial=0.0)))
    return tuple(extents)


def route(axis: Axis, start: int, end: int, allowed: NDArray[np.bool_]) -> tuple[int, ...]:
    """Branches of the shortest way between two nodes along allowed branches; none if cut off."""
    net = network(axis)
    chosen = np.flatnonzero(allowed)
    graph = _graph(net.start[chosen], net.end[chosen], net.length[chosen], net.nodes)
    _, before = dijkstra(graph, directed=False, indices=[start], return_predecessors=True)
    found, node = [], end
    while node != start:
        previous = int(before[0, node])
        if previous < 0:
            return ()
        joins = np.sort([net.start[chosen], net.end[chosen]], axis=0) == [
            [min(node, previous)],
            [max(node, previous)],
        ]
        between = chosen[joins.all(axis=0)]
        found.append(int(between[np.argmin(net.length[between])]))
        node = previous
    return tuple(found)


@dataclass(frozen=True, eq=False)
class _Gaps:
    branch: Indices
    low: Floats
    high: Floats
    left: Indices
    right: Indices


def _gaps(net: Network, branch: Indices, s: Floats) -> _Gaps:
    """Cut all branches at sites; left and right are indices into the given sites or -1."""
    count = len(net.start)
    all_branch = np.concatenate([np.arange(count), branch])
    at = np.concatenate([np.full(count, -1.0), np.clip(s, 0.0, net.length[branch])])
    site = np.concatenate([np.full(count, -1), np.arange(len(s))])
    order = np.lexsort((at, all_branch))
    gap_branch, low, left = all_branch[order], np.maximum(at[order], 0.0), site[order]
    high, right = net.length[gap_branch], np.full(len(low), -1)
    follows = np.flatnonzero(gap_branch[1:] == gap_branch[:-1])
    high[follows], right[follows] = low[follows + 1], left[follows + 1]
    return _Gaps(gap_branch.astype(np.intp), low, high, left.astype(np.intp), right.astype(np.intp))


def _graph(one: Indices, two: Indices, way: Floats, size: int) -> csr_array:
    """Symmetric sparse graph of all edges, parallel ones and loops too: for shortest ways only.

    Its rows are laid out here, since scipy's way from pairs to rows takes longer than the search.
    """
    rows, columns = np.concatenate([one, two]), np.concatenate([two, one])
    order = np.lexsort((columns, rows))
    ends = np.zeros(size + 1, np.int32)
    np.cumsum(np.bincount(rows, minlength=size), out=ends[1:])
    ways = np.maximum(np.concatenate([way, way]), _ZERO_WAY_MM)
    return csr_array((ways[order], columns[order].astype(np.int32), ends), shape=(size, size))


def _nearest(graph: csr_array, sides: Indices, nodes: int) -> tuple[Floats, Indices]:
    """Way from each node to the nearest site side, and that side."""
    if not len(sides):
        return np.full(nodes, np.inf), np.full(nodes, -1, np.intp)
    way, _, source = dijkstra(
        graph, directed=True, indices=nodes + sides, return_predecessors=True, min_only=True
    )
    reached = np.isfinite(way[:nodes])
    side = np.where(reached, source[:nodes] - nodes, -1).astype(np.intp)
    return np.where(reached, way[:nodes], np.inf), side


def _interpolated(axis: Axis, points: AxisPoints, flat: Floats, at_node: Floats) -> Floats:
    result = np.empty((len(points), flat.shape[1]))
    lone = points.branch < 0
    result[lone] = at_node[points.node[lone]]
    if not lone.all():
        index, share = network(axis).locate(points[~lone])
        share = share[:, np.newaxis]
        result[~lone] = flat[index] * (1 - share) + flat[index + 1] * share
    return result
