"""Live lane: a trace that follows a drag, painted part by part, not with the still picture."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QPointF, QRect, QRectF, Qt
from PySide6.QtGui import QPainter, QPen

from holeplacer.gui.canvas.paths import polygon
from holeplacer.gui.ribbon.deflection_trace import DeflectionTrace
from holeplacer.gui.ribbon.picture import Lane, paint_profile, shade
from holeplacer.gui.ribbon.scale import Scale
from holeplacer.gui.ribbon.unrolled import Run, Unrolled
from holeplacer.gui.theme import Colours

_SEEN_PX = 0.4


def differing(ribbon: Unrolled, scale: Scale, old: Lane, new: Lane) -> Iterator[QRect]:
    """Pixels in which two states of a lane differ: runs in sight whose line or limit moved."""
    one, two = old.trace, new.trace
    moved: set[int] | None = None
    if isinstance(one, DeflectionTrace) and isinstance(two, DeflectionTrace):
        moved = _moved_branches(new, one, two)
    for run in scale.visible(ribbon):
        if moved is None or run.branch in moved:
            yield _rect(run, scale, new)


def paint_lane(
    painter: QPainter, ribbon: Unrolled, scale: Scale, lane: Lane, colours: Colours, exposed: QRect
) -> None:
    """Paint what is exposed of a lane; the painter's unit is the pixel."""
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    for run in scale.visible(ribbon):
        if exposed.intersects(_rect(run, scale, lane)):
            paint_profile(painter, ribbon, run, scale, lane, colours)
            if isinstance(lane.trace, DeflectionTrace):
                _paint_limits(painter, ribbon, run, scale, lane, colours)


def _rect(run: Run, scale: Scale, lane: Lane) -> QRect:
    left = scale.x_px(run, run.start_mm)
    width = run.length_mm * scale.px_per_mm
    return (
        QRectF(left, lane.top_px, width, lane.base_px - lane.top_px)
        .toAlignedRect()
        .adjusted(-2, -2, 2, 2)
    )


def _moved_branches(lane: Lane, one: DeflectionTrace, two: DeflectionTrace) -> set[int] | None:
    """Branches whose figures or limits moved by what can be seen; None: all of them."""
    if one.limit != two.limit or one.ways is not two.ways:
        return None
    far = _far(lane, one.all_values, two.all_values)
    far |= _far(lane, one.all_allowed, two.all_allowed)
    ends = np.cumsum([len(way) for way in two.ways])
    return set(np.searchsorted(ends, np.flatnonzero(far), "right").tolist())


def _far(lane: Lane, one: NDArray[np.float64], two: NDArray[np.float64]) -> NDArray[np.bool_]:
    moved: NDArray[np.bool_] = np.abs(lane.y_px(one) - lane.y_px(two)) > _SEEN_PX
    return moved


def _paint_limits(
    painter: QPainter, ribbon: Unrolled, run: Run, scale: Scale, lane: Lane, colours: Colours
) -> None:
    """What is allowed, dashed, and a pattern where more is reached."""
    trace = lane.trace
    found = trace.limits(run) if isinstance(trace, DeflectionTrace) else None
    if found is None:
        return
    places, allowed = found
    x = scale.left_of(run) + places * scale.px_per_mm
    _shade_broken(painter, ribbon, run, scale, lane, colours)
    pen = QPen(colours.colour("limit"), 1)
    pen.setDashPattern([4, 3])
    painter.setPen(pen)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    low = allowed <= lane.full
    cuts = np.flatnonzero(np.diff(low)) + 1
    for part in np.split(np.arange(len(x)), cuts):
        if low[part[0]]:
            painter.drawPolyline(polygon(np.column_stack([x[part], lane.y_px(allowed[part])])))
    painter.setPen(QPen(colours.colour("cut_edge"), 1))
    painter.drawLine(QPointF(x[0], lane.base_px), QPointF(x[-1], lane.base_px))


def _shade_broken(
    painter: QPainter, ribbon: Unrolled, run: Run, scale: Scale, lane: Lane, colours: Colours
) -> None:
    trace = lane.trace
    if not isinstance(trace, DeflectionTrace):
        return
    found = trace.limits(run)
    if found is None:
        return
    places, values = trace.profile(ribbon.axis, run)
    broken = values > np.interp(places, *found)
    if not broken.any():
        return
    x = scale.left_of(run) + places * scale.px_per_mm
    for part in np.split(np.arange(len(x)), np.flatnonzero(np.diff(broken)) + 1):
        if broken[part[0]]:
            left, right = float(x[part[0]]), float(x[part[-1]])
            height = lane.base_px - lane.top_px
            shade(painter, QRectF(left, lane.top_px, max(right - left, 2.0), height), colours)
