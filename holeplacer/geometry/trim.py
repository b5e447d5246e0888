"""Stretches of curves, exact: part of a spline is a spline, part of an arc an arc."""

import numpy as np
from numpy.typing import NDArray

from holeplacer.geometry.blossom import Floats, Spans, projected, spans
from holeplacer.geometry.curve import CircularArc, Curve, EllipticArc, Polyline, Spline
from holeplacer.geometry.evaluate import domain, is_closed, points_at


def trimmed(curve: Curve, t0: float, t1: float) -> Curve:
    """The stretch from parameter `t0` to `t1`, run in that direction.

    On a closed curve `t1` may lie beyond the end of the domain by up to one round: the stretch
    then goes on through the seam.

    Args:
        curve: Any curve.
        t0: Where the stretch starts.
        t1: Where it ends; on polylines and splines a smaller `t1` gives the stretch reversed.

    Returns:
        A curve of the same kind. Splines come back clamped, so that they begin and end in
        their first and last control points. A whole round of a closed polyline stays closed.
    """
    if isinstance(curve, CircularArc):
        return CircularArc(curve.centre, curve.radius, t0, t1 - t0)
    if isinstance(curve, EllipticArc):
        return EllipticArc(curve.centre, curve.major, curve.ratio, t0, t1 - t0)
    if t1 < t0:
        return reversed_curve(trimmed(curve, t1, t0))
    if isinstance(curve, Polyline):
        return _polyline(curve, t0, t1)
    return _spline(curve, t0, t1)


def reversed_curve(curve: Curve) -> Curve:
    """The same points run the other way."""
    if isinstance(curve, Polyline):
        return _reversed_polyline(curve)
    if isinstance(curve, Spline):
        knots = (curve.knots[0] + curve.knots[-1]) - curve.knots[::-1]
        weights = None if curve.weights is None else curve.weights[::-1]
        return Spline(curve.degree, curve.control[::-1], knots, weights)
    start, end = domain(curve)
    return trimmed(curve, end, start)


def _reversed_polyline(curve: Polyline) -> Polyline:
    """An open one starts at its last vertex, a closed one at its first as before."""
    xy, bulges = curve.xy[::-1], curve.bulges
    if bulges is not None:
        bulges = -bulges[::-1] if curve.closed else -np.roll(bulges[::-1], -1)
    return Polyline(np.roll(xy, 1, axis=0) if curve.closed else xy, bulges, curve.closed)


def _polyline(curve: Polyline, t0: float, t1: float) -> Polyline:
    count = len(curve.xy)
    if curve.closed and t1 - t0 >= count and float(t0).is_integer():
        turn = -int(t0)
        bulges = None if curve.bulges is None else np.roll(curve.bulges, turn)
        return Polyline(np.roll(curve.xy, turn, axis=0), bulges, closed=True)
    end = float("inf") if curve.closed else count - 1.0
    t0, t1 = max(t0, 0.0), min(t1, end)
    inner = np.arange(np.floor(t0) + 1, np.ceil(t1))
    t = np.concatenate([[t0], inner, [t1]])
    xy = points_at(curve, np.where(t > count, t - count, t) if curve.closed else t)
    if curve.bulges is None:
        return Polyline(xy, None)
    step = np.floor(t[:-1]).astype(np.intp) % count
    quarter = np.diff(t) * np.arctan(curve.bulges[step])
    return Polyline(xy, np.append(np.tan(quarter), 0.0))


def _spline(curve: Spline, t0: float, t1: float) -> Spline:
    start, end = domain(curve)
    if t1 > end and is_closed(curve):
        return _joined(_within(curve, t0, end), _within(curve, start, t1 - (end - start)))
    return _within(curve, max(t0, start), min(t1, end))


def _within(curve: Spline, t0: float, t1: float) -> Spline:
    """Clamped spline of the same points: its control points are blossoms at its knots.

    A stretch without length stays in its point while the parameter runs on by 1.
    """
    degree, pieces = curve.degree, spans([curve])
    if not t0 < t1:
        point = np.repeat(points_at(curve, t0), degree + 1, axis=0)
        weights = None if curve.weights is None else np.ones(degree + 1)
        return Spline(degree, point, np.repeat([t0, t0 + 1.0], degree + 1), weights)
    inner = curve.knots[(curve.knots > t0) & (curve.knots < t1)]
    knots = np.concatenate([np.repeat(t0, degree + 1), inner, np.repeat(t1, degree + 1)])
    count = len(knots) - degree - 1
    arguments = knots[np.arange(count)[:, None] + np.arange(1, degree + 1)]
    control = pieces.at(_pieces_under(pieces, knots, degree), arguments)
    if curve.weights is None:
        return Spline(degree, control, knots)
    return Spline(degree, projected(control), knots, np.ascontiguousarray(control[:, 2]))


def _pieces_under(pieces: Spans, knots: Floats, degree: int) -> NDArray[np.intp]:
    """A piece of the old spline on which each new basis function is not zero."""
    count = len(knots) - degree - 1
    wide = np.flatnonzero(np.diff(knots) > 0)
    basis = np.arange(count)
    choice = wide[np.clip(np.searchsorted(wide, basis), 0, len(wide) - 1)]
    middle = (knots[choice] + knots[choice + 1]) / 2
    return np.clip(np.searchsorted(pieces.start, middle, side="right") - 1, 0, None)


def _joined(first: Spline, second: Spline) -> Spline:
    """Two clamped splines end to start as one; the second's knots follow the first's."""
    degree = first.degree
    shift = first.knots[-1] - second.knots[0]
    knots = np.concatenate([first.knots[:-1], second.knots[degree + 1 :] + shift])
    control = np.concatenate([first.control, second.control[1:]])
    if first.weights is None or second.weights is None:
        return Spline(degree, control, knots)
    weights = second.weights * (first.weights[-1] / second.weights[0])
    return Spline(degree, control, knots, np.concatenate([first.weights, weights[1:]]))
