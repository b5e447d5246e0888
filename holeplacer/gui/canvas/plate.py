"""A plate of figures: columns of name, figure and limit, for canvas and ribbon alike."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, QSizeF, Qt
from PySide6.QtGui import QFont, QFontMetricsF, QPainter

from holeplacer.gui.theme import Colours

_PAD_PX = 5.0
_GAP_PX = 8.0
_MARK_PX = 14.0
_MARK = "✕"


@dataclass(frozen=True)
class Line:
    """One line of a plate.

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


class Plate:
    """Lines with their measures; painted at any place."""

    def __init__(self, lines: tuple[Line, ...], font: QFont) -> None:
        self.lines = lines
        self._font = font
        self._metrics = QFontMetricsF(font)
        self._what = self._widest([line.what for line in lines])
        self._figure = self._widest([line.figure for line in lines])
        self._limit = self._widest([line.limit for line in lines])
        self._mark = _MARK_PX if any(line.broken for line in lines) else 0.0
        width = self._mark + self._what
        width += sum(column + _GAP_PX for column in (self._figure, self._limit) if column)
        height = self._metrics.height() * len(lines)
        self.size = QSizeF(width + 2 * _PAD_PX, height + 2 * _PAD_PX)

    def paint(self, painter: QPainter, corner: QPointF, colours: Colours) -> None:
        """Paint with the upper left corner here."""
        backing = colours.colour("base")
        backing.setAlphaF(0.94)
        # Square and not antialiased: round corners of this size take a millisecond each frame.
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
        box = QRectF(corner, self.size).toRect()
        painter.fillRect(box, backing)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(colours.colour("line"))
        painter.drawRect(box.adjusted(0, 0, -1, -1))
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setFont(self._font)
        base = corner.y() + _PAD_PX + self._metrics.ascent()
        for line in self.lines:
            self._paint_line(painter, line, QPointF(corner.x() + _PAD_PX, base), colours)
            base += self._metrics.height()

    def _paint_line(self, painter: QPainter, line: Line, at: QPointF, colours: Colours) -> None:
        ink = colours.colour("alert" if line.broken else "text")
        left = at.x() + self._mark
        painter.setPen(ink)
        if line.broken:
            painter.drawText(at, _MARK)
        right = left + self._what + _GAP_PX + self._figure
        painter.drawText(
            QPointF(right - self._metrics.horizontalAdvance(line.figure), at.y()), line.figure
        )
        painter.setPen(ink if not line.figure else colours.colour("text"))
        painter.drawText(QPointF(left, at.y()), line.what)
        painter.setPen(colours.colour("quiet_text"))
        painter.drawText(QPointF(right + _GAP_PX, at.y()), line.limit)

    def _widest(self, texts: list[str]) -> float:
        return max((self._metrics.horizontalAdvance(text) for text in texts), default=0.0)
