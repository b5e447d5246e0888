"""Arc fit: a chain of short chords as few arcs and lines, within a tolerance.

A controller that meets thousands of chords slows down at each; arcs it follows at speed. The
chain is gone through once from its start: each step is the longest arc or line that starts at a
vertex of the chain, ends at one, and strays from no vertex between by more than the tolerance and
from no chord by more than that and the sagitta which the chord itself may have. Furthest out are
the vertices, furthest in is where a chord passes the centre. The longest step is found by doubling
and then halving.
"""

import math
from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from holeplacer.geometry.curve import Points, Polyline

_LARGEST_BULGE = math.tan(math.pi / 3)
"""Steps of at most two thirds of a circle; beyond that its centre is badly known."""

_STRAIGHT = 1e-9


def with_arcs(xy: Points, tolerance_mm: float, sagitta_mm: float = 0.0) -> Polyline:
    """An open chain of chords as a polyline with bulges.

    Args:
        xy: (n, 2) points, n >= 2, neighbours different.
        tolerance_mm: Furthest that the polyline may stray from the chain's vertices.
        sagitta_mm: Furthest that the chords stray from the curve they stand for.

    Returns:
        An open polyline from the first point to the last; its vertices are points of the chain.
    """
    fits = _Fit(np.asarray(xy, float), tolerance_mm, sagitta_mm)
    kept, bulges, at, last = [0], [], 0, len(xy) - 1
    while at < last:
        to = _furthest(at, last, fits)
        bulge = fits(at, to)
        bulges.append(0.0 if bulge is None else bulge)
        kept.append(to)
        at = to
    return Polyline(
        np.ascontiguousarray(xy[kept]), np.array([*bulges, 0.0]) if any(bulges) else None
    )


def _furthest(at: int, last: int, fits: Callable[[int, int], float | None]) -> int:
    """The last point that one step reaches: doubled while it fits, then halved in between."""
    good, stride = at + 1, 2
    while at + stride <= last and fits(at, at + stride) is not None:
        good, stride = at + stride, stride * 2
    bad = min(at + stride, last + 1)
    while bad - good > 1:
        middle = (good + bad) // 2
        good, bad = (middle, bad) if fits(at, middle) is not None else (good, middle)
    return good


class _Fit:
    """Whether one arc or line serves a stretch of a chain.

    Args:
        xy: (n, 2) the chain.
        tolerance_mm: Furthest that it may stray from a vertex.
        sagitta_mm: As much more may it stray from a chord.
    """

    def __init__(self, xy: Points, tolerance_mm: float, sagitta_mm: float) -> None:
        self._xy = xy
        self._tolerance = tolerance_mm
        self._sagitta = sagitta_mm

    def __call__(self, begin: int, end: int) -> float | None:
        """Bulge of the step between two points of the chain, 0 for a line; None if none fits."""
        if end - begin == 1:
            return 0.0
        start, chord = self._xy[begin], self._xy[end] - self._xy[begin]
        length = math.hypot(*chord)
        if length == 0.0:
            return None
        along = chord / length
        turn = np.array([along, (-along[1], along[0])])
        vertices = (self._xy[begin : end + 1] - start) @ turn.T
        bulge = _bulge(vertices, length)
        if bulge is None or not self._holds(vertices, length, bulge):
            return None
        return bulge if _goes_on(vertices, length, bulge) else None

    def _holds(self, vertices: Points, length: float, bulge: float) -> bool:
        """Whether all chords, in the frame of the step's own chord, lie near the step."""
        if bulge == 0.0:
            return bool(np.abs(vertices[:, 1]).max() <= self._tolerance)
        radius, centre = _circle(length, bulge)
        around = vertices - centre
        off = np.abs(np.hypot(*around.T) - radius).max()
        step = np.diff(around, axis=0)
        share = -(around[:-1] * step).sum(axis=1) / (step**2).sum(axis=1)
        nearest = around[:-1] + np.clip(share, 0.0, 1.0)[:, None] * step
        furthest_in = radius - np.hypot(*nearest.T).min()
        return bool(off <= self._tolerance and furthest_in <= self._tolerance + self._sagitta)


def _bulge(vertices: Points, length: float) -> float | None:
    """Bulge of the arc through both ends and the point that lies furthest from their chord."""
    apex = int(np.argmax(np.abs(vertices[:, 1])))
    x, y = vertices[apex].tolist()
    if abs(y) <= _STRAIGHT * length:
        return 0.0
    # The chord is seen from any point of the arc under the same angle, pi minus half the sweep.
    seen = math.atan2(abs(y) * length, x * (x - length) + y * y)
    bulge = math.copysign(math.tan((math.pi - seen) / 2), -y)
    return bulge if abs(bulge) <= _LARGEST_BULGE else None


def _circle(length: float, bulge: float) -> tuple[float, tuple[float, float]]:
    """Radius and centre in the frame whose x axis is the chord."""
    radius = length * (1 + bulge**2) / (4 * abs(bulge))
    return radius, (length / 2, length * (1 - bulge**2) / (4 * bulge))


def _goes_on(vertices: Points, length: float, bulge: float) -> bool:
    """Whether the chain runs along the step without turning back."""
    if bulge == 0.0:
        return bool((np.diff(vertices[:, 0]) > 0).all())
    _, (x, y) = _circle(length, bulge)
    around: NDArray[np.float64] = vertices - (x, y)
    turned = around[:-1, 0] * around[1:, 1] - around[:-1, 1] * around[1:, 0]
    return bool((turned * bulge > 0).all())
