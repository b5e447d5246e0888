"""The still part of the ribbon: profiles, limits, thin places, tips and joints."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QPainter, QPen

from holeplacer.gui.canvas.paths import polygon
from holeplacer.gui.ribbon.scale import Scale
from holeplacer.gui.ribbon.trace import Trace
from holeplacer.gui.ribbon.unrolled import Run, Unrolled
from holeplacer.gui.theme import Colours
from holeplacer.medial_axis.ways import LONE

HEAD_PX = 29.0
FOOT_PX = 22.0
_LANE_GAP_PX = 10.0
_TIP_PX = 3.0
_FINEST_PX = 0.5


@dataclass(frozen=True, eq=False)
class Lane:
    """Where one trace is drawn.

    Attributes:
        trace: What is drawn.
        top_px, base_px: Its extent, y down.
        full: The figure that reaches the top.
    """

    trace: Trace
    top_px: float
    base_px: float
    full: float

    @property
    def px_per_mm(self) -> float:
        """Upwards."""
        return (self.base_px - self.top_px) / self.full

    def y_px(self, values: NDArray[np.float64] | float) -> NDArray[np.float64]:
        """Pixels of figures; those above the lane end at its top."""
        height: NDArray[np.float64] = np.minimum(np.asarray(values, np.float64), self.full)
        return self.base_px - height * self.px_per_mm


def lanes(traces: tuple[Trace, ...], height_px: int) -> tuple[Lane, ...]:
    """Share the height of the ribbon between the traces."""
    room = height_px - HEAD_PX - FOOT_PX - _LANE_GAP_PX * (len(traces) - 1)
    each = max(room / max(len(traces), 1), 8.0)
    return tuple(
        Lane(
            trace,
            HEAD_PX + i * (each + _LANE_GAP_PX),
            HEAD_PX + i * (each + _LANE_GAP_PX) + each,
            trace.height(),
        )
        for i, trace in enumerate(traces)
    )


def paint_picture(
    painter: QPainter,
    ribbon: Unrolled,
    scale: Scale,
    over: tuple[Lane, ...],
    colours: Colours,
) -> None:
    """Paint all runs in sight; the painter's unit is the pixel."""
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    for run in scale.visible(ribbon):
        for lane in over:
            paint_profile(painter, ribbon, run, scale, lane, colours)
        _paint_ends(painter, ribbon, run, scale, over[0], colours)
    for lane in over:
        _paint_limit(painter, ribbon, scale, lane, colours)


def paint_profile(
    painter: QPainter, ribbon: Unrolled, run: Run, scale: Scale, lane: Lane, colours: Colours
) -> None:
    """Paint one run of a lane, the limit apart; the painter's unit is the pixel."""
    places, values = lane.trace.profile(ribbon.axis, run)
    x, values = _thinned(scale.left_of(run) + places * scale.px_per_mm, values, scale.width_px)
    if len(x) < 2:
        return
    y = lane.y_px(values)
    line = np.column_stack([x, y])
    area = np.concatenate([[[x[0], lane.base_px]], line, [[x[-1], lane.base_px]]])
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(colours.colour("clear_width"))
    painter.drawPolygon(polygon(area))
    for low, high in _broken_parts(x, values, lane.trace):
        shade(painter, QRectF(low, lane.top_px, high - low, lane.base_px - lane.top_px), colours)
    painter.setPen(QPen(colours.colour("cut_edge"), 1))
    painter.drawPolyline(polygon(line))
    painter.drawLine(QPointF(x[0], lane.base_px), QPointF(x[-1], lane.base_px))


def _thinned(
    x: NDArray[np.float64], values: NDArray[np.float64], width_px: int
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """What is in sight, at most the least and the greatest figure for each half pixel."""
    first = max(int(np.searchsorted(x, 0.0)) - 1, 0)
    last = min(int(np.searchsorted(x, float(width_px))) + 1, len(x))
    x, values = x[first:last], values[first:last]
    if len(x) < 4 or len(x) <= 2 * (x[-1] - x[0]) / _FINEST_PX:
        return x, values
    column = np.floor(x / _FINEST_PX)
    starts = np.flatnonzero(np.append(True, column[1:] != column[:-1]))
    least, most = np.minimum.reduceat(values, starts), np.maximum.reduceat(values, starts)
    return np.repeat(x[starts], 2), np.column_stack([least, most]).ravel()


def _broken_parts(
    x: NDArray[np.float64], values: NDArray[np.float64], trace: Trace
) -> list[tuple[float, float]]:
    """Stretches of pixels over which the limit is broken, ends found between the points."""
    if trace.limit is None:
        return []
    bad = trace.breaks(values)
    change = np.flatnonzero(bad[1:] != bad[:-1])
    over = values - trace.limit
    with np.errstate(divide="ignore", invalid="ignore"):
        share = np.nan_to_num(over[change] / (over[change] - over[change + 1]), nan=0.5)
    cross = x[change] + share * (x[change + 1] - x[change])
    bounds = np.concatenate([[x[0]] if bad[0] else [], cross, [x[-1]] if bad[-1] else []])
    return [(float(low), float(high)) for low, high in bounds.reshape(-1, 2)]


def shade(painter: QPainter, area: QRectF, colours: Colours) -> None:
    """Mark a place where the limit is broken, by pattern first."""
    tint = colours.colour("alert")
    tint.setAlphaF(0.10)
    painter.fillRect(area, tint)
    pattern = colours.colour("alert")
    pattern.setAlphaF(0.55)
    painter.fillRect(area, QBrush(pattern, Qt.BrushStyle.BDiagPattern))


def _paint_ends(
    painter: QPainter, ribbon: Unrolled, run: Run, scale: Scale, lane: Lane, colours: Colours
) -> None:
    """A dot at each tip; a short tick where other strokes join."""
    if run.branch == LONE:
        return
    branch = ribbon.axis.branches[run.branch]
    nodes = (branch.end, branch.start) if run.backwards else (branch.start, branch.end)
    for node, place in zip(nodes, (run.start_mm, run.start_mm + run.length_mm), strict=True):
        x = scale.x_px(run, place)
        if ribbon.axis.degree[node] == 1:
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(colours.colour("cut_edge"))
            painter.drawEllipse(QPointF(x, lane.base_px), _TIP_PX, _TIP_PX)
        elif ribbon.axis.degree[node] >= 3:
            painter.setPen(QPen(colours.colour("axis"), 1))
            painter.drawLine(QLineF(x, lane.base_px - 4, x, lane.base_px + 4))


def _paint_limit(
    painter: QPainter, ribbon: Unrolled, scale: Scale, lane: Lane, colours: Colours
) -> None:
    """The limit as a dashed line over every stroke."""
    if lane.trace.limit is None or not ribbon.runs:
        return
    y = round(float(lane.y_px(lane.trace.limit))) + 0.5  # the middle of a row, so that it is crisp
    pen = QPen(colours.colour("limit"), 1)
    pen.setDashPattern([4, 3])
    painter.setPen(pen)
    end = min(scale.total_px(ribbon) - scale.scroll_px, float(scale.width_px))
    painter.drawLine(QPointF(0, y), QPointF(end, y))
