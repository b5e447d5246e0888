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
    """One map that applies `inner` first, then `outer`; either may be many, (k, 2, 3)."""
    result = outer[..., :2] @ inner
    result[..., 2] += outer[..., 2]
    return result


def moved(points: ArrayLike, by: Matrix) -> Points:
    """Points (n, 2) under a map; under many maps (k, 2, 3) the copies (k, n, 2)."""
    xy = np.asarray(points, float)
    linear = np.swapaxes(by[..., :2], -1, -2)
    return np.ascontiguousarray(xy @ linear + by[..., None, :, 2])


def crushes(by: Matrix) -> NDArray[np.bool_]:
    """Whether a map flattens the plane to a line or a point; one answer for each of many maps."""
    size = np.abs(by[..., :2]).max(axis=(-2, -1))
    return np.asarray(~(np.abs(_determinant(by)) > _SINGULAR * size * size), dtype=bool)


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
    return copies(curve, by[None])[0]


def copies(curve: Curve, places: Matrix) -> list[Curve]:
    """A curve under each of many maps (k, 2, 3); see `transformed`."""
    if crushes(places).any():
        raise ArtworkError("a scale of zero flattens the drawing to a line")
    if isinstance(curve, Spline):
        return _splines(curve, places)
    if isinstance(curve, EllipticArc):
        return _ellipses(curve, places)
    similar = _similar(places)
    if isinstance(curve, Polyline):
        straight = curve.bulges is None or not (np.abs(curve.bulges) > STRAIGHT).any()
        if straight or similar.all():
            return _polylines(curve, places, straight=straight)
    elif similar.all():
        return _circles(curve, places)
    if not similar.any():
        if isinstance(curve, Polyline):
            return _splines(rational_spline(curve), places)
        whole = EllipticArc(curve.centre, (curve.radius, 0.0), 1.0, curve.start, curve.sweep)
        return _ellipses(whole, places)
    return [copies(curve, place[None])[0] for place in places]


def _similar(by: Matrix) -> NDArray[np.bool_]:
    """Whether circles stay circles under each map (turn, move, mirror, equal scale)."""
    a, c, b, d = by[..., 0, 0], by[..., 0, 1], by[..., 1, 0], by[..., 1, 1]
    size = a * a + b * b + c * c + d * d
    skew = np.abs(a * a + b * b - c * c - d * d) + np.abs(a * c + b * d)
    return np.asarray(skew <= _SIMILAR * size, dtype=bool)


def _determinant(by: Matrix) -> NDArray[np.float64]:
    return np.asarray(by[..., 0, 0] * by[..., 1, 1] - by[..., 0, 1] * by[..., 1, 0])


def _polylines(curve: Polyline, places: Matrix, *, straight: bool) -> list[Curve]:
    bulges = None if straight else curve.bulges
    if bulges is None:
        return [Polyline(xy, None, curve.closed) for xy in moved(curve.xy, places)]
    mirrored = -bulges
    turned = zip(moved(curve.xy, places), _determinant(places) < 0, strict=True)
    return [Polyline(xy, mirrored if flip else bulges, curve.closed) for xy, flip in turned]


def _splines(curve: Spline, places: Matrix) -> list[Curve]:
    moved_control = moved(curve.control, places)
    return [Spline(curve.degree, xy, curve.knots, curve.weights) for xy in moved_control]


def _circles(arc: CircularArc, places: Matrix) -> list[Curve]:
    centre = moved([arc.centre], places)[:, 0]
    radius = arc.radius * np.hypot(places[:, 0, 0], places[:, 1, 0])
    turn = np.arctan2(places[:, 1, 0], places[:, 0, 0])
    sign = np.where(_determinant(places) < 0, -1.0, 1.0)
    rows = np.column_stack([centre, radius, turn + sign * arc.start, sign * arc.sweep])
    return [CircularArc((x, y), r, start, sweep) for x, y, r, start, sweep in rows.tolist()]


def _ellipses(arc: EllipticArc, places: Matrix) -> list[Curve]:
    """The singular value decomposition of the two half axes gives the new ones."""
    x, y = arc.major
    axes = places[:, :, :2] @ np.array([[x, -arc.ratio * y], [y, arc.ratio * x]])
    left, length, right = np.linalg.svd(axes)
    flip = np.where(np.linalg.det(left) < 0, -1.0, 1.0)
    sign = flip * np.where(np.linalg.det(right) < 0, -1.0, 1.0)
    turn = np.arctan2(flip * right[:, 1, 0], right[:, 0, 0])
    centre = moved([arc.centre], places)[:, 0]
    major = left[:, :, 0] * length[:, :1]
    ratio = length[:, 1] / length[:, 0]
    rows = np.column_stack([centre, major, ratio, turn + sign * arc.start, sign * arc.sweep])
    return [
        EllipticArc((cx, cy), (mx, my), share, start, sweep)
        for cx, cy, mx, my, share, start, sweep in rows.tolist()
    ]


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
