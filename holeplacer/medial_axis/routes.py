"""Routes: the stretches of axis that a span or an overhang is measured along."""

from dataclasses import dataclass

import numpy as np

from holeplacer.geometry.curve import Points
from holeplacer.medial_axis.axis import Axis
from holeplacer.medial_axis.ways import Floats, Indices, Reach

_SAME_MM = 1e-6


@dataclass(frozen=True)
class Part:
    """A stretch of one branch, walked from one place to another, either way.

    Attributes:
        branch: Index of the branch.
        from_mm, to_mm: Ways along the branch from its start; falling if walked backwards.
    """

    branch: int
    from_mm: float
    to_mm: float

    @property
    def length_mm(self) -> float:
        """How far it is."""
        return abs(self.to_mm - self.from_mm)

    @property
    def backwards(self) -> "Part":
        """The same stretch walked the other way."""
        return Part(self.branch, self.to_mm, self.from_mm)


def span_routes(axis: Axis, reach: Reach, longer_mm: float = 0.0) -> tuple[tuple[Part, ...], ...]:
    """Routes of the spans between neighbouring sites, those of `Reach.spans`, longest first.

    Args:
        axis: The axis.
        reach: Ways to the nearest site.
        longer_mm: Spans no longer than this are left out.
    """
    joined = reach.left_way + reach.right_way + reach.high - reach.low
    left, right = reach.left_side, reach.right_side
    real = np.flatnonzero((left != right) & (left >= 0) & (right >= 0) & (joined > longer_mm))
    shortest = reach.spans()[0].reshape(-1)
    found: dict[tuple[float, int, int], int] = {}
    for gap in real[np.argsort(-joined[real], kind="stable")].tolist():
        way, sides = float(joined[gap]), (int(left[gap]), int(right[gap]))
        if any(abs(shortest[side] - way) <= _SAME_MM for side in sides):
            found.setdefault((round(way, 6), min(sides) // 2, max(sides) // 2), gap)
    return tuple(_across(axis, reach, gap) for gap in found.values())


def node_route(axis: Axis, reach: Reach, node: int) -> tuple[Part, ...]:
    """Route from a node to its nearest site; empty if the site is there, or none is reached."""
    parts: list[Part] = []
    ends, passed = _Ends(axis, reach), set[int]()
    while 0 < reach.node_way[node] < np.inf and node not in passed:
        passed.add(node)
        gap, forwards = ends.homewards(node)
        branch, low, high = int(reach.branch[gap]), float(reach.low[gap]), float(reach.high[gap])
        parts.append(Part(branch, low, high) if forwards else Part(branch, high, low))
        if ends.at_site(gap, high=forwards):
            break
        node = axis.branches[branch].end if forwards else axis.branches[branch].start
    return tuple(parts)


def polylines(axis: Axis, parts: tuple[Part, ...]) -> tuple[Points, ...]:
    """Points of each part in the order walked, (n, 2) mm, n >= 2."""
    return tuple(_points(axis, part) for part in parts)


def midpoint(axis: Axis, parts: tuple[Part, ...]) -> tuple[float, float]:
    """Place halfway along a route that is not empty."""
    left = sum(part.length_mm for part in parts) / 2
    for part in parts:
        if left <= part.length_mm:
            break
        left -= part.length_mm
    branch = axis.branches[part.branch]
    at = part.from_mm + np.sign(part.to_mm - part.from_mm) * min(left, part.length_mm)
    return (
        float(np.interp(at, branch.s, branch.xy[:, 0])),
        float(np.interp(at, branch.s, branch.xy[:, 1])),
    )


def _across(axis: Axis, reach: Reach, gap: int) -> tuple[Part, ...]:
    """From the site on the gap's left through the gap to the site on its right."""
    branch = int(reach.branch[gap])
    middle = Part(branch, float(reach.low[gap]), float(reach.high[gap]))
    ends = _Ends(axis, reach)
    left: tuple[Part, ...] = ()
    right: tuple[Part, ...] = ()
    if not ends.at_site(gap, high=False):
        left = node_route(axis, reach, axis.branches[branch].start)
    if not ends.at_site(gap, high=True):
        right = node_route(axis, reach, axis.branches[branch].end)
    return (*(part.backwards for part in reversed(left)), middle, *right)


class _Ends:
    """Which gaps meet at a node, and which of their ends is a site."""

    def __init__(self, axis: Axis, reach: Reach) -> None:
        self._reach = reach
        branch = reach.branch
        self._first = np.append(True, branch[1:] != branch[:-1])
        self._last = np.append(branch[1:] != branch[:-1], True)
        starts = np.array([item.start for item in axis.branches], np.intp)
        stops = np.array([item.end for item in axis.branches], np.intp)
        self._low_node: Indices = np.where(self._first, starts[branch], -1)
        self._high_node: Indices = np.where(self._last, stops[branch], -1)

    def at_site(self, gap: int, *, high: bool) -> bool:
        """Whether the gap's high (or low) end is a site on the branch, not the branch's end."""
        return not (self._last if high else self._first)[gap]

    def homewards(self, node: int) -> tuple[int, bool]:
        """The gap that leads from a node to its nearest site, and whether it runs forwards."""
        reach = self._reach
        width = reach.high - reach.low
        out = np.flatnonzero(self._low_node == node)
        back = np.flatnonzero(self._high_node == node)
        over: Floats = np.concatenate(
            [width[out] + reach.right_way[out], width[back] + reach.left_way[back]]
        )
        best = int(np.argmin(over))
        if best < len(out):
            return int(out[best]), True
        return int(back[best - len(out)]), False


def _points(axis: Axis, part: Part) -> Points:
    branch = axis.branches[part.branch]
    low, high = sorted((part.from_mm, part.to_mm))
    inside = (branch.s > low) & (branch.s < high)
    ends = np.array(
        [[np.interp(at, branch.s, branch.xy[:, axis_]) for axis_ in (0, 1)] for at in (low, high)]
    )
    points = np.concatenate([ends[:1], branch.xy[inside], ends[1:]])
    return points if part.from_mm <= part.to_mm else points[::-1].copy()
