"""A standoff's reaction as an arrow: out of the hole where it pulls, into it where it pushes.

A force in the sheet's plane is an arrow in its own direction.
"""

from __future__ import annotations

import math

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QFont, QFontMetricsF, QPainter, QPen, QPolygonF, QTransform
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from holeplacer.gui.theme import Colours

LONGEST_PX = 44.0
_SHORTEST_PX = 9.0
_FOOT_PX = 7.0
_HEAD_PX = 7.0
_HALF_PX = 4.0
_PAD_PX = 2.0


class ReactionItem(QGraphicsItem):
    """Pull: a filled head that points away. Push: an open head that points in, with a bar behind.

    Attributes:
        force_n: The reaction; negative where the sheet pushes on the wall.
        figure: What is written at the arrow.
    """

    def __init__(self, colours: Colours, font: QFont) -> None:
        super().__init__()
        self.force_n = 0.0
        self.figure = ""
        self._colours = colours
        self._font = QFont(font)
        self._font.setPixelSize(11)
        self._length = 0.0
        self._turned = 0.0
        self._numbered = True
        self._width = 0.0
        self._height = QFontMetricsF(self._font).height()
        self.setFlag(QGraphicsItem.GraphicsItemFlag.ItemIgnoresTransformations)
        self.setAcceptedMouseButtons(Qt.MouseButton.NoButton)

    def wear_colours(self, colours: Colours) -> None:
        """Draw with another colour set."""
        self._colours = colours
        self.update()

    def show_force(
        self, force_n: float, figure: str, top_n: float, *, turned_deg: float = 0.0
    ) -> None:
        """Show another force.

        Args:
            force_n: Positive pulls, negative pushes.
            figure: The force with its unit.
            top_n: The force whose arrow is as long as an arrow gets.
            turned_deg: Of a force in the sheet's plane, its direction, clockwise from upwards.
        """
        length = max(round(LONGEST_PX * abs(force_n) / top_n), _SHORTEST_PX)
        turned = float(round(turned_deg))
        drawn = (length, figure, force_n < 0, turned)
        same = drawn == (self._length, self.figure, self.force_n < 0, self._turned)
        self.force_n = force_n
        if same:
            return
        self.prepareGeometryChange()
        self._length, self.figure, self._turned = length, figure, turned
        self._width = QFontMetricsF(self._font).horizontalAdvance(figure) + 2 * _PAD_PX
        self.update()

    def show_number(self, shown: bool) -> None:
        """Write the figure, or leave it out where it would cover others."""
        if shown != self._numbered:
            self.prepareGeometryChange()
            self._numbered = shown
            self.update()

    @property
    def number_box(self) -> QRectF:
        """Where the figure is written, in pixels from the hole."""
        away = _FOOT_PX + self._length
        turned = math.radians(self._turned)
        across, up = math.sin(turned), math.cos(turned)
        middle = QPointF(across * (away + self._width / 2), -up * (away + self._height / 2))
        half = QPointF(self._width / 2, self._height / 2)
        return QRectF(middle - half, middle + half)

    def boundingRect(self) -> QRectF:
        top = _FOOT_PX + self._length
        arrow = QRectF(-_HALF_PX - 1, -top - 1, 2 * _HALF_PX + 2, self._length + 2)
        if self._turned:
            arrow = QTransform().rotate(self._turned).mapRect(arrow)
        return (arrow | self.number_box if self._numbered else arrow).adjusted(-1, -1, 1, 1)

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        del option, widget
        painter.rotate(self._turned)
        paint_arrow(painter, QPointF(0, -_FOOT_PX), self._length, self._colours,
                    push=self.force_n < 0)  # fmt: skip
        painter.rotate(-self._turned)
        if not self._numbered:
            return
        backing = self._colours.colour("ground")
        backing.setAlphaF(0.8)
        painter.fillRect(self.number_box, backing)
        painter.setFont(self._font)
        painter.setPen(self._colours.colour("text"))
        painter.drawText(self.number_box, Qt.AlignmentFlag.AlignCenter, self.figure)


def paint_arrow(
    painter: QPainter, foot: QPointF, length: float, colours: Colours, *, push: bool
) -> None:
    """Paint an arrow that stands on its foot; the painter's unit is the pixel."""
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    x, low, high = foot.x(), foot.y(), foot.y() - length
    ink = colours.colour("ring")
    head = min(_HEAD_PX, length)
    if push:
        painter.setPen(QPen(ink, 1.5))
        painter.setBrush(colours.colour("ground"))
        painter.drawLine(QLineF(x - _HALF_PX, high, x + _HALF_PX, high))
        painter.drawLine(QLineF(x, high, x, low - head))
        corners = ((x - _HALF_PX, low - head), (x + _HALF_PX, low - head), (x, low))
    else:
        painter.setPen(QPen(ink, 2.0))
        painter.drawLine(QLineF(x, low, x, high + head))
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(ink)
        corners = ((x - _HALF_PX, high + head), (x + _HALF_PX, high + head), (x, high))
    painter.drawPolygon(QPolygonF([QPointF(*corner) for corner in corners]))
