"""Flattening: points on a curve whose chords stray from it by no more than a tolerance.

The bound is on the true distance in both directions, for every kind of curve:

- circle: sagitta r (1 - cos(h/2)) of the step h;
- ellipse: (1 - cos(h/2)) a b / |P'(m)| at the middle m of the step, exact because an ellipse is
  a stretched circle and the furthest point of a step is where the tangent is parallel to the chord;
- spline: the distance to a chord is a convex function, so on a Bezier piece of degree p it is at
  most (1 - 2^(1-p)) times that of the furthest inner control point (Bernstein weights; the
  whole distance if the piece is rational), and steps are halved until that is small enough.

Many curves are flattened at once: lettering is thousands of short splines.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from holeplacer.errors import ArtworkError
from holeplacer.geometry.blossom import Floats, projected, spans
from holeplacer.geometry.curve import CircularArc, Curve, EllipticArc, Points, Polyline, Spline
from holeplacer.geometry.evaluate import FULL_TURN, SAME_POINT, STRAIGHT, on_ellipse, on_steps

MOST_POINTS = 4_000_000
"""More than this is a mistake in size or tolerance, not a sign."""

_WIDEST_STEP = math.pi / 2
"""Even the smallest circle keeps four corners."""

_WHOLE = FULL_TURN * (1 - 1e-12)


@dataclass(frozen=True, eq=False)
class Flattened:
    """Points of many curves, curve after curve.

    Attributes:
        first: (m + 1,) row of each curve's first point; the last entry is n.
        curve: (n,) which curve each point is on.
        t: (n,) its parameter there, rising (on clockwise arcs falling).
        xy: (n, 2) points, both ends included; a closed curve repeats its start bit for bit.
    """

    first: NDArray[np.intp]
    curve: NDArray[np.intp]
    t: Floats
    xy: Points


@dataclass(frozen=True, eq=False)
class _Part:
    """Points of those curves that are of one kind, in order."""

    curve: NDArray[np.intp]
    t: Floats
    xy: Points


def flatten(curve: Curve, tolerance_mm: float) -> tuple[Floats, Points]:
    """Points of one curve: parameters (n,) and places (n, 2); see `flatten_all`."""
    flat = flatten_all((curve,), tolerance_mm)
    return flat.t, flat.xy


def flatten_all(curves: Sequence[Curve], tolerance_mm: float) -> Flattened:
    """Points of many curves, each chord within the tolerance of its stretch of curve.

    Args:
        curves: Any mixture.
        tolerance_mm: > 0, in the unit of the curves.

    Raises:
        ArtworkError: The curves are so large for the tolerance that they would take more than
            `MOST_POINTS` points.
    """
    kinds: dict[object, list[int]] = {}
    for index, curve in enumerate(curves):
        kinds.setdefault(_kind(curve), []).append(index)
    parts = [_part(curves, indices, tolerance_mm) for indices in kinds.values()]
    if not parts:
        return Flattened(np.zeros(1, np.intp), np.zeros(0, np.intp), np.zeros(0), np.zeros((0, 2)))
    owner = np.concatenate([part.curve for part in parts])
    order = np.argsort(owner, kind="stable")
    owner = owner[order]
    return Flattened(
        first=np.searchsorted(owner, np.arange(len(curves) + 1)),
        curve=owner,
        t=np.concatenate([part.t for part in parts])[order],
        xy=np.concatenate([part.xy for part in parts])[order],
    )


def _kind(curve: Curve) -> object:
    """What curves must share to be flattened together."""
    if isinstance(curve, Spline):
        return curve.degree, curve.weights is None
    return type(curve)


def _part(curves: Sequence[Curve], indices: list[int], tolerance: float) -> _Part:
    """Points of the curves at `indices`, which are all of one kind."""
    polylines, circles, ellipses, splines = [], [], [], []
    for curve in (curves[index] for index in indices):
        match curve:
            case Polyline():
                polylines.append(curve)
            case CircularArc():
                circles.append(curve)
            case EllipticArc():
                ellipses.append(curve)
            case Spline():
                splines.append(curve)
    if polylines:
        part = _of_polylines(polylines, tolerance)
    elif circles:
        part = _of_circles(circles, tolerance)
    elif ellipses:
        part = _of_ellipses(ellipses, tolerance)
    else:
        part = _of_splines(splines, tolerance)
    return _Part(np.array(indices, dtype=np.intp)[part.curve], part.t, part.xy)


def _of_polylines(polylines: list[Polyline], tolerance: float) -> _Part:
    counts = np.array([len(polyline.xy) for polyline in polylines])
    closed = np.array([polyline.closed for polyline in polylines])
    owner = np.repeat(np.arange(len(polylines)), counts + closed)
    first = np.concatenate([[0], np.cumsum(counts + closed)])
    t = (np.arange(first[-1]) - first[owner]).astype(float)
    xy = np.concatenate([
        part for polyline in polylines
        for part in ((polyline.xy, polyline.xy[:1]) if polyline.closed else (polyline.xy,))
    ])  # fmt: skip
    if all(polyline.bulges is None for polyline in polylines):
        return _Part(owner, t, xy)
    bulges = np.zeros(len(t))
    for index, polyline in enumerate(polylines):
        if polyline.bulges is not None:
            at = first[index]
            bulges[at : at + counts[index]] = polyline.bulges
    bulges[first[1:] - 1] = 0.0
    return _with_arcs(_Part(owner, t, xy), bulges, tolerance)


def _with_arcs(corners: _Part, bulges: Floats, tolerance: float) -> _Part:
    """Corners with points put in on the steps that are arcs."""
    following = np.minimum(np.arange(1, len(bulges) + 1), len(bulges) - 1)
    chord = np.hypot(*(corners.xy[following] - corners.xy).T)
    size = np.abs(bulges)
    arc = (size > STRAIGHT) & (chord > 0)
    radius = np.zeros(len(bulges))
    radius[arc] = chord[arc] * (1 + size[arc] ** 2) / (4 * size[arc])
    steps = np.ones(len(bulges), dtype=np.intp)
    steps[arc] = _circle_steps(radius[arc], 4 * np.arctan(size[arc]), tolerance)
    _refuse_excess(steps.sum(), radius.max(), tolerance)
    corner = np.repeat(np.arange(len(bulges)), steps)
    first = np.concatenate([[0], np.cumsum(steps)[:-1]])
    share = (np.arange(len(corner)) - first[corner]) / steps[corner]
    xy = on_steps(corners.xy[corner], corners.xy[following[corner]], bulges[corner], share)
    return _Part(corners.curve[corner], corners.t[corner] + share, xy)


def _of_circles(arcs: list[CircularArc], tolerance: float) -> _Part:
    rows = np.array([(*arc.centre, arc.radius, arc.start, arc.sweep) for arc in arcs])
    radius, start, sweep = rows[:, 2], rows[:, 3], rows[:, 4]
    steps = _circle_steps(radius, np.abs(sweep), tolerance)
    _refuse_excess(steps.sum(), radius.max(), tolerance)
    owner = np.repeat(np.arange(len(arcs)), steps + 1)
    first = np.concatenate([[0], np.cumsum(steps + 1)])
    share = (np.arange(first[-1]) - first[owner]) / steps[owner]
    t = start[owner] + sweep[owner] * share
    xy = rows[owner, :2] + radius[owner, None] * np.column_stack([np.cos(t), np.sin(t)])
    return _closed_up(_Part(owner, t, xy), first, np.abs(sweep) >= _WHOLE)


def _circle_steps(radius: Floats, sweep: Floats, tolerance: float) -> NDArray[np.intp]:
    """Number of equal steps whose sagitta is within the tolerance."""
    reach = np.minimum(np.sqrt(tolerance / (2 * np.maximum(radius, tolerance))), 1.0)
    widest = np.minimum(4 * np.arcsin(reach), _WIDEST_STEP)
    steps = np.maximum(np.ceil(sweep / widest - 1e-9), 1.0)
    counts: NDArray[np.intp] = np.minimum(steps, 2.0 * MOST_POINTS).astype(np.intp)
    return counts


def _of_ellipses(arcs: list[EllipticArc], tolerance: float) -> _Part:
    rows = np.array([(*arc.centre, *arc.major, arc.ratio) for arc in arcs])
    ends = np.array([(arc.start, arc.start + arc.sweep) for arc in arcs])
    long = np.hypot(rows[:, 2], rows[:, 3])

    def strays(curve: NDArray[np.intp], start: Floats, end: Floats) -> NDArray[np.bool_]:
        a, ratio, middle = long[curve], rows[curve, 4], (start + end) / 2
        speed = np.hypot(np.sin(middle), ratio * np.cos(middle))
        sagitta = 2 * np.sin((end - start) / 4) ** 2 * a * ratio / speed
        too_far: NDArray[np.bool_] = sagitta > tolerance
        return too_far

    breaks = [_quadrants(arc) for arc in arcs]
    curve = np.repeat(np.arange(len(arcs)), [len(row) - 1 for row in breaks])
    start = np.concatenate([row[:-1] for row in breaks])
    end = np.concatenate([row[1:] for row in breaks])
    done = [(np.arange(len(arcs)), ends[:, 1])]
    while len(curve):
        apart = strays(curve, start, end)
        done.append((curve[~apart], start[~apart]))
        curve, start, end = curve[apart], start[apart], end[apart]
        _refuse_excess(2 * len(curve), long.max(), tolerance)
        middle = (start + end) / 2
        curve = np.concatenate([curve, curve])
        start, end = np.concatenate([start, middle]), np.concatenate([middle, end])
    owner = np.concatenate([part[0] for part in done])
    t = np.concatenate([part[1] for part in done])
    order = np.lexsort((t * np.sign(ends[owner, 1] - ends[owner, 0]), owner))
    owner, t = owner[order], t[order]
    first = np.searchsorted(owner, np.arange(len(arcs) + 1))
    part = _Part(owner, t, on_ellipse(rows[owner], t))
    return _closed_up(part, first, np.abs(ends[:, 1] - ends[:, 0]) >= _WHOLE)


def _quadrants(arc: EllipticArc) -> Floats:
    """Parameters of the ends and the axes between, so that no chord cuts off a vertex."""
    low, high = sorted((arc.start, arc.start + arc.sweep))
    axes = np.arange(math.floor(low / _WIDEST_STEP) + 1, math.ceil(high / _WIDEST_STEP))
    inner = axes * _WIDEST_STEP
    inner = inner[(inner > low) & (inner < high)]
    row = np.concatenate([[low], inner, [high]])
    return row if arc.sweep >= 0 else row[::-1]


def _of_splines(splines: list[Spline], tolerance: float) -> _Part:
    pieces = spans(splines)
    size = float(np.abs(pieces.control).max())
    curve, start, end, control = pieces.spline, pieces.start, pieces.end, pieces.bezier()
    last = np.flatnonzero(np.diff(curve, append=-1))
    done = [(curve[last], end[last], projected(control[last, -1]))]
    while len(curve):
        apart = _strays(control, tolerance)
        done.append((curve[~apart], start[~apart], projected(control[~apart, 0])))
        curve, start, end, control = curve[apart], start[apart], end[apart], control[apart]
        _refuse_excess(2 * len(curve), size, tolerance)
        middle = (start + end) / 2
        left, right = _halves(control)
        curve, control = np.concatenate([curve, curve]), np.concatenate([left, right])
        start, end = np.concatenate([start, middle]), np.concatenate([middle, end])
    owner = np.concatenate([part[0] for part in done])
    t = np.concatenate([part[1] for part in done])
    order = np.lexsort((t, owner))
    first = np.searchsorted(owner[order], np.arange(len(splines) + 1))
    xy = np.concatenate([part[2] for part in done])[order]
    reach = np.maximum.reduceat(
        np.abs(pieces.control).max(axis=(1, 2)), np.append(0, last[:-1] + 1)
    )
    gap = np.abs(xy[first[1:] - 1] - xy[first[:-1]]).max(axis=1)
    return _closed_up(_Part(owner[order], t[order], xy), first, gap <= SAME_POINT * reach)


def _strays(control: Floats, tolerance: float) -> NDArray[np.bool_]:
    """Whether Bezier pieces (n, p + 1, d) may stray from their chords."""
    rational = control.shape[2] == 3
    points = projected(control)
    inner = points[:, 1:-1]
    if inner.shape[1] == 0:
        return np.zeros(len(points), dtype=bool)
    base = points[:, :1]
    chord = points[:, -1:] - base
    square = (chord**2).sum(axis=2)
    along = ((inner - base) * chord).sum(axis=2)
    share = np.clip(along / np.where(square > 0, square, 1.0), 0.0, 1.0)
    away = inner - base - share[:, :, None] * chord
    furthest = np.hypot(away[:, :, 0], away[:, :, 1]).max(axis=1)
    weight = 1.0 if rational else 1.0 - 2.0 ** (1 - inner.shape[1] - 1)
    too_far: NDArray[np.bool_] = weight * furthest > tolerance
    return too_far


def _halves(control: Floats) -> tuple[Floats, Floats]:
    """De Casteljau at the middle of Bezier pieces (n, p + 1, d)."""
    row, left, right = control, [control[:, 0]], [control[:, -1]]
    while row.shape[1] > 1:
        row = (row[:, :-1] + row[:, 1:]) / 2
        left.append(row[:, 0])
        right.append(row[:, -1])
    return np.stack(left, axis=1), np.stack(right[::-1], axis=1)


def _closed_up(part: _Part, first: NDArray[np.intp], closed: NDArray[np.bool_]) -> _Part:
    """The last point of each closed curve made its first, bit for bit."""
    part.xy[first[1:][closed] - 1] = part.xy[first[:-1][closed]]
    return part


def _refuse_excess(points: float, size: float, tolerance: float) -> None:
    if points > MOST_POINTS:
        raise ArtworkError(
            f"curves of size {size:.3g} would take more than {MOST_POINTS} points "
            f"to follow within {tolerance:.3g}",
            remedy="check the units and the scale, or allow a coarser tolerance",
        )
