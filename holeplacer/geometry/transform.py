"""Affine maps of curves, exact: a stretched circle becomes an ellipse, never a polygon."""

import math

import numpy as np
from numpy.typing import ArrayLike, NDArray

from holeplacer.errors import ArtworkError
from holeplacer.geometry.curve import CircularArc, Curve, EllipticArc, Points, Polyline, Spline
from holeplacer.geometry.evaluate import STRAIGHT, on_steps

Matrix = NDArray[np.float64]
"""Affine map of shape (2, 3): x' = m[0, 0] x + m[0, 1] y + m[0, 2], likewise y'."""

IDENTITY: Matrix = np.eye(2, 3)
IDENTITY.setflags(write=False)

_SIMILAR = 1e-10
_SINGULAR = 1e-12
_WIDEST_RATIONAL = math.pi / 2
"""Arcs are cut at quarter turns before they become rational pieces: weights stay above 0.7."""


def matrix(a: float, b: float, c: float, d: float, e: float, f: float) -> Matrix:
    """The map x' = a x + c y + e, y' = b x + d y + f, in the order that SVG writes it."""
    return np.array([[a, c, e], [b, d, f]], float)


def combined(outer: Matrix, inner: Matrix) -> Matrix:
    """One map that applies `inner` first, then `outer`."""
    linear = outer[:, :2] @ inner[:, :2]
    return np.column_stack([linear, outer[:, :2] @ inner[:, 2] + outer[:, 2]])


def moved(points: ArrayLike, by: Matrix) -> Points:
    """Points (n, 2) under a map."""
    xy = np.asarray(points, float)
    return np.ascontiguousarray(xy @ by[:, :2].T + by[:, 2])


def is_similar(by: Matrix) -> bool:
    """Whether circles stay circles under a map (turn, move, mirror, equal scale)."""
    (a, c), (b, d) = by[:, :2]
    size = a * a + b * b + c * c + d * d
    return bool(abs(a * a + b * b - c * c - d * d) + abs(a * c + b * d) <= _SIMILAR * size)


def mirrors(by: Matrix) -> bool:
    """Whether anticlockwise becomes clockwise under a map."""
    return _determinant(by) < 0


def crushes(by: Matrix) -> bool:
    """Whether a map flattens the plane to a line or a point."""
    size = np.abs(by[:, :2]).max()
    return not abs(_determinant(by)) > _SINGULAR * size * size


def _determinant(by: Matrix) -> float:
    (a, c), (b, d) = by[:, :2]
    return float(a * d - b * c)


def transformed(curve: Curve, by: Matrix) -> Curve:
    """A curve under an affine map.

    Kinds are kept, except that under a map that is not similar a circular arc becomes an
    elliptic one, and a polyline with arcs a rational spline of degree 2 whose knots are the
    vertex numbers.

    Args:
        curve: Any curve.
        by: (2, 3) map.

    Raises:
        ArtworkError: The map flattens the plane to a line or a point.
    """
    if crushes(by):
        raise ArtworkError("a scale of zero flattens the drawing to a line")
    if isinstance(curve, Spline):
        return Spline(curve.degree, moved(curve.control, by), curve.knots, curve.weights)
    if isinstance(curve, EllipticArc):
        return _ellipse(curve, by)
    if isinstance(curve, Polyline):
        return _polyline(curve, by)
    return _circle(curve, by)


def _polyline(curve: Polyline, by: Matrix) -> Curve:
    bulges = curve.bulges
    if bulges is None or not (np.abs(bulges) > STRAIGHT).any():
        return Polyline(moved(curve.xy, by), None, curve.closed)
    if not is_similar(by):
        spline = rational_spline(curve)
        return Spline(spline.degree, moved(spline.control, by), spline.knots, spline.weights)
    return Polyline(moved(curve.xy, by), -bulges if mirrors(by) else bulges, curve.closed)


def _circle(arc: CircularArc, by: Matrix) -> Curve:
    if not is_similar(by):
        return _ellipse(EllipticArc(arc.centre, (arc.radius, 0.0), 1.0, arc.start, arc.sweep), by)
    turn = math.atan2(by[1, 0], by[0, 0])
    sign = -1.0 if mirrors(by) else 1.0
    centre = moved([arc.centre], by)[0]
    return CircularArc(
        centre=(float(centre[0]), float(centre[1])),
        radius=arc.radius * math.hypot(by[0, 0], by[1, 0]),
        start=turn + sign * arc.start,
        sweep=sign * arc.sweep,
    )


def _ellipse(arc: EllipticArc, by: Matrix) -> EllipticArc:
    """The singular value decomposition of the two half axes gives the new ones."""
    x, y = arc.major
    axes = by[:, :2] @ np.array([[x, -arc.ratio * y], [y, arc.ratio * x]])
    left, length, right = np.linalg.svd(axes)
    if np.linalg.det(left) < 0:
        left, right = left * [1.0, -1.0], right * [[1.0], [-1.0]]
    sign = 1.0 if np.linalg.det(right) > 0 else -1.0
    turn = math.atan2(right[1, 0], right[0, 0])
    centre = moved([arc.centre], by)[0]
    return EllipticArc(
        centre=(float(centre[0]), float(centre[1])),
        major=(float(left[0, 0] * length[0]), float(left[1, 0] * length[0])),
        ratio=float(length[1] / length[0]),
        start=turn + sign * arc.start,
        sweep=sign * arc.sweep,
    )


def rational_spline(curve: Polyline) -> Spline:
    """A polyline with arcs as one rational spline of degree 2; vertex i lies at parameter i.

    An arc of the sweep s is the piece with weights 1, cos(s/2), 1 whose middle control point
    is where the end tangents meet. Within an arc the parameter is not proportional to the angle.
    """
    count = len(curve.xy)
    steps = count if curve.closed else count - 1
    following = np.roll(curve.xy, -1, axis=0)[:steps]
    bulges = np.zeros(steps) if curve.bulges is None else curve.bulges[:steps]
    parts = np.ceil(np.abs(4 * np.arctan(bulges)) / _WIDEST_RATIONAL - 1e-9).clip(1).astype(int)
    step = np.repeat(np.arange(steps), parts)
    number = np.arange(len(step)) - np.repeat(np.cumsum(parts) - parts, parts)
    ends = on_steps(curve.xy[step], following[step], bulges[step], number / parts[step])
    last = following[-1:]
    ends = np.concatenate([ends, last])
    half = 2 * np.arctan(bulges)[step] / parts[step]
    chord = np.diff(ends, axis=0)
    rise = np.column_stack([chord[:, 1], -chord[:, 0]]) * np.tan(half)[:, None] / 2
    middle = (ends[:-1] + ends[1:]) / 2 + rise
    control = np.empty((2 * len(step) + 1, 2))
    control[::2], control[1::2] = ends, middle
    weights = np.ones(len(control))
    weights[1::2] = np.cos(half)
    inner = np.repeat(step + number / parts[step], 2)
    knots = np.concatenate([[0.0], inner, np.repeat(float(steps), 3)])
    return Spline(2, control, knots, weights)
