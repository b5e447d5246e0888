"""The moving part of the ribbon: holes as ticks, long spans as bars."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from itertools import chain
from types import MappingProxyType

from PySide6.QtCore import QLineF, QPointF, QRect, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QPainter, QPen, QRegion

from holeplacer.gui.canvas import hole_symbol
from holeplacer.gui.canvas.hole_symbol import HoleMark
from holeplacer.gui.canvas.stretches import Stretch, StretchKind
from holeplacer.gui.ribbon.scale import Scale
from holeplacer.gui.ribbon.unrolled import Run, Unrolled
from holeplacer.gui.theme import Colours
from holeplacer.medial_axis import ways
from holeplacer.medial_axis.ways import AxisPoints

RING_PX = 4.5
RING_Y_PX = 22.0
_NUMBER_PX = 11
_OFF_AXIS_MM = 0.05
_SAME_MM = 1e-6
_DOWN_RAD = -math.pi / 2
_BAR_BELOW_PX = 9.0
_BAR_END_PX = 3.5
_FIGURE_PX = 70


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


def ticks(
    ribbon: Unrolled,
    marks: tuple[HoleMark, ...],
    feet: AxisPoints,
    before: Mapping[int, Tick] = MappingProxyType({}),
) -> tuple[Tick, ...]:
    """The tick of each hole, at its foot on the axis.

    Args:
        ribbon: The unrolled axis.
        marks: The holes.
        feet: Their feet, in the same order.
        before: Ticks of the same ribbon by hole number; those of holes that did not move are
            taken over.
    """
    if not ribbon.runs or not marks:
        return ()
    made = []
    for i, mark in enumerate(marks):
        old = before.get(mark.number)
        if old is None or (old.mark.x_mm, old.mark.y_mm) != (mark.x_mm, mark.y_mm):
            made.append(_tick(ribbon, mark, feet[[i]]))
        else:
            same = old.mark is mark or old.mark == mark
            made.append(old if same else replace(old, mark=mark))
    return tuple(made)


def differing(old: Iterable[Tick], new: Iterable[Tick]) -> list[Tick]:
    """Ticks that are in one only; one that is as before is the same object."""
    before, after = ({id(tick): tick for tick in ticks} for ticks in (old, new))
    return [(before | after)[key] for key in before.keys() ^ after.keys()]


def _tick(ribbon: Unrolled, mark: HoleMark, foot: AxisPoints) -> Tick:
    run, x_mm = ribbon.place(foot.at(0))
    x, y = ways.places(ribbon.axis, foot)[0].tolist()
    beside = math.hypot(x - mark.x_mm, y - mark.y_mm)
    return Tick(mark, run, x_mm, beside > _OFF_AXIS_MM)


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
    for tick in shown:
        x = scale.x_px(tick.run, tick.x_mm)
        _paint_tick(painter, tick, x, base_px, colours, hovered == tick.mark.number)


def paint_numbers(
    painter: QPainter,
    shown: Iterable[Tick],
    scale: Scale,
    colours: Colours,
    *,
    hovered: int,
    exposed: QRegion,
) -> None:
    """Paint the holes' numbers over their ticks, those first that are looked at.

    One that would run into another is left out; zooming in brings it back. Only what is exposed
    is painted, but all are asked, so that the choice does not depend on it.
    """
    font = QFont(painter.font())
    font.setPixelSize(_NUMBER_PX)
    painter.setFont(font)
    metrics = painter.fontMetrics()
    taken: list[tuple[float, float]] = []
    for tick in sorted(shown, key=lambda tick: not _looked_at(tick, hovered)):
        x, text = scale.x_px(tick.run, tick.x_mm), str(tick.mark.number)
        half = metrics.horizontalAdvance(text) / 2 + 1.5
        if any(x - half < high and low < x + half for low, high in taken):
            continue
        taken.append((x - half, x + half))
        box = QRectF(x - half, 0, 2 * half, RING_Y_PX - RING_PX - 3)
        if exposed.intersects(box.toAlignedRect()):
            painter.setPen(_ink(tick, colours, hovered))
            painter.drawText(
                box, Qt.AlignmentFlag.AlignHCenter | Qt.AlignmentFlag.AlignBottom, text
            )


def _looked_at(tick: Tick, hovered: int) -> bool:
    return tick.mark.selected or tick.mark.number == hovered


def _ink(tick: Tick, colours: Colours, hovered: int) -> QColor:
    if _looked_at(tick, hovered):
        return colours.colour("accent")
    return hole_symbol.ink(tick.mark, colours)


def _paint_tick(
    painter: QPainter, tick: Tick, x: float, base_px: float, colours: Colours, hovered: bool
) -> None:
    mark = tick.mark
    pen = QPen(_ink(tick, colours, mark.number if hovered else 0), 1.5)
    if tick.off_axis:
        pen.setDashPattern([2, 2])
        pen.setCapStyle(Qt.PenCapStyle.FlatCap)
    painter.setPen(pen)
    painter.drawLine(QLineF(x, RING_Y_PX + RING_PX, x, base_px + 4))
    painter.save()
    painter.translate(x, RING_Y_PX)
    if mark.selected or hovered:
        hole_symbol.paint_halo(painter, RING_PX - 1, colours, firm=mark.selected)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(colours.colour("ground"))
    painter.drawEllipse(QPointF(), RING_PX, RING_PX)
    hole_symbol.paint_state(painter, _with_direction(mark), RING_PX, colours)
    painter.restore()


def _with_direction(mark: HoleMark) -> HoleMark:
    """The ribbon has no direction across the stroke: a wedge points down, at the width."""
    return replace(mark, short_rad=_DOWN_RAD)


@dataclass(frozen=True, eq=False)
class Bar:
    """A stretch under the strokes it runs along.

    Attributes:
        kind: What is the matter.
        figure: Value and limit; may be empty.
        pieces: Pairs of run and place at which it begins and ends; neighbours are joined where
            the ribbon goes on without a gap.
    """

    kind: StretchKind
    figure: str
    pieces: tuple[tuple[Run, float, float], ...]

    def ends_px(self, scale: Scale) -> list[tuple[float, float]]:
        """Pixels at which each piece begins and ends."""
        return [(scale.x_px(run, low), scale.x_px(run, high)) for run, low, high in self.pieces]

    def rects(self, scale: Scale, top_px: int, height_px: int) -> list[QRect]:
        """What it covers from a height downwards, its figure included."""
        room = _FIGURE_PX if self.figure else 0
        found = []
        for low, high in self.ends_px(scale):
            middle = (low + high) / 2
            left, right = min(low, middle - room) - 4, max(high, middle + room) + 4
            found.append(QRect(round(left), top_px, round(right - left), height_px))
        return found


def bar(ribbon: Unrolled, stretch: Stretch) -> Bar:
    """The bar of a stretch."""
    pieces: list[tuple[Run, float, float]] = []
    for part in stretch.parts:
        run = ribbon.run_of[(part.branch, -1)]
        one, two = run.x_of(part.from_mm), run.x_of(part.to_mm)
        low, high = min(one, two), max(one, two)
        for piece in [p for p in pieces if _meets(p, run, low, high)]:
            pieces.remove(piece)
            low, high = min(low, piece[1]), max(high, piece[2])
        pieces.append((run, low, high))
    return Bar(stretch.kind, stretch.figure, tuple(pieces))


def paint_bars(
    painter: QPainter, shown: Iterable[Bar], scale: Scale, base_px: float, colours: Colours
) -> None:
    """Paint bars below the strokes, each with its figure where there is room."""
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    font = QFont(painter.font())
    font.setPixelSize(_NUMBER_PX)
    painter.setFont(font)
    pens = {kind: _bar_pen(kind, colours) for kind in StretchKind}
    taken: list[tuple[float, float]] = []
    y = base_px + _BAR_BELOW_PX
    for item in shown:
        ends = item.ends_px(scale)
        seen = [(low, high) for low, high in ends if high > 0 and low < scale.width_px]
        if not seen:
            continue
        painter.setPen(pens[item.kind])
        painter.drawLines([QLineF(low, y, high, y) for low, high in seen])
        if item.kind is not StretchKind.UNCOVERED:
            up, down = y - _BAR_END_PX, y + _BAR_END_PX
            painter.drawLines([QLineF(x, up, x, down) for x in chain(*seen)])
        if item.figure:
            _paint_figure(painter, item.figure, max(seen, key=_width), y, taken)


def _meets(piece: tuple[Run, float, float], run: Run, low: float, high: float) -> bool:
    near = piece[1] <= high + _SAME_MM and low <= piece[2] + _SAME_MM
    return piece[0].stroke == run.stroke and near


def _bar_pen(kind: StretchKind, colours: Colours) -> QPen:
    pen = QPen(colours.colour("accent" if kind is StretchKind.CHECKED else "alert"), 1.5)
    if kind is StretchKind.UNCOVERED:
        pen.setWidthF(3.0)
        pen.setCapStyle(Qt.PenCapStyle.FlatCap)
        pen.setDashPattern([1.2, 1.0])
    return pen


def _paint_figure(
    painter: QPainter,
    figure: str,
    piece: tuple[float, float],
    y: float,
    taken: list[tuple[float, float]],
) -> None:
    """The figure under its bar, unless it would run into another one."""
    width = painter.fontMetrics().horizontalAdvance(figure) + 8.0
    left = (piece[0] + piece[1] - width) / 2
    if not any(left < high and low < left + width for low, high in taken):
        taken.append((left, left + width))
        box = QRectF(left, y + 2, width, 13)
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter, figure)


def _width(piece: tuple[float, float]) -> float:
    return piece[1] - piece[0]
