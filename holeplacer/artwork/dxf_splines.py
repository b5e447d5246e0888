"""SPLINE entities: by control points (rational or not) or by the points they run through."""

import numpy as np
from scipy.interpolate import make_interp_spline

from holeplacer.artwork.dxf_records import Records, Rows
from holeplacer.artwork.dxf_shapes import (
    LARGEST,
    NOT_A_NUMBER,
    SEEN_FROM_ABOVE,
    TOO_LARGE,
    WITHOUT_LENGTH,
    Shapes,
    rises,
)
from holeplacer.artwork.dxf_tags import Floats, Indices
from holeplacer.geometry.curve import Polyline, Spline

BAD_DEGREE = "with a degree that is not 1 to 11"
BAD_KNOTS = "with knots that do not fit its control points"
BAD_WEIGHTS = "with weights that are not positive"
BROKEN = "with a break in it"
FROM_FIT_POINTS = "given only by the points it runs through: laid through them as a cubic"

_HIGHEST_DEGREE = 11
_CLOSED = 1
_MOST_WEIGHT = 1e12
"""Ratio of weights beyond which rounding decides the shape."""


def splines(records: Records, within: Indices) -> Shapes:
    """All SPLINEs."""
    chosen = records.named("SPLINE", within)
    degree = records.flags(chosen, 71, default=3)
    closed = (records.flags(chosen, 70) & _CLOSED) != 0
    codes = (40, 41, 10, 20, 30, 11, 21, 31)
    rows = {code: records.rows(chosen, code) for code in codes}
    ends = np.stack([records.column(chosen, code) for code in (12, 22, 13, 23)], axis=1)
    shapes = Shapes()
    for index, record in enumerate(chosen.tolist()):
        control = _points(rows[10], rows[20], index)
        if control is not None and not len(control):
            points = _points(rows[11], rows[21], index)
            made, fault = _through(points, ends[index], closed=bool(closed[index]))
            z, note = rows[31].of(index), FROM_FIT_POINTS
        else:
            knots, weights = rows[40].of(index), rows[41].of(index)
            made, fault = _spline(int(degree[index]), control, knots, weights)
            z, note = rows[30].of(index), ""
        if made is None:
            shapes.faults[record] = fault
            continue
        shapes.curves[record] = made
        size = float(np.ptp(made.xy if isinstance(made, Polyline) else made.control))
        note = SEEN_FROM_ABOVE if rises(z, size) else note
        if note:
            shapes.notes[record] = note
    return shapes


def _points(x: Rows, y: Rows, index: int) -> Floats | None:
    """Points of one record, None if their coordinates are not paired."""
    xs, ys = x.of(index), y.of(index)
    return np.column_stack([xs, ys]) if len(xs) == len(ys) else None


def _spline(
    degree: int, control: Floats | None, knots: Floats, weights: Floats
) -> tuple[Spline | Polyline | None, str]:
    if not 1 <= degree <= _HIGHEST_DEGREE:
        return None, BAD_DEGREE
    if control is None or len(knots) != len(control) + degree + 1 or len(control) <= degree:
        return None, BAD_KNOTS
    fault = _points_fault(control) or _knots_fault(knots, degree)
    if fault:
        return None, fault
    if len(weights):
        rational = _weights(weights, len(control))
        if rational is None:
            return None, BAD_WEIGHTS
        if np.ptp(rational) > 1e-12 * rational.max():
            return Spline(degree, control, knots, rational), ""
    return Spline(degree, control, knots), ""


def _points_fault(points: Floats) -> str:
    if np.isnan(points).any():
        return NOT_A_NUMBER
    if not (np.abs(points) <= LARGEST).all():
        return TOO_LARGE
    return WITHOUT_LENGTH if not np.ptp(points, axis=0).any() else ""


def _knots_fault(knots: Floats, degree: int) -> str:
    if not np.isfinite(knots).all() or (np.diff(knots) < 0).any():
        return BAD_KNOTS
    start, end = knots[degree], knots[-degree - 1]
    if not start < end or not np.isfinite(end - start):
        return BAD_KNOTS
    inner = knots[(knots > start) & (knots < end)]
    most = np.unique(inner, return_counts=True)[1].max() if len(inner) else 0
    return BROKEN if most > degree else ""


def _weights(weights: Floats, count: int) -> Floats | None:
    if len(weights) != count or not np.isfinite(weights).all() or not (weights > 0).all():
        return None
    scaled = weights / weights.max()
    return scaled if scaled.min() > 1 / _MOST_WEIGHT else None


def _through(
    points: Floats | None, ends: Floats, *, closed: bool
) -> tuple[Spline | Polyline | None, str]:
    """The cubic through fit points: parameter by chord length, natural ends or given tangents.

    Common practice of drawing programs, after the notes on fit points in the manual of ezdxf
    1.4.5 (`fit_points_to_cad_cv`); tangents there have the length of the whole chord.
    """
    if points is None:
        return None, BAD_KNOTS
    if len(points) < 2:
        return None, WITHOUT_LENGTH
    fault = _points_fault(points)
    if fault:
        return None, fault
    if closed:
        points = np.concatenate([points, points[:1]])
    points = points[np.append(True, np.diff(points, axis=0).any(axis=1))]
    chord = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(points, axis=0).T))])
    given = [_tangent(ends[:2]), _tangent(ends[2:])]
    if len(points) == 2 and all(tangent is None for tangent in given):
        return Polyline(points), ""
    if closed and len(points) > 3:
        curve = make_interp_spline(chord, points, k=3, bc_type="periodic")
    else:
        free = (2, np.zeros(2))
        start, end = ([free if tangent is None else (1, tangent)] for tangent in given)
        conditions = (start, end)
        curve = make_interp_spline(chord, points, k=3, bc_type=conditions)  # type: ignore[arg-type]  # the stubs know no vectors here
    return Spline(3, np.ascontiguousarray(curve.c), curve.t), ""


def _tangent(direction: Floats) -> Floats | None:
    length = np.hypot(*direction)
    return direction / length if 0 < length < LARGEST else None
