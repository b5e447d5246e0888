"""Biarc fit: a chain of short chords as arcs and lines that touch, within a tolerance.

A controller that meets thousands of chords slows down at each; arcs that meet without a kink it
follows at speed. The chain is divided at its corners. Each smooth stretch is gone through once:
every step is the longest biarc, two arcs that share a tangent where they meet, which starts with
the tangent that the step before ended with, ends at a vertex of the chain and strays from it no
further than allowed. It ends in the chain's own direction there. The longest step is found by
doubling and then halving.

Where kinks of a degree or two do no harm, arcs that only share their ends take fewer steps (the
arc fit of R12 drawings).

Source of the biarc with equal tangent lengths: K. M. Bolton, Biarc curves, Computer-Aided Design
7 (1975), from memory; its equation is rederived in `_joints`.
"""

import itertools
import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from holeplacer.geometry.curve import Points, Polyline

Floats = NDArray[np.float64]

CORNER = math.radians(15.0)
"""A kink sharper than this is a corner, unless chords so short make it on a smooth curve."""

_STEEPEST = math.tan(math.pi / 6)
"""Arcs of at most two thirds of a half circle each; beyond that a step is better halved."""

_LINE_MM = 1e-4
"""An arc that rises less than this above its chord is a line."""

_TOUCH = 1e-9


@dataclass(frozen=True, eq=False)
class BiarcFit:
    """Lines and arcs in place of a chain.

    Attributes:
        polyline: They, as steps with bulges; its first vertex is the chain's first.
        kinks: (n,) whether the steps that meet at each vertex do so in a corner.
        deviation_mm: Furthest that a vertex or chord of the chain and the steps are apart.
    """

    polyline: Polyline
    kinks: NDArray[np.bool_]
    deviation_mm: float

    @property
    def entities(self) -> int:
        """Number of lines and arcs."""
        return len(self.polyline.xy) - (0 if self.polyline.closed else 1)


def fitted(
    xy: Points, tolerance_mm: float, flattened_mm: float = 0.0, *, closed: bool = False
) -> BiarcFit:
    """Lines and arcs along a chain of points.

    Args:
        xy: (n, 2) points, neighbours different; a closed chain does not repeat its first.
        tolerance_mm: Furthest that vertices of the chain may be from the steps, and chords too,
            beyond `flattened_mm`.
        flattened_mm: Furthest that the chords stray from the curve they stand for, if known.
        closed: Whether a chord leads from the last point to the first.
    """
    chain = np.asarray(xy, float)
    if closed:
        corners = _corners(np.vstack([chain[-1], chain, chain[0]]), flattened_mm or tolerance_mm)
        first = int(np.argmax(corners)) if corners.any() else _calmest(chain)
        chain, corners = np.roll(chain, -first, axis=0), np.roll(corners, -first)
        chain = np.vstack([chain, chain[:1]])
        ends = np.append(corners, corners[0])
        loop = not corners.any()
    else:
        inner = _corners(chain, flattened_mm or tolerance_mm)
        ends, loop = np.concatenate([[True], inner, [True]]), False
    breaks = [0, *(np.flatnonzero(ends[1:-1]) + 1).tolist(), len(chain) - 1]
    steps = _Steps(chain[0])
    for begin, end in itertools.pairwise(breaks):
        _fit_stretch(steps, _Stretch(chain[begin : end + 1], tolerance_mm, flattened_mm, loop))
    return steps.fit(closed=closed, loop=loop)


class _Steps:
    """Steps put together one by one."""

    def __init__(self, start: Points) -> None:
        self._xy = [start]
        self._bulges: list[float] = []
        self._kinks = [True]
        self._worst = 0.0

    def add(self, to: Points, bulge: float, *, kink: bool) -> None:
        """One more step, and whether it ends in a kink."""
        rise = abs(bulge) * math.hypot(*(to - self._xy[-1])) / 2
        self._xy.append(to)
        self._bulges.append(bulge if rise > _LINE_MM else 0.0)
        self._kinks.append(kink)

    def strays(self, deviation_mm: float) -> None:
        """Remember the largest."""
        self._worst = max(self._worst, deviation_mm)

    def kink(self) -> None:
        """The last step ends in a corner."""
        self._kinks[-1] = True

    def fit(self, *, closed: bool, loop: bool) -> BiarcFit:
        xy, bulges, kinks = np.array(self._xy), np.array([*self._bulges, 0.0]), self._kinks
        kinks[0] = kinks[-1] = not loop
        if closed:
            xy, bulges, kinks = xy[:-1], bulges[:-1], kinks[:-1]
        polyline = Polyline(xy, bulges if bulges.any() else None, closed)
        return BiarcFit(polyline, np.array(kinks), self._worst)


def _corners(chain: Points, flattened_mm: float) -> NDArray[np.bool_]:
    """Whether the chain has a corner at each of its inner points."""
    chord = np.diff(chain, axis=0)
    turn = np.abs(_turns(chord))
    smooth = 4 * flattened_mm / np.hypot(*chord.T)
    sharp: NDArray[np.bool_] = turn > np.maximum(CORNER, 1.5 * (smooth[:-1] + smooth[1:]))
    return sharp


def _calmest(chain: Points) -> int:
    """The point of a closed chain where it turns least for its length."""
    chord = np.diff(np.vstack([chain[-1], chain, chain[0]]), axis=0)
    length = np.hypot(*chord.T)
    return int(np.argmin(np.abs(_turns(chord)) / (length[:-1] + length[1:])))


def _turns(chord: Points) -> Floats:
    before, after = chord[:-1], chord[1:]
    cross = before[:, 0] * after[:, 1] - before[:, 1] * after[:, 0]
    return np.asarray(np.arctan2(cross, (before * after).sum(axis=1)))


class _Stretch:
    """A smooth part of a chain, from corner to corner, and what serves it.

    Args:
        xy: (n, 2) its points.
        tolerance: Furthest from its vertices.
        flattened: As much more from its chords.
        loop: Whether its end goes over into its start.
    """

    def __init__(self, xy: Points, tolerance: float, flattened: float, loop: bool) -> None:
        self.xy = xy
        self.last = len(xy) - 1
        self.loop = loop
        self._vertices = tolerance
        self._chords = tolerance + flattened
        self.heading = _headings(xy, flattened or tolerance, loop)

    def biarc(self, begin: int, end: int) -> "_Biarc | None":
        """The biarc between two points, if it strays little enough."""
        start, chord = self.xy[begin], self.xy[end] - self.xy[begin]
        length = math.hypot(*chord)
        if length <= _TOUCH:
            return None
        along = math.atan2(chord[1], chord[0])
        first, last = (_wrapped(float(self.heading[i]) - along) for i in (begin, end))
        turn = np.array([(chord[0], chord[1]), (-chord[1], chord[0])]) / length
        points = (self.xy[begin : end + 1] - start) @ turn.T
        joint, tangent = _joint(length, first, last)
        one, two = _bulges(joint, length, first, last)
        if max(abs(one), abs(two)) > _STEEPEST:
            return None
        at_vertices, at_chords = _deviation(points, joint, tangent, (one, two))
        if at_vertices > self._vertices or at_chords > self._chords:
            return None
        return _Biarc(start + joint @ turn, one, two, max(at_vertices, at_chords))


@dataclass(frozen=True, eq=False)
class _Biarc:
    joint: Points
    first: float
    second: float
    deviation: float


def _headings(xy: Points, flattened: float, loop: bool) -> Floats:
    """Direction of the curve at each point of a chain.

    That of the circle through it and its neighbours, but no further from either chord than a curve
    can be that strays from it by no more than `flattened`.
    """
    chain = np.vstack([xy[-2], xy, xy[1]]) if loop else xy
    chord = np.diff(chain, axis=0)
    length = np.hypot(*chord.T)
    turn = _turns(chord)
    before, after = length[:-1], length[1:]
    most_before, most_after = 4 * flattened / before, 4 * flattened / after
    share = turn * before / (before + after)
    low = np.maximum(-most_before, turn - most_after)
    high = np.minimum(most_before, turn + most_after)
    share = np.where(low <= high, np.clip(share, low, high), share)
    course = np.arctan2(chord[0, 1], chord[0, 0]) + np.concatenate([[0.0], np.cumsum(turn)])
    inner = np.asarray(course[:-1] + share)
    if loop:
        return inner
    if len(xy) == 2:
        return np.array([course[0], course[0]])
    # At its ends the curve goes on as it does next to them: equal turns on both sides of a chord.
    first = course[0] - np.clip(share[0], -most_before[0], most_before[0])
    last = course[-1] + np.clip(turn[-1] - share[-1], -most_after[-1], most_after[-1])
    return np.concatenate([[first], inner, [last]])


def _wrapped(angle: float) -> float:
    return (angle + math.pi) % (2 * math.pi) - math.pi


def _joint(length: float, first: float, last: float) -> tuple[Points, Points]:
    """Where the two arcs of a biarc along the x axis meet, and their direction there.

    With tangents of equal length d at both ends, the inner corners p + d t1 and q - d t2 lie 2 d
    apart: |v - d t|^2 = 4 d^2, where v = q - p, t = t1 + t2. The joint is midway between them.
    """
    one = np.array([math.cos(first), math.sin(first)])
    two = np.array([math.cos(last), math.sin(last)])
    both = one + two
    across, rest = length * both[0], 4.0 - float(both @ both)
    d = length**2 / (across + math.sqrt(across**2 + rest * length**2) + _TOUCH**2)
    corners = d * one, np.array([length, 0.0]) - d * two
    return (corners[0] + corners[1]) / 2, (corners[1] - corners[0]) / (2 * d)


def _bulges(joint: Points, length: float, first: float, last: float) -> tuple[float, float]:
    """Bulges of both arcs: the chord of an arc turns away from its tangent by half the sweep."""
    to_joint = math.atan2(joint[1], joint[0])
    from_joint = math.atan2(-joint[1], length - joint[0])
    one, two = _wrapped(to_joint - first), _wrapped(last - from_joint)
    return math.tan(one / 2), math.tan(two / 2)


def _deviation(
    points: Points, joint: Points, tangent: Points, bulges: tuple[float, float]
) -> tuple[float, float]:
    """Furthest that vertices and chords are from a biarc; infinite where they turn back.

    The line square to the biarc at its joint divides the chain as it divides the biarc.
    """
    ahead = np.asarray((points - joint) @ tangent)
    passed = ahead > 0.0
    if passed[0] or np.count_nonzero(passed[1:] != passed[:-1]) != 1:
        return math.inf, math.inf
    at = int(np.argmax(passed))
    share = ahead[at - 1] / (ahead[at - 1] - ahead[at])
    middle = points[at - 1] + share * (points[at] - points[at - 1])
    left = _from_arc(np.vstack([points[:at], middle]), points[0], joint, bulges[0])
    right = _from_arc(np.vstack([middle, points[at:]]), joint, points[-1], bulges[1])
    return max(left[0], right[0]), max(left[1], right[1])


def _from_arc(chain: Points, start: Points, end: Points, bulge: float) -> tuple[float, float]:
    """Furthest that vertices and chords of a chain are from the arc or line beside it."""
    chord = end - start
    length = math.hypot(*chord)
    if length <= _TOUCH:
        return math.inf, math.inf
    step = np.diff(chain, axis=0)
    if abs(bulge) * length / 2 <= _LINE_MM:
        away = np.abs((chain - start) @ np.array([-chord[1], chord[0]])) / length
        forward = bool((step @ chord >= -_TOUCH).all())
        return (float(away.max()), float(away.max())) if forward else (math.inf, math.inf)
    radius = length * (1 + bulge**2) / (4 * abs(bulge))
    rise = length * (1 - bulge**2) / (4 * bulge)
    centre = start + chord / 2 + np.array([-chord[1], chord[0]]) / length * rise
    around = chain - centre
    turned = around[:-1, 0] * step[:, 1] - around[:-1, 1] * step[:, 0]
    if (turned * bulge < -_TOUCH).any():
        return math.inf, math.inf
    off = float(np.abs(np.hypot(*around.T) - radius).max())
    square = (step**2).sum(axis=1)
    at = -(around[:-1] * step).sum(axis=1) / np.where(square > 0, square, 1.0)
    nearest = around[:-1] + np.clip(at, 0.0, 1.0)[:, None] * step
    return off, max(off, radius - float(np.hypot(*nearest.T).min()))


def _fit_stretch(steps: _Steps, stretch: _Stretch) -> None:
    """Put the steps along a smooth stretch to the others; it ends in a corner or where it began."""
    at = 0
    while at < stretch.last:
        end, biarc = _furthest(stretch, at)
        if biarc is None:
            steps.kink()
            steps.add(stretch.xy[end], 0.0, kink=True)
        else:
            steps.add(biarc.joint, biarc.first, kink=False)
            steps.add(stretch.xy[end], biarc.second, kink=False)
            steps.strays(biarc.deviation)
        at = end
    steps.kink()


def _furthest(stretch: _Stretch, at: int) -> tuple[int, _Biarc | None]:
    """The end of the longest biarc from a point on: doubled while it fits, then halved."""
    good, best, stride = at + 1, stretch.biarc(at, at + 1), 2
    while best is not None and at + stride <= stretch.last:
        found = stretch.biarc(at, at + stride)
        if found is None:
            break
        good, best, stride = at + stride, found, stride * 2
    bad = min(at + stride, stretch.last + 1)
    while best is not None and bad - good > 1:
        middle = (good + bad) // 2
        found = stretch.biarc(at, middle)
        if found is None:
            bad = middle
        else:
            good, best = middle, found
    return good, best
