"""The moving part of the ribbon: holes as ticks, long spans as bars."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

import numpy as np
from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QFont, QPainter, QPen

from holeplacer.gui.canvas import hole_symbol
from holeplacer.gui.canvas.hole_symbol import HoleMark
from holeplacer.gui.canvas.stretches import Stretch, StretchKind
from holeplacer.gui.ribbon.picture import Lane
from holeplacer.gui.ribbon.scale import Scale
from holeplacer.gui.ribbon.unrolled import Run, Unrolled
from holeplacer.gui.theme import Colours
from holeplacer.medial_axis import ways
from holeplacer.medial_axis.axis import Axis

RING_PX = 4.5
RING_Y_PX = 22.0
_NUMBER_PX = 11
_OFF_AXIS_MM = 0.05
_DOWN_RAD = -np.pi / 2
_BAR_BELOW_PX = 9.0
_BAR_END_PX = 3.5


@dataclass(frozen=True)
class Tick:
    """One hole on the ribbon.

    Attributes:
        mark: What is seen of it.
        run: The run its foot lies on.
        x_mm: Place on the ribbon.
        off_axis: It lies beside the axis, and counts at its foot.
    """

    mark: HoleMark
    run: Run
    x_mm: float
    off_axis: bool


def ticks(axis: Axis, ribbon: Unrolled, marks: tuple[HoleMark, ...]) -> tuple[Tick, ...]:
    """The tick of each hole, at the foot of its centre on the axis."""
    if not marks or not ribbon.runs:
        return ()
    feet = ways.feet(axis, [(mark.x_mm, mark.y_mm) for mark in marks])
    made = []
    for i, mark in enumerate(marks):
        run, x_mm = ribbon.place(feet.points.at(i))
        made.append(Tick(mark, run, x_mm, bool(feet.distance[i] > _OFF_AXIS_MM)))
    return tuple(made)


def paint_ticks(
    painter: QPainter,
    shown: Iterable[Tick],
    scale: Scale,
    base_px: float,
    colours: Colours,
    *,
    hovered: int,
) -> None:
    """Paint each tick with ring, state and number; dashed where the hole is off the axis."""
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    font = QFont(painter.font())
    font.setPixelSize(_NUMBER_PX)
    painter.setFont(font)
    for tick in shown:
        x = scale.x_px(tick.run, tick.x_mm)
        if -20 <= x <= scale.width_px + 20:
            _paint_tick(painter, tick, x, base_px, colours, hovered == tick.mark.number)


def _paint_tick(
    painter: QPainter, tick: Tick, x: float, base_px: float, colours: Colours, hovered: bool
) -> None:
    mark = tick.mark
    chosen = mark.selected or hovered
    pen = QPen(colours.colour("accent") if chosen else hole_symbol.ink(mark, colours), 1.5)
    if tick.off_axis:
        pen.setDashPattern([2, 2])
    painter.setPen(pen)
    painter.drawLine(QLineF(x, RING_Y_PX + RING_PX, x, base_px + 4))
    painter.save()
    painter.translate(x, RING_Y_PX)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(colours.colour("ground"))
    painter.drawEllipse(QPointF(), RING_PX, RING_PX)
    if chosen:
        hole_symbol.paint_halo(painter, RING_PX - 1, colours, firm=mark.selected)
    towards = _with_direction(mark)
    hole_symbol.paint_state(painter, towards, RING_PX, colours)
    painter.restore()
    painter.setPen(pen.color())
    box = QRectF(x - 20, 0, 40, RING_Y_PX - RING_PX - 3)
    painter.drawText(box, Qt.AlignmentFlag.AlignHCenter | Qt.AlignmentFlag.AlignBottom,
                     str(mark.number))  # fmt: skip


def _with_direction(mark: HoleMark) -> HoleMark:
    """The ribbon has no direction across the stroke: a wedge points down, at the width."""
    return replace(mark, short_rad=_DOWN_RAD)


def paint_stretches(
    painter: QPainter,
    shown: Iterable[Stretch],
    ribbon: Unrolled,
    scale: Scale,
    lane: Lane,
    colours: Colours,
) -> None:
    """Paint long spans as bars under the strokes they run along, each with its figure."""
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    font = QFont(painter.font())
    font.setPixelSize(_NUMBER_PX)
    painter.setFont(font)
    taken: list[QRectF] = []
    for stretch in shown:
        pieces = _pieces(stretch, ribbon, scale)
        seen = [piece for piece in pieces if piece[1] > 0 and piece[0] < scale.width_px]
        if not seen:
            continue
        y = lane.base_px + _BAR_BELOW_PX
        painter.setPen(_bar_pen(stretch.kind, colours))
        for low, high in seen:
            painter.drawLine(QLineF(low, y, high, y))
            if stretch.kind is not StretchKind.UNCOVERED:
                for x in (low, high):
                    painter.drawLine(QLineF(x, y - _BAR_END_PX, x, y + _BAR_END_PX))
        if stretch.figure:
            _paint_figure(painter, stretch.figure, max(seen, key=_width), y, taken)


def _pieces(stretch: Stretch, ribbon: Unrolled, scale: Scale) -> list[tuple[float, float]]:
    """Pixels of each part, neighbours joined where the ribbon goes on without a gap."""
    pieces: list[tuple[float, float]] = []
    for part in stretch.parts:
        run = ribbon.run_of[(part.branch, -1)]
        one, two = (scale.x_px(run, run.x_of(s)) for s in (part.from_mm, part.to_mm))
        low, high = min(one, two), max(one, two)
        joined = [piece for piece in pieces if piece[0] <= high + 0.5 and low - 0.5 <= piece[1]]
        for piece in joined:
            pieces.remove(piece)
            low, high = min(low, piece[0]), max(high, piece[1])
        pieces.append((low, high))
    return pieces


def _bar_pen(kind: StretchKind, colours: Colours) -> QPen:
    pen = QPen(colours.colour("accent" if kind is StretchKind.CHECKED else "alert"), 1.5)
    if kind is StretchKind.UNCOVERED:
        pen.setWidthF(3.0)
        pen.setCapStyle(Qt.PenCapStyle.FlatCap)
        pen.setDashPattern([1.2, 1.0])
    return pen


def _paint_figure(
    painter: QPainter, figure: str, piece: tuple[float, float], y: float, taken: list[QRectF]
) -> None:
    """The figure under its bar, unless it would run into another one."""
    width = painter.fontMetrics().horizontalAdvance(figure) + 8.0
    box = QRectF((piece[0] + piece[1] - width) / 2, y + 2, width, 13)
    if not any(box.intersects(other) for other in taken):
        taken.append(box)
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter, figure)


def _width(piece: tuple[float, float]) -> float:
    return piece[1] - piece[0]
