"""A label on the canvas: a few upright lines of figures, readable at any zoom."""

from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, QSizeF, Qt
from PySide6.QtGui import QFont, QFontMetricsF, QPainter
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from holeplacer.gui.theme import Colours

_PAD_PX = 5.0
_GAP_PX = 8.0
_MARK_PX = 14.0


@dataclass(frozen=True)
class Line:
    """One line of a label.

    Attributes:
        what: What the figure is of.
        figure: The figure with its unit.
        limit: Its limit with its unit, empty without one.
        broken: The figure breaks the limit; told by a mark as well as by colour.
    """

    what: str
    figure: str = ""
    limit: str = ""
    broken: bool = False


class LabelItem(QGraphicsItem):
    """Columns of name, figure and limit on a plate."""

    def __init__(self, colours: Colours, font: QFont) -> None:
        super().__init__()
        self._colours = colours
        self._font = font
        self._lines: tuple[Line, ...] = ()
        self._offset = QPointF(14, 14)
        self._columns = (0.0, 0.0, 0.0)
        self._size = QSizeF()
        self._bounds = QRectF()
        self.setFlag(QGraphicsItem.GraphicsItemFlag.ItemIgnoresTransformations)
        self.setAcceptedMouseButtons(Qt.MouseButton.NoButton)
        self.setZValue(10)
        self.setVisible(False)

    @property
    def lines(self) -> tuple[Line, ...]:
        """What it says."""
        return self._lines

    def wear_colours(self, colours: Colours) -> None:
        """Paint with another colour set."""
        self._colours = colours
        self.update()

    def say(self, lines: tuple[Line, ...]) -> None:
        """Say something else; nothing hides it."""
        self.setVisible(bool(lines))
        if lines != self._lines:
            self._lines = lines
            metrics = QFontMetricsF(self._font)
            self._columns = tuple(  # type: ignore[assignment]  # three of them
                max((metrics.horizontalAdvance(text) for text in column), default=0.0)
                for column in zip(*((x.what, x.figure, x.limit) for x in lines), strict=True)
            ) or (0.0, 0.0, 0.0)
            self._measure()

    def offset_by(self, offset: QPointF) -> None:
        """Put the plate's upper left corner so many pixels from its place."""
        if offset != self._offset:
            self._offset = offset
            self._measure()

    @property
    def size_px(self) -> QSizeF:
        """Size of the plate."""
        return self._size

    def boundingRect(self) -> QRectF:
        return self._bounds

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        del option, widget
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        backing = self._colours.colour("base")
        backing.setAlphaF(0.94)
        painter.setBrush(backing)
        painter.setPen(self._colours.colour("line"))
        painter.drawRoundedRect(self._bounds.adjusted(1.5, 1.5, -1.5, -1.5), 4, 4)
        painter.setFont(self._font)
        metrics = QFontMetricsF(self._font)
        top = self._offset.y() + _PAD_PX
        for line in self._lines:
            self._paint_line(painter, line, top + metrics.ascent())
            top += metrics.height()

    def _paint_line(self, painter: QPainter, line: Line, base: float) -> None:
        what, figure, _ = self._columns
        left = self._offset.x() + _PAD_PX + (_MARK_PX if self._marked else 0)
        alert = self._colours.colour("alert")
        if line.broken:
            painter.setPen(alert)
            painter.drawText(QPointF(self._offset.x() + _PAD_PX, base), "✕")
        painter.setPen(alert if line.broken and not line.figure else self._colours.colour("text"))
        painter.drawText(QPointF(left, base), line.what)
        metrics = QFontMetricsF(self._font)
        painter.setPen(alert if line.broken else self._colours.colour("text"))
        right = left + what + _GAP_PX + figure - metrics.horizontalAdvance(line.figure)
        painter.drawText(QPointF(right, base), line.figure)
        painter.setPen(self._colours.colour("quiet_text"))
        painter.drawText(QPointF(left + what + figure + 2 * _GAP_PX, base), line.limit)

    @property
    def _marked(self) -> bool:
        return any(line.broken for line in self._lines)

    def _measure(self) -> None:
        self.prepareGeometryChange()
        metrics = QFontMetricsF(self._font)
        what, figure, limit = self._columns
        width = what + (figure + _GAP_PX if figure else 0) + (limit + _GAP_PX if limit else 0)
        width += _MARK_PX if self._marked else 0
        height = metrics.height() * len(self._lines)
        self._size = QSizeF(width + 2 * _PAD_PX, height + 2 * _PAD_PX)
        self._bounds = QRectF(self._offset, self._size).adjusted(-1, -1, 1, 1)
        self.update()
