"""Fewest arcs along a smooth stretch of points, their ends anywhere in a band around it.

Across the stretch stands a gate at each point, square to it and as wide as the band on both sides.
Arcs end on gates, at one of a few offsets. From every offset reached so far all arcs to all
offsets on the gates ahead are tried at once, and for each offset only the furthest gate is kept:
a step that has come further can do what one behind it can. The first way that reaches the last
point has about the fewest arcs that these offsets allow.

All arcs from A to B of less than a half circle are told apart by one number, the tangent of half
their sweep: any point q between lies on the one for which it is cross / dot of (q - A) and (B - q).
So the arcs that pass a gate are an interval, and those that pass all gates between its ends are
what the intervals share: no circle is ever fitted. The directions in which they arrive are an
interval too; the next arc must leave in one of them, or by a small kink beside it.

Fewest arcs in a band: after R. L. Scot Drysdale, G. Rote, A. Sturm, Approximation of an open
polygonal curve with a minimum number of circular arcs and biarcs, Computational Geometry 41
(2008), from memory; there their ends are points of the curve.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from holeplacer.geometry.curve import Points

Floats = NDArray[np.float64]
_Complex = NDArray[np.complex128]

OFFSETS = np.array([-0.4, 0.0, 0.4])
"""Where on a gate an arc may end, in half widths. From 0.3 to 0.8 the number of arcs differs by
half a percent and kinks as little (measured on lettering)."""

_MIDDLE = 1
_STEEPEST = 1.7
"""Tangent of half the widest sweep, two thirds of a half circle."""

_KINK = math.radians(2.5)
"""Arcs meet with no larger kink. Without this there are 3.4 % fewer arcs, one joint in seven kinked
by more than 3 degrees, one in a hundred by more than 10 (measured on lettering)."""

_BORNE = 0.2
"""Where this makes arcs so much shorter, a larger kink is borne: one joint in 150."""

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
    """About the fewest arcs from the first point to the last that pass every gate between.

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


@dataclass(frozen=True)
class _Place:
    """A place that was reached.

    Attributes:
        gate, offset: Where.
        origin: Index of the place that the arc comes from; -1 at the start.
        arrives: Middle of the directions in which arcs arrive there, radians.
        room: How far those are to both sides of it.
    """

    gate: int
    offset: float
    origin: int
    arrives: float
    room: float


@dataclass(frozen=True, eq=False)
class _Ahead:
    """(s, j, o) from each start to each offset of each gate ahead.

    Attributes:
        passed: Whether an arc leads there.
        arrives, room: Directions in which arcs arrive.
    """

    passed: NDArray[np.bool_]
    arrives: Floats
    room: Floats


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
        self._known: list[_Place] = [_Place(0, 0.0, -1, 0.0, math.inf)]

    def nodes(self) -> tuple[NDArray[np.intp], Floats]:
        """Gates and offsets of the way with the fewest arcs."""
        front, reach = [0], _FIRST_REACH
        while True:
            known = [self._known[index] for index in front]
            starts = np.array([place.gate for place in known])
            ahead = self._ahead(known, reach)
            while ahead.passed[:, -1].any() and starts.min() + reach * self._every < self.last:
                reach *= 2
                ahead = self._ahead(known, reach)
            away = (self.last - starts) // self._every - 1
            near = np.minimum(away, reach - 1)
            passed = ahead.passed[np.arange(len(front)), near, _MIDDLE]
            arrived = np.flatnonzero((away < reach) & passed)
            if len(arrived):
                return self._back(front[int(arrived[0])])
            front = self._advance(front, starts, ahead)
            stride = max(self._known[index].gate for index in front) - int(starts.max())
            reach = max(_LEAST_REACH, stride * 4 // (3 * self._every) + 2)

    def _ahead(self, known: list[_Place], reach: int) -> _Ahead:
        """Whether an arc leads from each start to each place ahead, and how it arrives there."""
        course, least, most = self._passing(known, reach)
        free = least <= most
        if not free.any():
            free[:, 0, _MIDDLE] = True
            least[:, 0, _MIDDLE] = most[:, 0, _MIDDLE] = 0.0
        # An arc leaves its chord's direction by + half its sweep and arrives by - half of it.
        arrived = np.array([place.arrives for place in known])[:, None, None]
        room = np.array([place.room for place in known])[:, None, None] + _KINK
        wanted = (arrived - course + np.pi) % (2 * np.pi) - np.pi
        low, high = np.maximum(least, wanted - room), np.minimum(most, wanted + room)
        smooth = low <= high
        # Only a kink that saves most of the way is borne.
        if _furthest(smooth & free) < _BORNE * _furthest(free):
            low, high = np.where(smooth, low, least), np.where(smooth, high, most)
            smooth = free
        return _Ahead(smooth & free, course - (low + high) / 2, (high - low) / 2)

    def _passing(self, known: list[_Place], reach: int) -> tuple[Floats, Floats, Floats]:
        """(s, reach, offsets) courses, least and largest half sweeps of arcs that pass the gates.

        Where there is no arc, or no such place, the least is larger than the largest.
        """
        starts = np.array([place.gate for place in known])
        offsets = np.array([place.offset for place in known])
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
        there = (ahead < self.last)[:, :, None] | (ahead == self.last)[:, :, None] & (OFFSETS == 0)
        least = np.arctan(np.where(there, np.maximum(least, -_STEEPEST), np.inf))
        most = np.arctan(np.where(there, np.minimum(most, _STEEPEST), -np.inf))
        return np.angle(ends - begin[:, None, None]), least, most

    def _advance(self, front: list[int], starts: NDArray[np.intp], ahead: _Ahead) -> list[int]:
        """Remember, for each offset, the furthest gate reached there, from where, and how."""
        reach = ahead.passed.shape[1]
        steps = np.where(ahead.passed, np.arange(reach)[:, None], -1).max(axis=1)
        gates = np.where(steps >= 0, starts[:, None] + (steps + 1) * self._every, -1)
        first = len(self._known)
        for place in np.flatnonzero(gates.max(axis=0) >= 0).tolist():
            room = ahead.room[np.arange(len(front)), steps[:, place], place]
            furthest = gates[:, place] == gates[:, place].max()
            origin = int(np.where(furthest, room, -1.0).argmax())
            at = origin, int(steps[origin, place]), place
            self._known.append(
                _Place(
                    gate=int(gates[origin, place]),
                    offset=float(OFFSETS[place]),
                    origin=front[origin],
                    arrives=float(ahead.arrives[at]),
                    room=float(ahead.room[at]),
                )
            )
        return list(range(first, len(self._known)))

    def _back(self, index: int) -> tuple[NDArray[np.intp], Floats]:
        """The way that led to a place, and on to the last point."""
        way = [(self.last, 0.0)]
        while index >= 0:
            place = self._known[index]
            way.append((place.gate, place.offset))
            index = place.origin
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


def _furthest(passed: NDArray[np.bool_]) -> int:
    """Steps to the furthest gate that any arc leads to."""
    return int(np.flatnonzero(passed.any(axis=(0, 2))).max(initial=-1)) + 1


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
