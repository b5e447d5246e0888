"""Joining: neighbouring curves of a path as one entity, exactly the same points.

A path format strings hundreds of short Bezier curves and lines together; a drawing for the table
should hold the stroke between two corners as one spline, and lines in a row as one polyline.
"""

import math
from collections.abc import Sequence

import numpy as np

from holeplacer.documents.page import Stroke
from holeplacer.geometry import trim
from holeplacer.geometry.curve import Curve, Points, Polyline, Spline

_SMOOTH = math.radians(0.5)
"""Curves whose directions differ by less at their joint are one stroke of the pen."""


def joined(strokes: Sequence[Stroke]) -> tuple[Stroke, ...]:
    """A closed contour's strokes, joined where they can be; begins at a corner if there is one.

    Straight strokes join across corners; splines without weights of one degree join where they
    go on smoothly. Strokes on different layers never join.

    Args:
        strokes: In order; each ends where the next starts.
    """
    forward = [
        Stroke(trim.reversed_curve(stroke.curve), stroke.layer) if stroke.backwards else stroke
        for stroke in strokes
    ]
    breaks = [not _joins(forward[i - 1], forward[i]) for i in range(len(forward))]
    first = breaks.index(True) if any(breaks) else 0
    forward = forward[first:] + forward[:first]
    breaks = breaks[first:] + breaks[:first]
    runs: list[list[Stroke]] = []
    for stroke, breaks_here in zip(forward, breaks, strict=True):
        if breaks_here or not runs:
            runs.append([])
        runs[-1].append(stroke)
    return tuple(_as_one(run, closed=len(runs) == 1 and not any(breaks)) for run in runs)


def _joins(one: Stroke, other: Stroke) -> bool:
    if one.layer != other.layer:
        return False
    first, second = one.curve, other.curve
    if isinstance(first, Polyline) and isinstance(second, Polyline):
        return not (first.closed or second.closed)
    if not (isinstance(first, Spline) and isinstance(second, Spline)):
        return False
    if first.degree != second.degree or not (_is_clamped(first) and _is_clamped(second)):
        return False
    return _turn(first.control, second.control) <= _SMOOTH


def _is_clamped(curve: Spline) -> bool:
    """Whether it has no weights and starts and ends in its outer control points."""
    ends = curve.degree + 1
    return (
        curve.weights is None
        and bool(np.all(curve.knots[:ends] == curve.knots[0]))
        and bool(np.all(curve.knots[-ends:] == curve.knots[-1]))
    )


def _turn(before: Points, after: Points) -> float:
    """Angle between the direction one spline ends in and the one the next starts in."""
    arriving = next((step for step in np.diff(before, axis=0)[::-1] if step.any()), None)
    leaving = next((step for step in np.diff(after, axis=0) if step.any()), None)
    if arriving is None or leaving is None:
        return math.pi
    across = arriving[0] * leaving[1] - arriving[1] * leaving[0]
    return abs(math.atan2(across, float(arriving @ leaving)))


def _as_one(run: Sequence[Stroke], *, closed: bool) -> Stroke:
    curves: list[Curve] = [stroke.curve for stroke in run]
    polylines = [curve for curve in curves if isinstance(curve, Polyline)]
    if polylines:
        return Stroke(_one_polyline(polylines, closed=closed), run[0].layer)
    splines = [curve for curve in curves if isinstance(curve, Spline)]
    if len(splines) < 2:
        return run[0]
    return Stroke(_one_spline(splines), run[0].layer)


def _one_polyline(parts: Sequence[Polyline], *, closed: bool) -> Polyline:
    if len(parts) == 1:
        return parts[0]
    last = parts[-1].xy[-1:]
    xy = np.concatenate([*(part.xy[:-1] for part in parts), *([] if closed else [last])])
    bulges = np.concatenate(
        [np.zeros(len(p.xy) - 1) if p.bulges is None else p.bulges[:-1] for p in parts]
        + ([] if closed else [np.zeros(1)])
    )
    return Polyline(xy, bulges if bulges.any() else None, closed)


def _one_spline(parts: Sequence[Spline]) -> Spline:
    """One spline whose knots are as many-fold as its degree at each joint: no point moves."""
    degree = parts[0].degree
    control = np.concatenate([parts[0].control[:1], *(part.control[1:] for part in parts)])
    knots, at = [np.zeros(degree + 1)], 0.0
    for part in parts:
        knots.append(at + part.knots[degree + 1 : -degree - 1] - part.knots[0])
        at += float(part.knots[-1] - part.knots[0])
        knots.append(np.full(degree, at))
    knots.append(np.array([at]))
    return Spline(degree, control, np.concatenate(knots))
