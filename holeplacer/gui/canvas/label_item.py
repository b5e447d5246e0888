"""A plate of figures on the canvas, upright and readable at any zoom."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSizeF, Qt
from PySide6.QtGui import QFont, QPainter
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from holeplacer.gui.canvas.plate import Line, Plate
from holeplacer.gui.theme import Colours


class LabelItem(QGraphicsItem):
    """A plate beside a place of the sign."""

    def __init__(self, colours: Colours, font: QFont) -> None:
        super().__init__()
        self._colours = colours
        self._font = font
        self._plate = Plate((), font)
        self._offset = QPointF(14, 14)
        self.setFlag(QGraphicsItem.GraphicsItemFlag.ItemIgnoresTransformations)
        self.setAcceptedMouseButtons(Qt.MouseButton.NoButton)
        self.setVisible(False)

    @property
    def lines(self) -> tuple[Line, ...]:
        """What it says."""
        return self._plate.lines

    @property
    def size_px(self) -> QSizeF:
        """Size of the plate."""
        return self._plate.size

    @property
    def offset_px(self) -> QPointF:
        """The plate's upper left corner, from its place."""
        return self._offset

    def wear_colours(self, colours: Colours) -> None:
        """Paint with another colour set."""
        self._colours = colours
        self.update()

    def say(self, lines: tuple[Line, ...]) -> None:
        """Say something else; nothing hides it."""
        self.setVisible(bool(lines))
        if lines != self._plate.lines:
            self.prepareGeometryChange()
            self._plate = Plate(lines, self._font)
            self.update()

    def offset_by(self, offset: QPointF) -> None:
        """Put the plate's upper left corner so many pixels from its place."""
        if offset != self._offset:
            self.prepareGeometryChange()
            self._offset = offset
            self.update()

    def boundingRect(self) -> QRectF:
        return QRectF(self._offset, self._plate.size).adjusted(-1, -1, 1, 1)

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        del option, widget
        self._plate.paint(painter, self._offset, self._colours)
