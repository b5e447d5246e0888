"""Points of curves at given parameters, and the range those parameters run over."""

import math

import numpy as np
from numpy.typing import ArrayLike, NDArray

from holeplacer.geometry.blossom import projected, spans
from holeplacer.geometry.curve import CircularArc, Curve, EllipticArc, Points, Polyline, Spline

FULL_TURN = 2 * math.pi
SAME_POINT = 1e-9
"""Ends of a spline nearer than this share of its largest coordinate are one point."""


STRAIGHT = 1e-12
"""A bulge no larger than this is a straight step."""


def domain(curve: Curve) -> tuple[float, float]:
    """Parameters of the first and last point; the second is the smaller on clockwise arcs."""
    if isinstance(curve, Polyline):
        return 0.0, float(len(curve.xy) - (0 if curve.closed else 1))
    if isinstance(curve, Spline):
        return float(curve.knots[curve.degree]), float(curve.knots[len(curve.control)])
    return curve.start, curve.start + curve.sweep


def is_closed(curve: Curve) -> bool:
    """Whether the last point is the first: by its nature, or for splines by place."""
    if isinstance(curve, Polyline):
        return curve.closed
    if isinstance(curve, Spline):
        knots, degree = curve.knots, curve.degree
        if knots[0] == knots[degree] and knots[-1] == knots[-degree - 1]:
            first, last = curve.control[0], curve.control[-1]
        else:
            first, last = points_at(curve, domain(curve))
        return bool(np.abs(last - first).max() <= SAME_POINT * np.abs(curve.control).max())
    return abs(curve.sweep) >= FULL_TURN * (1 - 1e-12)


def points_at(curve: Curve, t: ArrayLike) -> Points:
    """Points of a curve.

    Args:
        curve: Any curve.
        t: (n,) parameters within `domain(curve)`; beyond it arcs go on turning, polylines and
            splines stay at their ends.

    Returns:
        (n, 2) points.
    """
    at = np.atleast_1d(np.asarray(t, float))
    if isinstance(curve, Polyline):
        return _on_polyline(curve, at)
    if isinstance(curve, CircularArc):
        turned = np.column_stack([np.cos(at), np.sin(at)])
        return np.asarray(curve.centre) + curve.radius * turned
    if isinstance(curve, EllipticArc):
        return on_ellipse(np.array([*curve.centre, *curve.major, curve.ratio]), at)
    return _on_spline(curve, at)


def on_ellipse(ellipse: NDArray[np.float64], t: NDArray[np.float64]) -> Points:
    """Points at eccentric angles of one ellipse or of one each.

    Args:
        ellipse: (5,) or (n, 5) rows of centre x, y, major half axis x, y, ratio.
        t: (n,) angles.
    """
    x, y, major_x, major_y, ratio = ellipse.T
    cos, sin = np.cos(t), ratio * np.sin(t)
    return np.column_stack([x + major_x * cos - major_y * sin, y + major_y * cos + major_x * sin])


def on_steps(start: Points, end: Points, bulge: NDArray[np.float64], share: ArrayLike) -> Points:
    """Points on straight and circular steps, exact at both ends and stable for any bulge.

    The chord from the start to the point at share f of the sweep s has the length
    c sin(f s/2) / sin(s/2) and lies (1 - f) s/2 to the right of the whole chord c. The half
    nearer to the end is measured from there.

    Args:
        start: (n, 2) first point of each step.
        end: (n, 2) last point of each step.
        bulge: (n,) tan(sweep/4), + anticlockwise.
        share: (n,) 0 at the start, 1 at the end.
    """
    f = np.asarray(share, float)
    late = f > 0.5
    base = np.where(late[:, None], end, start)
    chord = np.where(late[:, None], start - end, end - start)
    f, b = np.where(late, 1.0 - f, f), np.where(late, -bulge, bulge)
    half = 2.0 * np.arctan(b)
    straight = np.abs(b) <= STRAIGHT
    b_safe = np.where(straight, 1.0, b)
    length = np.where(straight, f, np.sin(f * half) * (1.0 + b_safe**2) / (2.0 * b_safe))
    turn = (f - 1.0) * half
    cos, sin = length * np.cos(turn), length * np.sin(turn)
    x, y = chord[:, 0], chord[:, 1]
    along = np.column_stack([x * cos - y * sin, x * sin + y * cos])
    return base + np.where((f == 0.0)[:, None], 0.0, along)


def _on_polyline(curve: Polyline, t: NDArray[np.float64]) -> Points:
    count = len(curve.xy)
    last = count if curve.closed else count - 1
    at = np.clip(t, 0.0, float(last))
    step = np.minimum(at.astype(np.intp), max(last - 1, 0))
    bulge = np.zeros(len(at)) if curve.bulges is None else curve.bulges[step]
    following = (step + 1) % count
    return on_steps(curve.xy[step], curve.xy[following], bulge, at - step)


def _on_spline(curve: Spline, t: NDArray[np.float64]) -> Points:
    pieces = spans([curve])
    at = np.clip(t, pieces.start[0], pieces.end[-1])
    piece = np.clip(np.searchsorted(pieces.start, at, side="right") - 1, 0, None)
    return projected(pieces.at(piece, np.repeat(at[:, None], curve.degree, axis=1)))
