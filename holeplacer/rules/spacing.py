"""Spacing and overhang: greatest distance between neighbouring holes, and from a tip to its hole.

Held exactly so: no axis point is further along the axis than spacing / 2 from a hole, and no tip
further than the overhang, measured along the axis to the axis end plus the tip's reach beyond it.
On a plain stroke the first is centre-to-centre spacing; through a junction the arms share the
hole. A hole off the axis counts at its foot on the axis if its own inscribed disc reaches there.
A corner (an end branch whose tip lies no further from its junction than 1.5 times the radius of
the junction's disc) demands nothing of its own. Ways never lead from one piece to another.
"""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray
from scipy.sparse.csgraph import dijkstra

from holeplacer.geometry.curve import Points
from holeplacer.medial_axis import ways
from holeplacer.medial_axis.axis import Axis
from holeplacer.medial_axis.ways import AxisPoint, AxisPoints, Floats, Indices, Reach
from holeplacer.outline.outline import Outline
from holeplacer.plan.plan import Plan
from holeplacer.rules import ways_out
from holeplacer.rules.finding import Finding, Place, PlaceKind

NAME = "spacing"

SLACK_MM = 1e-6
"""A hole exactly at its limit satisfies it in spite of rounding."""

CORNER_REACH = 1.5
"""Radii of the junction's disc within which a branch is a corner; pruning uses the same figure."""


@dataclass(frozen=True, eq=False)
class Tips:
    """Overhang at each tip of the axis, in the axis's order.

    Attributes:
        way_mm: (t,) way from the tip to the nearest hole; infinite if there is none.
        demanded: (t,) False for corners.
    """

    way_mm: Floats
    demanded: NDArray[np.bool_]


@dataclass(frozen=True, eq=False)
class Uncovered:
    """One connected part of the axis that is too far from all holes.

    Attributes:
        lines: Its polylines, (k, 2) each, mm.
        length_mm: Their length.
        way_mm: Greatest way from it to the nearest hole; infinite if there is none.
        xy: Where that is.
        piece: Index of the piece.
        clearance_mm: Greatest clearance along it: the edge distance a hole in it could have.
    """

    lines: tuple[Points, ...]
    length_mm: float
    way_mm: float
    xy: tuple[float, float]
    piece: int
    clearance_mm: float


@dataclass(frozen=True, eq=False)
class Far:
    """Parts of branches too far from all holes, corners left out; one entry each.

    Attributes:
        gap: (k,) gap of the reach it lies in.
        branch: (k,) its branch.
        low, high: (k,) ways along the branch.
    """

    gap: Indices
    branch: Indices
    low: Floats
    high: Floats


@dataclass(frozen=True, eq=False)
class Spans:
    """How the plan's holes stand along the axis.

    Attributes:
        span_mm: (n, 2) per hole, in the plan's order: way to the next hole towards the start and
            towards the end of its branch; infinite where none follows.
        next_hole: (n, 2) index of that hole, -1 for none.
        counts: (n,) whether the hole counts: its disc reaches its foot on the axis, and a fastener
            holds its standoff.
        feet: Foot of each hole.
        tips: Overhangs.
        far: What is too far from all holes, branch by branch.
        uncovered: The same, joined where it meets at junctions, and blobs without a hole.
        reach: Ways from all of the axis to the nearest counting hole, from which the rest was
            read; its sites are the counting holes in the plan's order.
    """

    span_mm: Floats
    next_hole: Indices
    counts: NDArray[np.bool_]
    feet: AxisPoints
    tips: Tips
    far: Far
    uncovered: tuple[Uncovered, ...]
    reach: Reach


def limit(plan: Plan) -> float:
    """Greatest span between neighbouring holes, mm; an axis point may be half of it away."""
    return plan.limits.spacing_mm


def overhang_limit(plan: Plan) -> float:
    """Greatest way from a tip to its first hole, mm."""
    return plan.limits.overhang_mm


@lru_cache(maxsize=8)  # asked for at each move of a hole; an axis is compared by identity
def corners(axis: Axis) -> NDArray[np.bool_]:
    """(b,) branches that are corners, not strokes; read-only."""
    is_corner = _corners(axis)
    is_corner.setflags(write=False)
    return is_corner


def _corners(axis: Axis) -> NDArray[np.bool_]:
    net = ways.network(axis)
    is_corner = np.zeros(len(net.start), bool)
    if not axis.tips or not len(net.start):
        return is_corner
    tip_xy = np.full((net.nodes, 2), np.inf)
    tip_xy[[tip.node for tip in axis.tips]] = [tip.xy for tip in axis.tips]
    degree = axis.degree
    for leaf, junction in ((net.start, net.end), (net.end, net.start)):
        ends = (degree[leaf] == 1) & (degree[junction] >= 3)
        apart = np.hypot(*(tip_xy[leaf] - axis.node_xy[junction]).T)
        is_corner |= ends & (apart < CORNER_REACH * axis.node_clearance[junction])
    return is_corner


def counting_feet(outline: Outline, axis: Axis, xy: Points) -> tuple[AxisPoints, NDArray[np.bool_]]:
    """Foot of each hole on the axis, and whether the hole counts there.

    A hole counts if its own inscribed disc reaches its foot. Where the foot is nearer than half
    the clearance there, it does so surely, and the outline needn't be asked.
    """
    found = ways.feet(axis, xy)
    counts = found.distance <= ways.clearances(axis, found.points) / 2
    unsure = np.flatnonzero(~counts)
    if len(unsure):
        counts[unsure] = found.distance[unsure] <= outline.edge_distance(xy[unsure])
    return found.points, counts


def spans(plan: Plan, outline: Outline, axis: Axis) -> Spans:
    """All ways along the axis that the plan's holes are judged by; fast enough for a drag."""
    places = tuple((hole.x_mm, hole.y_mm) for hole in plan.holes)
    fastened = tuple(hole.fastened for hole in plan.holes)
    return _spans(places, fastened, limit(plan), outline, axis)


@lru_cache(maxsize=4)  # the rules and the evaluation all ask for the same ones
def _spans(
    places: tuple[tuple[float, float], ...],
    fastened: tuple[bool, ...],
    spacing_mm: float,
    outline: Outline,
    axis: Axis,
) -> Spans:
    xy = np.array(places).reshape(-1, 2)
    if not len(axis.node_xy):
        return _no_axis(axis, len(xy))
    found = [_counting_foot(outline, axis, place) for place in places]
    feet = AxisPoints(
        np.array([foot.branch for foot, _ in found], np.intp),
        np.array([foot.s_mm for foot, _ in found], float),
        np.array([foot.node for foot, _ in found], np.intp),
    )
    counts = np.array([counts for _, counts in found], bool) & np.array(fastened, bool)
    reach = ways.reach(axis, feet[counts])
    way, following = reach.spans()
    span = np.full((len(xy), 2), np.inf)
    next_hole = np.full((len(xy), 2), -1, np.intp)
    counting = np.flatnonzero(counts)
    span[counting] = way
    if len(counting):
        next_hole[counting] = np.where(following >= 0, counting[following], -1)
    far = _far(axis, reach, spacing_mm / 2 + SLACK_MM)
    return Spans(
        span_mm=span,
        next_hole=next_hole,
        counts=counts,
        feet=feet,
        tips=tip_ways(axis, reach, corners(axis)),
        far=far,
        uncovered=_uncovered(axis, reach, far),
        reach=reach,
    )


@lru_cache(maxsize=4096)  # while one hole is dragged, the others stay
def _counting_foot(
    outline: Outline, axis: Axis, place: tuple[float, float]
) -> tuple[AxisPoint, bool]:
    feet, counts = counting_feet(outline, axis, np.array([place]))
    return feet.at(0), bool(counts[0])


def tip_ways(axis: Axis, reach: Reach, corner: NDArray[np.bool_]) -> Tips:
    """Way from each tip to the nearest site."""
    net = ways.network(axis)
    node = np.array([tip.node for tip in axis.tips], np.intp)
    beyond = np.array([tip.reach_mm for tip in axis.tips], float)
    cornered = np.zeros(net.nodes, bool)
    for nodes in (net.start[corner], net.end[corner]):
        cornered[nodes] = axis.degree[nodes] == 1
    return Tips(reach.node_way[node] + beyond, ~cornered[node])


def check(plan: Plan, outline: Outline, axis: Axis) -> tuple[Finding, ...]:
    """Every stretch too far from all holes, then every tip that hangs over too far."""
    found = spans(plan, outline, axis)
    half = limit(plan) / 2
    stretches = tuple(_stretch_finding(plan, part, half) for part in found.uncovered)
    most = overhang_limit(plan)
    far = found.tips.demanded & (found.tips.way_mm > most + SLACK_MM)
    return stretches + tuple(
        _tip_finding(plan, axis, int(index), float(found.tips.way_mm[index]))
        for index in np.flatnonzero(far)
    )


def _no_axis(axis: Axis, holes: int) -> Spans:
    none = np.full((holes, 2), -1, np.intp)
    return Spans(
        span_mm=np.full((holes, 2), np.inf),
        next_hole=none,
        counts=np.zeros(holes, bool),
        feet=AxisPoints(none[:, 0], np.zeros(holes), none[:, 0]),
        tips=Tips(np.empty(0), np.empty(0, bool)),
        far=Far(none[:0, 0], none[:0, 0], np.empty(0), np.empty(0)),
        uncovered=(),
        reach=ways.reach(axis, AxisPoints.on_branches([], [])),
    )


def _far(axis: Axis, reach: Reach, radius_mm: float) -> Far:
    gap, low, high = reach.beyond(radius_mm)
    wanted = ~corners(axis)[reach.branch[gap]]
    gap = gap[wanted]
    return Far(gap, reach.branch[gap], low[wanted], high[wanted])


def _uncovered(axis: Axis, reach: Reach, far: Far) -> tuple[Uncovered, ...]:
    groups = connected(axis, far.branch, far.low, far.high)
    joined = tuple(_joined(reach, far, members) for members in groups)
    return tuple(_part(axis, *part) for part in joined) + _bare_blobs(axis, reach)


def _bare_blobs(axis: Axis, reach: Reach) -> tuple[Uncovered, ...]:
    lone = ways.network(axis).lone
    return tuple(
        Uncovered(
            lines=(),
            length_mm=0.0,
            way_mm=np.inf,
            xy=_pair(axis.node_xy[node]),
            piece=int(axis.node_piece[node]),
            clearance_mm=float(axis.node_clearance[node]),
        )
        for node in lone[np.isinf(reach.node_way[lone])]
    )


def connected(axis: Axis, branch: Indices, low: Floats, high: Floats) -> list[Indices]:
    """Groups of parts of branches that meet at nodes, as indices of the parts."""
    if not len(branch):
        return []
    net = ways.network(axis)
    starts = np.where(low <= 0.0, net.start[branch], -1).tolist()
    ends = np.where(high >= net.length[branch], net.end[branch], -1).tolist()
    # At a drag there are few parts: a sparse graph would take longer to build than to walk.
    first = list(range(len(branch)))
    reached: dict[int, int] = {}
    for part, nodes in enumerate(zip(starts, ends, strict=True)):
        for node in nodes:
            if node >= 0:
                one, two = _first(first, part), _first(first, reached.setdefault(node, part))
                first[max(one, two)] = min(one, two)
    label = np.array([_first(first, part) for part in range(len(branch))], np.intp)
    return [np.flatnonzero(label == value) for value in np.unique(label)]


def _first(first: list[int], part: int) -> int:
    """The first part of a part's group, to which all that was walked through now leads."""
    while first[part] != part:
        first[part] = first[first[part]]
        part = first[part]
    return part


_Parts = tuple[tuple[int, float, float], ...]
"""Branch, and the ways along it at which a part begins and ends."""


def _joined(reach: Reach, far: Far, members: Indices) -> tuple[_Parts, tuple[int, float], float]:
    """The parts of a group, where it is furthest from all holes, and how far."""
    peaks = reach.peak_way[far.gap[members]]
    worst = int(np.argmax(peaks))
    deepest = far.gap[members[worst]]
    parts = zip(*(one[members].tolist() for one in (far.branch, far.low, far.high)), strict=True)
    at = int(reach.branch[deepest]), float(reach.peak_s[deepest])
    return tuple(parts), at, float(peaks[worst])


@lru_cache(maxsize=4096)  # while one hole is dragged, what lies elsewhere stays
def _part(axis: Axis, parts: _Parts, worst: tuple[int, float], way_mm: float) -> Uncovered:
    net = ways.network(axis)
    at = AxisPoints.on_branches([worst[0]], [worst[1]])
    return Uncovered(
        lines=tuple(polyline(net, *part) for part in parts),
        length_mm=sum(high - low for _, low, high in parts),
        way_mm=way_mm,
        xy=_pair(ways.places(axis, at)[0]),
        piece=axis.branches[worst[0]].piece,
        clearance_mm=max(_clearance(net, *part) for part in parts),
    )


def polyline(net: ways.Network, branch: int, low: float, high: float) -> Points:
    """Part of a branch as (k, 2) points, mm."""
    part = slice(net.first[branch], net.first[branch + 1])
    s, xy = net.s[part], net.xy[part]
    first, last = s.searchsorted(low, "right"), s.searchsorted(high, "left")
    ends = [[np.interp(at, s, xy[:, 0]), np.interp(at, s, xy[:, 1])] for at in (low, high)]
    line = np.concatenate([ends[:1], xy[first:last], ends[1:]])
    line.setflags(write=False)
    return line


def _clearance(net: ways.Network, branch: int, low: float, high: float) -> float:
    part = slice(net.first[branch], net.first[branch + 1])
    s, clearance = net.s[part], net.clearance[part]
    within = clearance[(s > low) & (s < high)].max(initial=0.0)
    return float(max(within, np.interp([low, high], s, clearance).max()))


def _stretch_finding(plan: Plan, part: Uncovered, half_mm: float) -> Finding:
    if np.isinf(part.way_mm):
        message = f"No hole holds {part.length_mm:.0f} mm of stroke in piece {part.piece + 1}"
    else:
        message = (
            f"{part.length_mm:.0f} mm of stroke lies up to {part.way_mm:.1f} mm along the axis "
            f"from its nearest hole, at most {half_mm:.1f} mm (half the spacing) allowed"
        )
    return Finding(
        rule=NAME,
        place=Place(PlaceKind.STRETCH, part.piece + 1, part.xy, part.length_mm),
        value=part.way_mm,
        limit=half_mm,
        message=message,
        way_out=_spacing_way_out(plan, part),
    )


def _spacing_way_out(plan: Plan, part: Uncovered) -> str:
    """Where to add a hole; or, where no hole fits, what would make room for one."""
    place = f"x {part.xy[0]:.1f}, y {part.xy[1]:.1f} mm"
    cures = ways_out.ways_out(plan, part.clearance_mm)
    if cures:
        first = f"to make room for a hole there: {ways_out.sentence(cures)}"
    else:
        first = f"add a hole near {place}"
    if np.isinf(part.way_mm):
        return first
    asked = np.ceil(part.way_mm * 20) / 10
    return (
        f"{first}; or move a neighbouring hole nearer, or allow a spacing of "
        f"{asked:.1f} mm instead of {limit(plan):.1f} mm"
    )


@lru_cache(maxsize=4)  # the same at every move of the mouse
def room_at_tips(axis: Axis, overhang_mm: float) -> tuple[float, ...]:
    """Greatest clearance within an overhang of each tip, in the axis's order; 0 for none."""
    net = ways.network(axis)
    node = np.array([tip.node for tip in axis.tips], np.intp)
    if not len(node):
        return ()
    to_node = dijkstra(net.node_graph, directed=False, indices=node)
    branch = np.repeat(np.arange(len(net.start)), np.diff(net.first))
    found = []
    for tip, way in zip(axis.tips, to_node, strict=True):
        left = way[net.start[branch]] + net.s
        right = way[net.end[branch]] + net.length[branch] - net.s
        near = np.minimum(left, right) <= overhang_mm - tip.reach_mm
        found.append(float(net.clearance[near].max(initial=0.0)))
    return tuple(found)


def _tip_finding(plan: Plan, axis: Axis, index: int, way_mm: float) -> Finding:
    tip, most = axis.tips[index], overhang_limit(plan)
    x, y = tip.xy
    bare = np.isinf(way_mm)
    message = (
        f"The tip at x {x:.1f}, y {y:.1f} mm has no hole"
        if bare
        else f"The tip at x {x:.1f}, y {y:.1f} mm hangs {way_mm:.1f} mm beyond its first hole"
    )
    cures = ways_out.ways_out(plan, room_at_tips(axis, most)[index])
    room = f"; to make room for one there: {ways_out.sentence(cures)}" if cures else ""
    allow = "" if bare else f"; or allow an overhang of {np.ceil(way_mm * 10) / 10:.1f} mm"
    return Finding(
        rule=NAME,
        place=Place(PlaceKind.STRETCH, int(axis.node_piece[tip.node]) + 1, tip.xy),
        value=way_mm,
        limit=most,
        message=f"{message}, at most {most:.1f} mm allowed",
        way_out=f"place a hole within {most:.1f} mm of it along the stroke{room}{allow}",
    )


def _pair(xy: Points) -> tuple[float, float]:
    return float(xy[0]), float(xy[1])
