"""Fewest arcs along a smooth stretch of points, their ends anywhere in a band around it.

Across the stretch stands a gate at each point, square to it and as wide as the band on both sides.
Arcs end on gates, at one of a few offsets. From every offset reached so far all arcs to all
offsets on the gates ahead are tried at once, and for each offset only the furthest gate is kept:
a step that has come further can do what one behind it can. The first way that reaches the last
point has the fewest arcs that these offsets allow.

All arcs from A to B of less than a half circle are told apart by one number, the tangent of half
their sweep: any point q between lies on the one for which it is cross / dot of (q - A) and (B - q).
So the arcs that pass a gate are an interval, and those that pass all gates between its ends are
what the intervals share: no circle is ever fitted.

Fewest arcs in a band: after R. L. Scot Drysdale, G. Rote, A. Sturm, Approximation of an open
polygonal curve with a minimum number of circular arcs and biarcs, Computational Geometry 41
(2008), from memory; there their ends are points of the curve.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from holeplacer.geometry.curve import Points

Floats = NDArray[np.float64]
_Complex = NDArray[np.complex128]

OFFSETS = np.array([-0.4, 0.0, 0.4])
"""Where on a gate an arc may end, in half widths. Twice as far out saves 1 % of the arcs for half
as many kinks again beyond 3 degrees; five places save 1 % and take twice the time (measured on
lettering)."""

_MIDDLE = 1
_STEEPEST = 1.7
"""Tangent of half the widest sweep, two thirds of a half circle."""

_FIRST_REACH, _LEAST_REACH = 12, 6
_SWEEPS = 12
"""Rounds of evening out kinks; more change nothing that can be seen."""


@dataclass(frozen=True, eq=False)
class Way:
    """Arcs along a stretch.

    Attributes:
        gates: (m + 1,) gate that each arc starts from, and the last.
        offsets: (m + 1,) where on it, in half widths, + to the left.
        xy: (m + 1, 2) the same as places.
        tangents: (m,) tangent of half of each arc's sweep, + for arcs to the right.
    """

    gates: NDArray[np.intp]
    offsets: Floats
    xy: Points
    tangents: Floats


def fewest(xy: Points, within_mm: float, every: int = 1) -> Way:
    """The fewest arcs that start at the first point, end at the last and pass every gate between.

    Args:
        xy: (n, 2) points, n >= 2, neighbours different.
        within_mm: Half the width of the gates.
        every: Arcs end at every such gate only; n - 1 is a multiple of it.
    """
    search = _Search(xy, within_mm, every)
    gates, offsets = search.nodes()
    places = search.at[gates] + offsets * search.across[gates]
    low, high = search.bounds(gates, places)
    way = np.column_stack([places.real, places.imag])
    way[0], way[-1] = xy[0], xy[-1]
    return Way(gates, offsets, way, _smoothest(places, low, high))


class _Search:
    """Gates, and what has been reached of them."""

    def __init__(self, xy: Points, within_mm: float, every: int) -> None:
        self._every = every
        self.at: _Complex = xy[:, 0] + 1j * xy[:, 1]
        self.last = len(xy) - 1
        course = np.diff(self.at)
        course /= np.abs(course)
        along = np.concatenate([course[:1], course[:-1] + course[1:], course[-1:]])
        size = np.abs(along)
        along = np.where(size > 1e-9, along / np.where(size > 1e-9, size, 1.0), 1.0)
        self.across: _Complex = 1j * along * within_mm
        self.edges = np.array([self.at + self.across, self.at - self.across])
        self._known: list[tuple[int, float, int]] = [(0, 0.0, -1)]

    def nodes(self) -> tuple[NDArray[np.intp], Floats]:
        """Gates and offsets of the way with the fewest arcs."""
        front, reach = [0], _FIRST_REACH
        while True:
            known = [self._known[index] for index in front]
            starts = np.array([gate for gate, _, _ in known])
            offsets = np.array([offset for _, offset, _ in known])
            passed = self._passed(starts, offsets, reach)
            while passed[:, -1].any() and starts.min() + reach * self._every < self.last:
                reach *= 2
                passed = self._passed(starts, offsets, reach)
            away = (self.last - starts) // self._every - 1
            near = np.minimum(away, reach - 1)
            arrived = np.flatnonzero((away < reach) & passed[np.arange(len(front)), near, _MIDDLE])
            if len(arrived):
                return self._back(front[int(arrived[0])])
            front = self._advance(front, starts, passed)
            stride = max(self._known[index][0] for index in front) - int(starts.max())
            reach = max(_LEAST_REACH, stride * 4 // (3 * self._every) + 2)

    def _passed(self, starts: NDArray[np.intp], offsets: Floats, reach: int) -> NDArray[np.bool_]:
        """(s, reach, offsets) whether an arc leads from each start to each place ahead."""
        steps = np.arange(1, reach + 1) * self._every
        inner = np.arange(1, reach * self._every)
        ahead = starts[:, None] + steps
        gates = np.minimum(ahead, self.last)
        begin = self.at[starts] + offsets * self.across[starts]
        ends = self.at[gates][:, :, None] + self.across[gates][:, :, None] * OFFSETS
        left, right = self.edges[:, np.minimum(starts[:, None] + inner, self.last)]
        between = (inner[None, :] < steps[:, None])[:, None, :]
        most = np.where(between, _tangents(begin, left, ends), np.inf).min(axis=-1)
        least = np.where(between, _tangents(begin, right, ends), -np.inf).max(axis=-1)
        passed = (least <= most) & (least < _STEEPEST) & (most > -_STEEPEST)
        passed &= (ahead <= self.last)[:, :, None]
        passed &= (ahead < self.last)[:, :, None] | (OFFSETS == 0.0)
        if not passed.any():
            passed[:, 0, _MIDDLE] = True
        found: NDArray[np.bool_] = passed
        return found

    def _advance(
        self, front: list[int], starts: NDArray[np.intp], passed: NDArray[np.bool_]
    ) -> list[int]:
        """Remember, for each offset, the furthest gate reached there and from where."""
        furthest = passed.shape[1] - np.argmax(passed[:, ::-1], axis=1)
        gates = np.where(passed.any(axis=1), starts[:, None] + furthest * self._every, -1)
        origin, best = gates.argmax(axis=0), gates.max(axis=0)
        first = len(self._known)
        self._known += [
            (int(best[place]), float(OFFSETS[place]), front[int(origin[place])])
            for place in range(len(OFFSETS))
            if best[place] >= 0
        ]
        return list(range(first, len(self._known)))

    def _back(self, index: int) -> tuple[NDArray[np.intp], Floats]:
        """The way that led to a place, and on to the last point."""
        way = [(self.last, 0.0)]
        while index >= 0:
            gate, offset, index = self._known[index]
            way.append((gate, offset))
        gates, offsets = zip(*way[::-1], strict=True)
        return np.array(gates), np.array(offsets)

    def bounds(self, gates: NDArray[np.intp], places: _Complex) -> tuple[Floats, Floats]:
        """Least and largest tangent of half the sweep by which each arc passes its gates."""
        inner = np.arange(self.last + 1)
        arc = np.clip(np.searchsorted(gates, inner, side="left") - 1, 0, len(gates) - 2)
        inner, arc = inner[~np.isin(inner, gates)], arc[~np.isin(inner, gates)]
        low, high = np.full(len(gates) - 1, -np.inf), np.full(len(gates) - 1, np.inf)
        for edge, side, bound in ((0, np.minimum, high), (1, np.maximum, low)):
            q = self.edges[edge, inner]
            side.at(bound, arc, _ratio(q - places[arc], places[arc + 1] - q))
        none = np.isinf(low) & np.isinf(high)
        return (
            np.where(none, 0.0, np.maximum(low, -_STEEPEST)),
            np.where(none, 0.0, np.minimum(high, _STEEPEST)),
        )


def _tangents(begin: _Complex, edge: _Complex, ends: _Complex) -> Floats:
    """(s, j, o, k) tangent of half the sweep of the arc from each start to each end by each edge.

    Args:
        begin: (s,) starts.
        edge: (s, k) points passed.
        ends: (s, j, o) ends.
    """
    return _ratio((edge - begin[:, None])[:, None, None, :], ends[..., None] - edge[:, None, None])


def _ratio(before: _Complex, after: _Complex) -> Floats:
    """Cross over dot; infinite, with the sign of the cross, where the dot is not positive."""
    br, bi, ar, ai = before.real, before.imag, after.real, after.imag
    dot = br * ar + bi * ai
    cross = bi * ar - br * ai
    with np.errstate(divide="ignore", invalid="ignore"):
        ratio: Floats = np.where(dot > 0, cross / dot, np.copysign(np.inf, cross))
    return ratio


def _smoothest(places: _Complex, low: Floats, high: Floats) -> Floats:
    """Of the arcs that pass their gates, those with the smallest kinks between them."""
    course = np.angle(np.diff(places))
    turn = (np.diff(course) + np.pi) % (2 * np.pi) - np.pi
    least, most = np.arctan(low), np.arctan(high)
    half = (least + most) / 2
    count = len(half)
    # An arc leaves its chord's direction by + half its sweep and arrives by - half of it.
    weight = np.full(count, 2.0)
    weight[0] -= 1.0
    weight[-1] -= 1.0
    for index in range(2 * _SWEEPS if count > 1 else 0):
        wanted = np.zeros(count)
        wanted[1:] -= turn + half[:-1]
        wanted[:-1] -= turn + half[1:]
        wanted = np.clip(wanted / weight, least, most)
        half[index % 2 :: 2] = wanted[index % 2 :: 2]
    return np.asarray(np.tan(half))
