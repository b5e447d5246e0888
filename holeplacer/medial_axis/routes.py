"""Routes: the stretches of axis that a span or an overhang is measured along."""

from collections import defaultdict
from dataclasses import dataclass
from functools import cached_property, lru_cache

import numpy as np

from holeplacer.geometry.curve import Points
from holeplacer.medial_axis.axis import Axis
from holeplacer.medial_axis.ways import Reach

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


@dataclass(frozen=True)
class Span:
    """The way between two neighbouring sites.

    Attributes:
        sites: Both sites, the first where the route begins.
        parts: The route.
    """

    sites: tuple[int, int]
    parts: tuple[Part, ...]

    @property
    def length_mm(self) -> float:
        """How long it is."""
        return sum(part.length_mm for part in self.parts)


@dataclass(frozen=True, eq=False)
class Routes:
    """Finds routes in the ways to the nearest site.

    Attributes:
        axis: The axis.
        reach: Ways from all of it to the nearest site.
    """

    axis: Axis
    reach: Reach

    def spans(self, longer_mm: float = 0.0, site: int | None = None) -> tuple[Span, ...]:
        """Routes of the spans that `Reach.spans` measures, longest first.

        Args:
            longer_mm: Spans no longer than this are left out.
            site: Only spans of this site; None takes all.
        """
        reach = self.reach
        joined = reach.joined
        left, right = reach.left_side, reach.right_side
        wanted = (left != right) & (left >= 0) & (right >= 0) & (joined > longer_mm)
        if site is not None:
            wanted &= (left // 2 == site) | (right // 2 == site)
        gaps = np.flatnonzero(wanted)
        shortest = reach.spans()[0].reshape(-1)
        found: dict[tuple[float, int, int], int] = {}
        for gap in gaps[np.argsort(-joined[gaps], kind="stable")].tolist():
            way, sides = float(joined[gap]), (int(left[gap]), int(right[gap]))
            if any(abs(shortest[side] - way) <= _SAME_MM for side in sides):
                found.setdefault((round(way, 6), min(sides) // 2, max(sides) // 2), gap)
        return tuple(self._across(gap) for gap in found.values())

    def from_node(self, node: int) -> tuple[Part, ...]:
        """Route from a node to its nearest site; empty if it is there, or none is reached."""
        reach, parts, passed = self.reach, list[Part](), set[int]()
        while 0 < reach.node_way[node] < np.inf and node not in passed:
            passed.add(node)
            gap, forwards = self._homewards(node)
            branch = int(reach.branch[gap])
            low, high = float(reach.low[gap]), float(reach.high[gap])
            parts.append(Part(branch, low, high) if forwards else Part(branch, high, low))
            if self._ends_at_site(gap, high=forwards):
                break
            item = self.axis.branches[branch]
            node = item.end if forwards else item.start
        return tuple(parts)

    def _across(self, gap: int) -> Span:
        """From the site on the gap's left through the gap to the site on its right."""
        reach, branch = self.reach, int(self.reach.branch[gap])
        item = self.axis.branches[branch]
        middle = Part(branch, float(reach.low[gap]), float(reach.high[gap]))
        left = () if self._ends_at_site(gap, high=False) else self.from_node(item.start)
        right = () if self._ends_at_site(gap, high=True) else self.from_node(item.end)
        parts = (*(part.backwards for part in reversed(left)), middle, *right)
        return Span((int(reach.left_side[gap]) // 2, int(reach.right_side[gap]) // 2), parts)

    @cached_property
    def _outer(self) -> tuple[list[int], list[int]]:
        """First and last gap of each branch."""
        branch, count = self.reach.branch, len(self.axis.branches)
        bounds = np.searchsorted(branch, np.arange(count + 1))
        return bounds[:-1].tolist(), (bounds[1:] - 1).tolist()

    def _ends_at_site(self, gap: int, *, high: bool) -> bool:
        """Whether the gap's high (or low) end is a site on the branch, not the branch's end."""
        first, last = self._outer
        branch = int(self.reach.branch[gap])
        return gap != (last[branch] if high else first[branch])

    def _homewards(self, node: int) -> tuple[int, bool]:
        """The gap that leads from a node to its nearest site, and whether it runs forwards.

        Where two sites are equally near, only the one that the ways were measured to counts.
        """
        reach, side = self.reach, self.reach.node_side[node]

        def way(option: tuple[int, bool]) -> tuple[bool, float]:
            gap, forwards = option
            beyond = reach.right_way if forwards else reach.left_way
            sides = reach.right_side if forwards else reach.left_side
            length = float(reach.high[gap] - reach.low[gap] + beyond[gap])
            return bool(sides[gap] != side), length

        first, last = self._outer
        leaving = _leaving(self.axis)[node]
        options = ((first[i] if forwards else last[i], forwards) for i, forwards in leaving)
        return min(options, key=way)


@lru_cache(maxsize=8)  # an axis is compared by identity
def _leaving(axis: Axis) -> dict[int, tuple[tuple[int, bool], ...]]:
    """Branches that meet at each node; True for those that begin there."""
    found: dict[int, list[tuple[int, bool]]] = defaultdict(list)
    for index, branch in enumerate(axis.branches):
        found[branch.start].append((index, True))
        found[branch.end].append((index, False))
    return {node: tuple(leaving) for node, leaving in found.items()}


@lru_cache(maxsize=2)  # asked for several times at each move of a hole
def routes(axis: Axis, reach: Reach) -> Routes:
    """The routes of an axis and the ways along it, kept with what they know already."""
    return Routes(axis, reach)


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
    forwards = 1.0 if part.to_mm >= part.from_mm else -1.0
    return place_at(axis, part.branch, part.from_mm + forwards * min(left, part.length_mm))


def _points(axis: Axis, part: Part) -> Points:
    branch = axis.branches[part.branch]
    low, high = min(part.from_mm, part.to_mm), max(part.from_mm, part.to_mm)
    first, last = np.searchsorted(branch.s, low, "right"), np.searchsorted(branch.s, high, "left")
    points = np.empty((max(int(last - first), 0) + 2, 2))
    points[0], points[-1] = place_at(axis, part.branch, low), place_at(axis, part.branch, high)
    points[1:-1] = branch.xy[first:last]
    return points if part.from_mm <= part.to_mm else points[::-1]


def place_at(axis: Axis, branch: int, s_mm: float) -> tuple[float, float]:
    """Place on a branch at a way along it, kept within the branch."""
    item = axis.branches[branch]
    after = min(max(int(item.s.searchsorted(s_mm, "right")), 1), len(item.s) - 1)
    before, beyond = item.s[after - 1 : after + 1].tolist()
    step = beyond - before
    share = min(max((s_mm - before) / step, 0.0), 1.0) if step > 0 else 0.0
    (x, y), (next_x, next_y) = item.xy[after - 1 : after + 1].tolist()
    return x * (1 - share) + next_x * share, y * (1 - share) + next_y * share
