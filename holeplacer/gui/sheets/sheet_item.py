"""One sheet: its edge, what of it may be cut, and what it is called."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QFont, QPainter, QPen
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from holeplacer.gui.canvas.label_item import LabelItem
from holeplacer.gui.canvas.plate import Line
from holeplacer.gui.theme import Colours

_ABOVE_PX = 8.0


class SheetItem(QGraphicsItem):
    """A sheet with its lower left corner at the item's place.

    Attributes:
        size_mm: Width and height.
        label: Its name and figures, above its upper left corner.
    """

    def __init__(self, size_mm: tuple[float, float], colours: Colours, font: QFont) -> None:
        super().__init__()
        self.size_mm = size_mm
        self._usable = QRectF()
        self._colours = colours
        self.label = LabelItem(colours, font)
        self.setAcceptedMouseButtons(Qt.MouseButton.NoButton)

    def show_usable(self, margin_mm: float, width_mm: float, height_mm: float) -> None:
        """Mark off what may be cut of it."""
        self._usable = QRectF(margin_mm, margin_mm, width_mm, height_mm)
        self.update()

    def say(self, lines: tuple[Line, ...]) -> None:
        """Its name and figures."""
        self.label.say(lines)
        self.label.setPos(self.x(), self.y() + self.size_mm[1])
        self.label.offset_by(QPointF(0, -self.label.size_px.height() - _ABOVE_PX))

    def wear_colours(self, colours: Colours) -> None:
        """Paint with another colour set."""
        self._colours = colours
        self.label.wear_colours(colours)
        self.update()

    @property
    def area(self) -> QRectF:
        """The sheet, in the scene."""
        return QRectF(self.x(), self.y(), *self.size_mm)

    def boundingRect(self) -> QRectF:
        width, height = self.size_mm
        margin = 0.01 * max(width, height)
        return QRectF(0, 0, width, height).adjusted(-margin, -margin, margin, margin)

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        del option, widget
        pen = QPen(self._colours.colour("border"), 1.5)
        pen.setCosmetic(True)
        painter.setPen(pen)
        painter.setBrush(self._colours.colour("base"))
        painter.drawRect(QRectF(0, 0, *self.size_mm))
        dashed = QPen(self._colours.colour("limit"), 1)
        dashed.setCosmetic(True)
        dashed.setDashPattern([4, 3])
        painter.setPen(dashed)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRect(self._usable)
