"""One seam on the canvas: a line across its stroke, its name, its state by shape."""

from __future__ import annotations

import math
from dataclasses import replace

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QFont, QFontMetricsF, QPainter
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from holeplacer.gui.canvas import seam_symbol
from holeplacer.gui.canvas.seam_symbol import SeamMark
from holeplacer.gui.theme import Colours

_GAP_PX = 5.0
_PAD_PX = 3.0
_LEGIBLE_PX = 14.0
"""A stroke wider than this on the screen leaves room for the names of its seams."""


class SeamItem(QGraphicsItem):
    """Painted in screen pixels, its length taken from the view's scale."""

    def __init__(self, mark: SeamMark, colours: Colours, font: QFont) -> None:
        super().__init__()
        self.mark = mark
        self._colours, self._font = colours, font
        self._px_per_mm = 1.0
        self._hovered = self._named = False
        self.setFlag(QGraphicsItem.GraphicsItemFlag.ItemIgnoresTransformations)
        self.setAcceptedMouseButtons(Qt.MouseButton.NoButton)
        self.setCacheMode(QGraphicsItem.CacheMode.DeviceCoordinateCache)
        self._measure()
        self._place()

    def show_mark(self, mark: SeamMark) -> None:
        """Show another state; does nothing where it is the same."""
        if mark == self.mark:
            return
        moved_only = replace(mark, x_mm=self.mark.x_mm, y_mm=self.mark.y_mm) == self.mark
        self.mark = mark
        self._place()
        if not moved_only:
            self._renew()

    def set_scale(self, px_per_mm: float) -> None:
        """The view shows so many pixels a millimetre from now on."""
        if px_per_mm != self._px_per_mm:
            self._px_per_mm = px_per_mm
            self._renew()

    def set_hovered(self, hovered: bool) -> None:
        """The pointer is over it, or not."""
        if hovered != self._hovered:
            self._hovered = hovered
            self._renew()

    def set_named(self, named: bool) -> None:
        """Write its name and what is wrong with it beside it."""
        if named != self._named:
            self._named = named
            self._renew()

    def wear_colours(self, colours: Colours) -> None:
        """Paint with another colour set."""
        self._colours = colours
        self.update()

    @property
    def end_px(self) -> QPointF:
        """One end, from the middle; y downwards."""
        dx, dy = self.mark.across_mm
        return QPointF(dx * self._px_per_mm, -dy * self._px_per_mm)

    @property
    def words(self) -> str:
        """What is written beside it; empty while nothing is."""
        end = self.end_px
        legible = 2 * math.hypot(end.x(), end.y()) >= _LEGIBLE_PX or bool(self.mark.trouble)
        if not ((self._named and legible) or self._hovered or self.mark.selected):
            return ""
        return f"{self.mark.words}  ▲ {self.mark.trouble}" if self.mark.trouble else self.mark.words

    def away_px(self, gap: QPointF) -> float:
        """Distance of a pixel, given from the middle, to the line."""
        end = self.end_px
        square = end.x() ** 2 + end.y() ** 2 or 1.0
        share = min(max((gap.x() * end.x() + gap.y() * end.y()) / square, -1.0), 1.0)
        return math.hypot(gap.x() - share * end.x(), gap.y() - share * end.y())

    def boundingRect(self) -> QRectF:
        return self._bounds

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        del option, widget
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        seam_symbol.paint_line(painter, self.mark, self.end_px, self._colours, lit=self._hovered)
        if self.words:
            self._paint_words(painter)

    def _paint_words(self, painter: QPainter) -> None:
        painter.setFont(self._font)
        chosen, colours = self.mark.selected, self._colours
        ground = colours.colour("accent" if chosen else "ground")
        if not chosen:
            ground.setAlphaF(0.82)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(ground)
        painter.drawRect(self._words_box)
        painter.setPen(
            colours.colour("on_accent") if chosen else seam_symbol.ink(self.mark, colours)
        )
        painter.drawText(self._words_box, Qt.AlignmentFlag.AlignCenter, self.words)

    def _place(self) -> None:
        self.setPos(self.mark.x_mm, self.mark.y_mm)
        self.setZValue(2 if self.mark.selected else 1.5)

    def _renew(self) -> None:
        self.prepareGeometryChange()
        self._measure()
        self.update()

    def _measure(self) -> None:
        """Words stand beyond the end that is further up, beside it where the seam lies level."""
        end = self.end_px
        up = -end if end.y() > 0 else end
        length = math.hypot(up.x(), up.y()) or 1.0
        past = up * ((length + seam_symbol.PAST_PX + _GAP_PX) / length)
        if self.mark.fixed:
            past = past + up * (seam_symbol.PIN_PX / length)
        metrics = QFontMetricsF(self._font)
        width, height = metrics.horizontalAdvance(self.words) + 2 * _PAD_PX, metrics.height()
        left = past.x() - width / 2 + math.copysign(width / 2, up.x()) * abs(up.x()) / length
        top = past.y() - height / 2 - height / 2 * abs(up.y()) / length
        self._words_box = QRectF(left, top, width, height)
        reach = seam_symbol.reach_px(length)
        bounds = QRectF(-reach, -reach, 2 * reach, 2 * reach)
        if self.words:
            bounds = bounds.united(self._words_box)
        self._bounds = bounds.adjusted(-1, -1, 1, 1)
