"""SPLINE entities: by control points (rational or not) or by the points they run through."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from holeplacer.artwork.dxf_records import Records, Rows
from holeplacer.artwork.dxf_shapes import (
    LARGEST,
    LEVEL,
    NOT_A_NUMBER,
    SEEN_FROM_ABOVE,
    TOO_LARGE,
    WITHOUT_LENGTH,
    Shapes,
    add_fault,
    spans,
)
from holeplacer.artwork.dxf_tags import Floats, Indices
from holeplacer.geometry.curve import Polyline, Spline

BAD_DEGREE = "with a degree that is not 1 to 11"
BAD_KNOTS = "with knots that do not fit its control points"
BAD_WEIGHTS = "with weights that are not positive"
UNPAIRED = "with unpaired coordinates"
BROKEN = "with a break in it"
FROM_FIT_POINTS = "given only by the points it runs through: laid through them as a cubic"

_HIGHEST_DEGREE = 11
_CLOSED = 1
_TOUCHING = 1e-7
"""Fit points no further apart than this share of the whole length are one point:
a micrometre on ten metres, where the equations for the curve can still be solved exactly."""

_MOST_WEIGHT = 1e12
"""Ratio of weights beyond which rounding decides the shape."""


@dataclass(frozen=True, eq=False)
class _Splines:
    """Numbers of m splines, by group code."""

    chosen: Indices
    degree: NDArray[np.int64]
    knots: Rows
    weights: Rows
    x: Rows
    y: Rows

    def per_spline(self, rows: Rows, marked: NDArray[np.bool_]) -> NDArray[np.bool_]:
        """Which splines have a marked value among some rows."""
        return np.bincount(_owner(rows)[marked], minlength=len(self.chosen)) > 0


def splines(records: Records, within: Indices) -> Shapes:
    """All SPLINEs: those with control points by them, the others by their fit points."""
    chosen = records.named("SPLINE", within)
    controls = records.rows(chosen, 10)
    with_control = np.diff(controls.first) > 0
    by_control = _by_control(records, chosen[with_control])
    return by_control.with_all(_by_fit_points(records, chosen[~with_control]))


def _by_control(records: Records, chosen: Indices) -> Shapes:
    given = _Splines(
        chosen,
        records.flags(chosen, 71, default=3),
        *(records.rows(chosen, code) for code in (40, 41, 10, 20)),
    )
    faults = _faults(given)
    paired = np.diff(given.x.first) == np.diff(given.y.first)
    shapes = Shapes()
    x_first, y_first = given.x.first.tolist(), given.y.first.tolist()
    knot, weight = given.knots.first.tolist(), given.weights.first.tolist()
    degrees = given.degree.tolist()
    for index, (record, fault) in enumerate(zip(chosen.tolist(), faults.tolist(), strict=True)):
        if fault or not paired[index]:
            shapes.faults[record] = fault or UNPAIRED
            continue
        control = np.empty((x_first[index + 1] - x_first[index], 2))
        control[:, 0] = given.x.value[x_first[index] : x_first[index + 1]]
        control[:, 1] = given.y.value[y_first[index] : y_first[index + 1]]
        knots = given.knots.value[knot[index] : knot[index + 1]]
        weights = _rational(given.weights.value[weight[index] : weight[index + 1]])
        shapes.curves[record] = Spline(degrees[index], control, knots, weights)
    _note_rise(records, given, shapes)
    return shapes


def _faults(given: _Splines) -> NDArray[np.object_]:
    """Why splines can't be used, "" for those that can."""
    count = np.diff(given.x.first)
    faults = np.full(len(count), "", dtype=object)
    add_fault(faults, (given.degree < 1) | (given.degree > _HIGHEST_DEGREE), BAD_DEGREE)
    add_fault(faults, np.diff(given.y.first) != count, UNPAIRED)
    enough = (count > given.degree) & (np.diff(given.knots.first) == count + given.degree + 1)
    add_fault(faults, ~enough, BAD_KNOTS)
    for axis in (given.x, given.y):
        add_fault(faults, given.per_spline(axis, np.isnan(axis.value)), NOT_A_NUMBER)
        large = ~(np.abs(np.nan_to_num(axis.value, posinf=2 * LARGEST)) <= LARGEST)
        add_fault(faults, given.per_spline(axis, large), TOO_LARGE)
    sound = faults == ""
    extent = spans(given.x.value, given.x.first)
    extent[sound] += spans(given.y.value, given.y.first)[sound]
    add_fault(faults, sound & (extent == 0), WITHOUT_LENGTH)
    _add_knot_faults(faults, given)
    _add_weight_faults(faults, given)
    return faults


def _add_knot_faults(faults: NDArray[np.object_], given: _Splines) -> None:
    """Knots must not fall, must span something, and must not tear the curve."""
    rows, owner = given.knots, _owner(given.knots)
    finite = np.isfinite(rows.value) & (np.abs(np.nan_to_num(rows.value)) < LARGEST**2)
    falls = np.zeros(len(owner), dtype=bool)
    falls[1:] = (np.diff(np.where(finite, rows.value, 0.0)) < 0) & (owner[1:] == owner[:-1])
    add_fault(faults, given.per_spline(rows, ~finite | falls), BAD_KNOTS)
    sound = np.flatnonzero(faults == "")
    degree = given.degree[sound]
    start, end = np.zeros(len(faults)), np.zeros(len(faults))
    start[sound] = rows.value[rows.first[sound] + degree]
    end[sound] = rows.value[rows.first[sound + 1] - degree - 1]
    empty = np.zeros(len(faults), dtype=bool)
    empty[sound] = ~(start[sound] < end[sound])
    add_fault(faults, empty, BAD_KNOTS)
    later = np.arange(len(owner)) + np.clip(given.degree, 0, _HIGHEST_DEGREE)[owner]
    within = later < rows.first[owner + 1]
    later = np.minimum(later, max(len(owner) - 1, 0))
    inner = (rows.value > start[owner]) & (rows.value < end[owner])
    torn = within & inner & (rows.value[later] == rows.value)
    add_fault(faults, given.per_spline(rows, torn), BROKEN)


def _add_weight_faults(faults: NDArray[np.object_], given: _Splines) -> None:
    count = np.diff(given.weights.first)
    add_fault(faults, (count > 0) & (count != np.diff(given.x.first)), BAD_WEIGHTS)
    weights = given.weights.value
    unusable = ~((weights > 1 / _MOST_WEIGHT) & (weights < _MOST_WEIGHT))
    add_fault(faults, given.per_spline(given.weights, unusable), BAD_WEIGHTS)


def _rational(weights: Floats) -> Floats | None:
    """Weights, or None if they are all equal and so mean nothing."""
    if not len(weights) or (weights == weights[0]).all():
        return None
    scaled: Floats = weights / weights.max()
    return scaled


def _note_rise(records: Records, given: _Splines, shapes: Shapes) -> None:
    heights = records.rows(given.chosen, 30)
    rise = spans(heights.value, heights.first)
    size = spans(given.x.value, given.x.first) + spans(given.y.value, given.y.first)
    for record in given.chosen[rise > LEVEL * size].tolist():
        if record in shapes.curves:
            shapes.notes[record] = SEEN_FROM_ABOVE


def _owner(rows: Rows) -> Indices:
    return np.repeat(np.arange(len(rows.first) - 1), np.diff(rows.first))


def _by_fit_points(records: Records, chosen: Indices) -> Shapes:
    x, y = records.rows(chosen, 11), records.rows(chosen, 21)
    ends = np.stack([records.column(chosen, code) for code in (12, 22, 13, 23)], axis=1)
    closed = (records.flags(chosen, 70) & _CLOSED) != 0
    shapes = Shapes()
    for index, record in enumerate(chosen.tolist()):
        xs, ys = x.of(index), y.of(index)
        if len(xs) != len(ys):
            shapes.faults[record] = UNPAIRED
            continue
        points = np.column_stack([xs, ys])
        fault = _points_fault(points)
        if fault:
            shapes.faults[record] = fault
        else:
            shapes.curves[record] = _through(points, ends[index], closed=bool(closed[index]))
            shapes.notes[record] = FROM_FIT_POINTS
    return shapes


def _points_fault(points: Floats) -> str:
    if np.isnan(points).any():
        return NOT_A_NUMBER
    if not (np.abs(points) <= LARGEST).all():
        return TOO_LARGE
    if len(points) < 2 or np.ptp(points, axis=0).max() < 1 / LARGEST:
        return WITHOUT_LENGTH
    return ""


def _through(points: Floats, ends: Floats, *, closed: bool) -> Spline | Polyline:
    """The cubic through fit points: parameter by chord length, natural ends or given tangents.

    Common practice of drawing programs, after the notes on fit points in the manual of ezdxf
    1.4.5 (`fit_points_to_cad_cv`); tangents there have the length of the whole chord.
    """
    if closed:
        points = np.concatenate([points, points[:1]])
    step = np.hypot(*np.diff(points, axis=0).T)
    apart = np.append(True, step > _TOUCHING * step.sum())
    end, points = points[-1], points[apart]
    points[-1] = end
    chord = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(points, axis=0).T))])
    given = [_tangent(ends[:2]), _tangent(ends[2:])]
    if len(points) == 2 and all(tangent is None for tangent in given):
        return Polyline(points)
    from scipy.interpolate import make_interp_spline  # slow to load; few splines have fit points

    if closed and len(points) > 3:
        curve = make_interp_spline(chord, points, k=3, bc_type="periodic")
    else:
        free = (2, np.zeros(2))
        start, end = ([free if tangent is None else (1, tangent)] for tangent in given)
        conditions = (start, end)
        curve = make_interp_spline(chord, points, k=3, bc_type=conditions)  # type: ignore[arg-type]  # the stubs know no vectors here
    return Spline(3, np.ascontiguousarray(curve.c), curve.t)


def _tangent(direction: Floats) -> Floats | None:
    length = np.hypot(*direction)
    return direction / length if 0 < length < LARGEST else None
