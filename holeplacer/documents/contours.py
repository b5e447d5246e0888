"""Contours: the outline's rings as the artist's own curves, closed to a millionth of a mm."""

import math
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from holeplacer.documents.page import MEETS_MM, Contour, Stroke
from holeplacer.geometry import arc_spline, evaluate, transform, trim
from holeplacer.geometry.curve import Points, Polyline, Spline
from holeplacer.outline import trace
from holeplacer.outline.drawn import DrawnCurves
from holeplacer.outline.outline import Outline

OUTER, COUNTERS = "OUTER", "COUNTERS"
"""Layers of contours that the artwork gives no layer for."""

SNAPS_MM = 5e-3
"""Ends no further apart than this are moved together, far below what a plasma cut can show; wider
gaps are bridged by a straight stroke, so that the artwork's curve stays as drawn."""


FITTED_WITHIN_MM = 0.01
"""Furthest that an arc or line strays from the vertices it stands for: common practice, no source;
a tenth of what a plasma table repeats."""


def contours_of(
    outline: Outline, drawn: DrawnCurves, tolerance_mm: float = 0.02
) -> tuple[Contour, ...]:
    """Every ring of the outline as strokes that meet end to end.

    A drawn curve that is whole in the outline goes out as it was drawn; one that mending, an
    offset or a boss left only in part is trimmed; what they made new is arcs and lines.

    Args:
        outline: The cut outline.
        drawn: The artwork's curves.
        tolerance_mm: How far their flattening may stray from them.

    Returns:
        Piece by piece, the outer contour first.
    """
    return tuple(
        _contour(np.asarray(ring.coords), drawn, tolerance_mm, outer=index == 0)
        for piece in outline.pieces
        for index, ring in enumerate((piece.polygon.exterior, *piece.polygon.interiors))
    )


def ends_of(stroke: Stroke) -> Points:
    """First and last point of a stroke in its contour's direction, (2, 2) mm."""
    ends = evaluate.points_at(stroke.curve, evaluate.domain(stroke.curve))
    return ends[::-1] if stroke.backwards else ends


def _contour(ring: Points, drawn: DrawnCurves, tolerance_mm: float, *, outer: bool) -> Contour:
    found = trace.trace(ring, drawn)
    layers = [drawn.layers[run.curve] for run in found if isinstance(run, trace.Run)]
    own = OUTER if outer else COUNTERS
    layer = next(filter(None, layers), "") or _only_layer(drawn) or own
    strokes: list[Stroke] = []
    for item in found:
        if isinstance(item, trace.Chords):
            strokes.append(Stroke(_of_chords(item.xy, tolerance_mm), layer))
        else:
            layer = drawn.layers[item.curve] or own
            strokes.append(_of_run(item, drawn, layer))
    return Contour(_closed(strokes), outer)


def _only_layer(drawn: DrawnCurves) -> str:
    """The artwork's layer if all of it is on one."""
    names = set(drawn.layers)
    return names.pop() if len(names) == 1 else ""


def _of_chords(xy: Points, tolerance_mm: float) -> Polyline:
    """What mending, offset or boss made, as few arcs and lines."""
    closed = len(xy) > 3 and np.array_equal(xy[0], xy[-1])
    chain = xy[:-1] if closed else xy
    return arc_spline.fitted(chain, FITTED_WITHIN_MM, tolerance_mm, closed=closed).polyline


def _of_run(run: trace.Run, drawn: DrawnCurves, layer: str) -> Stroke:
    curve = drawn.curves[run.curve]
    first, last = evaluate.domain(curve)
    if {run.t0, run.t1} == {first, last}:
        return Stroke(curve, layer, backwards=run.t0 == last)
    return Stroke(trim.trimmed(curve, run.t0, run.t1), layer)


def _closed(strokes: list[Stroke]) -> tuple[Stroke, ...]:
    """The strokes with every gap between one and the next snapped or bridged."""
    if len(strokes) == 1 and evaluate.is_closed(strokes[0].curve):
        return tuple(strokes)
    closed: list[Stroke] = []
    ends = [ends_of(stroke) for stroke in strokes]
    for index, stroke in enumerate(strokes):
        end, start = ends[index][1], ends[(index + 1) % len(strokes)][0]
        gap = math.hypot(*(start - end))
        if MEETS_MM < gap <= SNAPS_MM:
            stroke = _reaching(stroke, start)
        closed.append(stroke)
        if gap > SNAPS_MM:
            closed.append(Stroke(Polyline(np.array([end, start])), stroke.layer))
    return tuple(closed)


def _reaching(stroke: Stroke, target: Points) -> Stroke:
    """The stroke with its last point moved onto another, its first point kept."""
    start, end = ends_of(stroke)
    curve = stroke.curve
    if isinstance(curve, Polyline):
        xy = curve.xy.copy()
        xy[0 if stroke.backwards else -1] = target
        return replace(stroke, curve=replace(curve, xy=xy))
    if isinstance(curve, Spline) and _ends_in_control(curve):
        control = curve.control.copy()
        control[0 if stroke.backwards else -1] = target
        return replace(stroke, curve=replace(curve, control=control))
    return replace(stroke, curve=transform.transformed(curve, _turning(start, end, target)))


def _ends_in_control(curve: Spline) -> bool:
    ends = evaluate.points_at(curve, evaluate.domain(curve))
    return bool(np.abs(ends - curve.control[[0, -1]]).max() <= MEETS_MM)


def _turning(start: Points, end: Points, target: Points) -> NDArray[np.float64]:
    """Turn and scale about `start` that brings `end` to `target`."""
    old, new = complex(*(end - start)), complex(*(target - start))
    by = new / old
    a, b = by.real, by.imag
    shift = start - np.array([[a, -b], [b, a]]) @ start
    return np.array([[a, -b, shift[0]], [b, a, shift[1]]])
