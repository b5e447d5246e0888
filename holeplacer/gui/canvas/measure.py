"""Measure tool: a straight distance between two places that snap to hole, axis or cut edge."""

import math
from collections.abc import Callable

from PySide6.QtCore import QLineF, QPointF, QRectF, QSizeF, Qt
from PySide6.QtGui import QFont, QPainter, QPen
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from holeplacer.gui.canvas.drag import Gesture, Point, Pointer
from holeplacer.gui.canvas.label_item import LabelItem
from holeplacer.gui.canvas.plate import Line
from holeplacer.gui.canvas.snapping import Snap, SnapKind
from holeplacer.gui.theme import Colours
from holeplacer.units import LengthUnit, format_length

_TICK_PX = 6.0
_GAP_PX = 8.0


class MeasureItem(QGraphicsItem):
    """A line with square ends and its figures: distance, and both parts of it."""

    def __init__(self, colours: Colours, font: QFont) -> None:
        super().__init__()
        self._colours = colours
        self._ends: tuple[Snap, Snap] | None = None
        self._px_per_mm = 1.0
        self.label = LabelItem(colours, font)
        self.setAcceptedMouseButtons(Qt.MouseButton.NoButton)
        self.setZValue(9)

    @property
    def distance_mm(self) -> float | None:
        """What it measures, None while it shows nothing."""
        return None if self._ends is None else math.dist(*(end.place for end in self._ends))

    def wear_colours(self, colours: Colours) -> None:
        """Paint with another colour set."""
        self._colours = colours
        self.label.wear_colours(colours)
        self.update()

    def set_scale(self, px_per_mm: float) -> None:
        """The view shows so many pixels a millimetre from now on."""
        self.prepareGeometryChange()
        self._px_per_mm = px_per_mm

    def show_between(self, start: Snap | None, end: Snap | None, unit: LengthUnit) -> None:
        """Measure between two places; None there takes it away."""
        self.prepareGeometryChange()
        self._ends = None if start is None or end is None else (start, end)
        self.setVisible(self._ends is not None)
        if self._ends is None:
            self.label.say(())
            return
        (x1, y1), (x2, y2) = (one.place for one in self._ends)
        self.label.setPos((x1 + x2) / 2, (y1 + y2) / 2)
        ways = [one.kind.value for one in self._ends if one.kind is not SnapKind.FREE]
        self.label.say(
            (
                Line("distance", format_length(math.hypot(x2 - x1, y2 - y1), unit)),
                Line("across", format_length(abs(x2 - x1), unit)),
                Line("up", format_length(abs(y2 - y1), unit)),
                *((Line(" to ".join(ways)),) if len(ways) == 2 else ()),
            )
        )
        self.label.offset_by(_beside(x2 - x1, y2 - y1, self.label.size_px))
        self.update()

    def boundingRect(self) -> QRectF:
        if self._ends is None:
            return QRectF()
        start, end = (QPointF(*one.place) for one in self._ends)
        box = QRectF(start, end).normalized()
        margin = (_TICK_PX + 2) / self._px_per_mm
        return box.adjusted(-margin, -margin, margin, margin)

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        del option, widget
        if self._ends is None:
            return
        pen = QPen(self._colours.colour("accent"), 1.5)
        pen.setCosmetic(True)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(pen)
        line = QLineF(*(QPointF(*one.place) for one in self._ends))
        painter.drawLine(line)
        if line.length() == 0:
            return
        across = line.normalVector().unitVector()
        half = _TICK_PX / self._px_per_mm
        tick = QPointF(across.dx() * half, across.dy() * half)
        for end in (line.p1(), line.p2()):
            painter.drawLine(end - tick, end + tick)


def _beside(across_mm: float, up_mm: float, size: QSizeF) -> QPointF:
    """Corner of a plate whose middle is above the line's, clear of it."""
    length = math.hypot(across_mm, up_mm) or 1.0
    x, y = -up_mm / length, -across_mm / length  # across the line, in pixels, y down
    if y > 0:
        x, y = -x, -y
    away = abs(x) * size.width() / 2 + abs(y) * size.height() / 2 + _GAP_PX
    return QPointF(x * away - size.width() / 2, y * away - size.height() / 2)


class Measure(Gesture):
    """Draws the measured line from the press; with Shift it stays level or upright."""

    cursor = Qt.CursorShape.CrossCursor

    def __init__(
        self,
        start: Pointer,
        find: Callable[[Point], Snap],
        show: Callable[[Snap | None, Snap | None], None],
    ) -> None:
        self._find = find
        self._show = show
        self._start = find(start.place)
        self._show(None, None)

    def move(self, at: Pointer) -> None:
        self._show(self._start, self._end(at))

    def commit(self, at: Pointer) -> None:
        end = self._end(at)
        gone = math.dist(end.place, self._start.place) == 0
        self._show(None if gone else self._start, end)

    def cancel(self) -> None:
        self._show(None, None)

    def _end(self, at: Pointer) -> Snap:
        end = self._find(at.place)
        if not at.straight:
            return end
        (x, y), (x0, y0) = at.place, self._start.place
        level = abs(x - x0) >= abs(y - y0)
        return Snap((end.place[0], y0) if level else (x0, end.place[1]), SnapKind.FREE)
