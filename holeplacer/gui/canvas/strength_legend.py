"""Strength legend: the scale with its figures, what arrows and lines mean, and the caution."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFontMetrics, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget

from holeplacer.documents import caution
from holeplacer.gui.canvas import colour_scale
from holeplacer.gui.canvas.reaction_item import paint_arrow
from holeplacer.gui.theme import Theme, with_even_figures

WIDTH_PX = 264
_PAD_PX = 8
_BAR_PX = 10
_GAP_PX = 6


@dataclass(frozen=True)
class LegendContent:
    """What there is to explain.

    Attributes:
        title: What is drawn, for which case.
        ticks: Figures along the scale, evenly, the first at its start; empty without a scale.
        unit: Their unit.
        longest: Force of the longest arrow, with unit; empty without arrows.
        factor: What the deflected shape is multiplied by; empty without it.
        in_plane: Arrows are forces in the sheet's plane.
    """

    title: str
    ticks: tuple[str, ...] = ()
    unit: str = ""
    longest: str = ""
    factor: str = ""
    in_plane: bool = False


class StrengthLegend(QWidget):
    """Stands in a corner over the canvas; clicks go through it."""

    def __init__(self, theme: Theme, parent: QWidget) -> None:
        super().__init__(parent)
        self._theme = theme
        self.content = LegendContent("")
        font = with_even_figures(self.font())
        font.setPixelSize(11)
        self.setFont(font)
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        theme.changed.connect(self.update)
        self.hide()

    def show_content(self, content: LegendContent) -> None:
        """Explain something else."""
        if content == self.content:
            return
        self.content = content
        said = (f"{content.title}; scale {', '.join(content.ticks)} {content.unit}", content.factor)
        self.setAccessibleName("Legend")
        self.setAccessibleDescription(". ".join(part for part in said if part))
        self.resize(self.sizeHint())
        self.update()

    def sizeHint(self) -> QSize:
        line = QFontMetrics(self.font()).height()
        content, height = self.content, _PAD_PX + line
        if content.ticks:
            height += _GAP_PX + _BAR_PX + 4 + line
        if content.longest:
            height += _GAP_PX + 2 * line
        if content.factor:
            height += _GAP_PX + line
        return QSize(WIDTH_PX, height + _GAP_PX + self._caution_height() + _PAD_PX)

    def paintEvent(self, event: QPaintEvent) -> None:
        del event
        painter = QPainter(self)
        colours, line = self._theme.colours, QFontMetrics(self.font()).height()
        painter.fillRect(self.rect(), colours.colour("base"))
        painter.setPen(colours.colour("line"))
        painter.drawRect(self.rect().adjusted(0, 0, -1, -1))
        painter.setPen(colours.colour("text"))
        top = _PAD_PX
        self._write(painter, top, self.content.title)
        top += line
        if self.content.ticks:
            top = self._paint_scale(painter, top + _GAP_PX, line)
        if self.content.longest:
            top = self._paint_arrows(painter, top + _GAP_PX, line)
        if self.content.factor:
            top += _GAP_PX
            self._paint_shape(painter, top, line)
            top += line
        painter.setPen(colours.colour("quiet_text"))
        box = QRect(_PAD_PX, top + _GAP_PX, WIDTH_PX - 2 * _PAD_PX, self._caution_height())
        painter.drawText(box, Qt.TextFlag.TextWordWrap, caution.SHORT)
        painter.end()

    def _paint_scale(self, painter: QPainter, top: int, line: int) -> int:
        names = colour_scale.colours(dark=self._theme.dark)
        metrics, last = QFontMetrics(self.font()), self.content.ticks[-1]
        beside = metrics.horizontalAdvance(last) // 2 + _GAP_PX
        unit_room = metrics.horizontalAdvance(self.content.unit) + beside
        width = (WIDTH_PX - 2 * _PAD_PX - unit_room - 12) / len(names)
        left = _PAD_PX + 4.0
        for index, name in enumerate(names):
            painter.fillRect(QRectF(left + index * width, top, width + 0.5, _BAR_PX), QColor(name))
        colours, ticks = self._theme.colours, self.content.ticks
        whole = width * len(names)
        for index, tick in enumerate(ticks):
            x = left + whole * index / (len(ticks) - 1)
            painter.setPen(QPen(colours.colour("text"), 1))
            painter.drawLine(QPointF(x, top + _BAR_PX), QPointF(x, top + _BAR_PX + 3))
            box = QRectF(x - 30, top + _BAR_PX + 3, 60, line)
            painter.drawText(box, Qt.AlignmentFlag.AlignHCenter, tick)
        box = QRectF(left + whole + beside, top + _BAR_PX + 3, unit_room + 8, line)
        painter.drawText(box, Qt.AlignmentFlag.AlignLeft, self.content.unit)
        return top + _BAR_PX + 4 + line

    def _paint_arrows(self, painter: QPainter, top: int, line: int) -> int:
        colours = self._theme.colours
        foot = top + 2 * line - 2
        longest = f"longest {self.content.longest}"
        meanings: tuple[tuple[int, bool, str], ...] = (
            (0, False, f"pull on the stud\n{longest}"),
            (WIDTH_PX // 2, True, "push on the wall"),
        )
        if self.content.in_plane:
            meanings = ((0, False, f"what the sheet pushes the stud with\n{longest}"),)
        for left, push, words in meanings:
            paint_arrow(painter, QPointF(_PAD_PX + 8 + left, foot), 2.0 * line - 6, colours,
                        push=push)  # fmt: skip
            painter.setPen(colours.colour("text"))
            box = QRect(_PAD_PX + 20 + left, top, WIDTH_PX - left - 20, 2 * line)
            painter.drawText(box, Qt.AlignmentFlag.AlignLeft, words)
        return top + 2 * line

    def _paint_shape(self, painter: QPainter, top: int, line: int) -> None:
        colours, middle = self._theme.colours, top + line / 2
        painter.setPen(QPen(colours.colour("accent"), 1.5))
        painter.drawLine(QPointF(_PAD_PX, middle), QPointF(_PAD_PX + 16, middle))
        painter.setPen(colours.colour("text"))
        box = QRect(_PAD_PX + 20, top, WIDTH_PX, line)
        painter.drawText(box, Qt.AlignmentFlag.AlignLeft, self.content.factor)

    def _write(self, painter: QPainter, top: int, text: str) -> None:
        shown = QFontMetrics(self.font()).elidedText(
            text, Qt.TextElideMode.ElideRight, WIDTH_PX - 2 * _PAD_PX
        )
        box = QRect(_PAD_PX, top, WIDTH_PX - 2 * _PAD_PX, QFontMetrics(self.font()).height())
        painter.drawText(box, Qt.AlignmentFlag.AlignLeft, shown)

    def _caution_height(self) -> int:
        box = QRect(0, 0, WIDTH_PX - 2 * _PAD_PX, 1000)
        measured = QFontMetrics(self.font()).boundingRect(
            box, Qt.TextFlag.TextWordWrap, caution.SHORT
        )
        return measured.height()
