"""One hole on the canvas: the real hole and cap at true size, its number, its state by shape."""

from __future__ import annotations

import math
from dataclasses import replace

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from holeplacer.gui.canvas import hole_symbol
from holeplacer.gui.canvas.hole_symbol import HoleMark, polar
from holeplacer.gui.theme import Colours

LEAST_RING_PX = 4.5
"""Smallest ring a hole is marked with, however far one is zoomed out."""

_TEXT_GAP_PX = 4.0
_NUMBER_RAD = math.radians(40)
_FIGURE_FROM_RING_PX = 8.0


class HoleItem(QGraphicsItem):
    """Painted in screen pixels, upright, with true sizes taken from the view's scale.

    Its picture is kept, so that a hole that moves, or that something passes over, is only copied.
    """

    def __init__(self, mark: HoleMark, colours: Colours, font: QFont) -> None:
        super().__init__()
        self.mark = mark
        self._colours = colours
        self._px_per_mm = 1.0
        self._font = font
        self._hovered = False
        self._held = False
        self.setFlag(QGraphicsItem.GraphicsItemFlag.ItemIgnoresTransformations)
        self.setAcceptedMouseButtons(Qt.MouseButton.NoButton)
        self.setCacheMode(QGraphicsItem.CacheMode.DeviceCoordinateCache)
        self._measure()
        self._place()

    def show_mark(self, mark: HoleMark) -> None:
        """Show another state; does nothing where it is the same."""
        if mark is self.mark or mark == self.mark:
            return
        moved_only = replace(mark, x_mm=self.mark.x_mm, y_mm=self.mark.y_mm) == self.mark
        if not moved_only:
            self.prepareGeometryChange()
        self.mark = mark
        self._place()
        if not moved_only:
            self._measure()
            self.update()

    def set_scale(self, px_per_mm: float) -> None:
        """The view shows so many pixels a millimetre from now on."""
        if px_per_mm != self._px_per_mm:
            self.prepareGeometryChange()
            self._px_per_mm = px_per_mm
            self._measure()
            self.update()

    def set_hovered(self, hovered: bool) -> None:
        """The pointer is over it, or not."""
        if hovered != self._hovered:
            self.prepareGeometryChange()
            self._hovered = hovered
            self._measure()
            self.update()

    def set_held(self, held: bool) -> None:
        """It is in hand: its figures stand on a plate of their own then."""
        if held != self._held:
            self.prepareGeometryChange()
            self._held = held
            self._measure()
            self.update()

    def wear_colours(self, colours: Colours) -> None:
        """Paint with another colour set."""
        self._colours = colours
        self.update()

    @property
    def ring_px(self) -> float:
        """Radius of the ring that tells the state."""
        return max(self.mark.hole_mm / 2 * self._px_per_mm, LEAST_RING_PX)

    @property
    def halo_px(self) -> float:
        """Radius that encloses ring and cap."""
        return max(self.ring_px, self.mark.cap_mm / 2 * self._px_per_mm)

    @property
    def shows_figure(self) -> bool:
        """Whether the figure of what is short is legible here: near enough, or looked at."""
        legible = self.ring_px >= _FIGURE_FROM_RING_PX or self.mark.selected or self._hovered
        return bool(self.mark.figure) and legible and not self._held

    def boundingRect(self) -> QRectF:
        return self._bounds

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        del option, widget
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if self.mark.selected or self._hovered:
            firm = self.mark.selected
            hole_symbol.paint_halo(painter, self.halo_px, self._colours, firm=firm)
        self._paint_true_sizes(painter)
        hole_symbol.paint_state(painter, self.mark, self.ring_px, self._colours)
        self._paint_words(painter)

    # --- parts ---

    def _paint_true_sizes(self, painter: QPainter) -> None:
        painter.setPen(Qt.PenStyle.NoPen)
        radius = self.mark.hole_mm / 2 * self._px_per_mm
        cap = self.mark.cap_mm / 2 * self._px_per_mm
        if cap > radius:
            painter.setBrush(self._colours.colour("cap"))
            painter.drawEllipse(QPointF(), cap, cap)
        if self.ring_px > radius:
            # The ring is larger than the hole here: keep lines beneath from crossing it out.
            painter.setBrush(self._colours.colour("metal"))
            painter.drawEllipse(QPointF(), self.ring_px, self.ring_px)
        painter.setBrush(self._colours.colour("hole"))
        painter.drawEllipse(QPointF(), radius, radius)

    def _paint_words(self, painter: QPainter) -> None:
        painter.setFont(self._font)
        number, colours = str(self.mark.number), self._colours
        if self.mark.selected:
            accent, on_accent = colours.colour("accent"), colours.colour("on_accent")
            _paint_text(painter, number, self._number_box, accent, on_accent)
        else:
            ground = _translucent(colours.colour("ground"))
            _paint_text(
                painter, number, self._number_box, ground, hole_symbol.ink(self.mark, colours)
            )
        if self.shows_figure:
            ground = _translucent(colours.colour("ground"))
            alert = colours.colour("alert")
            _paint_text(painter, self.mark.figure, self._figure_box, ground, alert)

    @property
    def number_px(self) -> QRectF:
        """Where the number is written, in pixels from the hole."""
        return self._number_box

    # --- extent ---

    def _place(self) -> None:
        self.setPos(self.mark.x_mm, self.mark.y_mm)
        self.setZValue(1 if self.mark.selected else 0)

    def _measure(self) -> None:
        metrics = QFontMetricsF(self._font)
        corner = polar(self.halo_px + _TEXT_GAP_PX, _NUMBER_RAD)
        self._number_box = _box(metrics, str(self.mark.number)).translated(
            corner.x(), corner.y() - metrics.height()
        )
        tip = polar(self.ring_px + hole_symbol.WEDGE_PX + 2 * _TEXT_GAP_PX, self.mark.short_rad)
        figure = _box(metrics, self.mark.figure)
        left = tip.x() if tip.x() >= 0 else tip.x() - figure.width()
        self._figure_box = figure.translated(left, tip.y() - figure.height() / 2)
        if self._figure_box.intersects(self._number_box):
            self._figure_box.moveTop(self._number_box.bottom() + 2)
        around = max(
            self.halo_px + hole_symbol.HALO_GAP_PX + 4,
            self.ring_px + hole_symbol.PIN_PX + 5,
            self.ring_px + hole_symbol.WEDGE_PX + 3,
        )
        bounds = QRectF(-around, -around, 2 * around, 2 * around).united(self._number_box)
        if self.shows_figure:
            bounds = bounds.united(self._figure_box)
        self._bounds = bounds.adjusted(-1, -1, 1, 1)


def _paint_text(painter: QPainter, text: str, box: QRectF, ground: QColor, ink: QColor) -> None:
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(ground)
    painter.drawRoundedRect(box, 3, 3)
    painter.setPen(ink)
    painter.drawText(box, Qt.AlignmentFlag.AlignCenter, text)


def _translucent(colour: QColor) -> QColor:
    colour.setAlphaF(0.82)
    return colour


def _box(metrics: QFontMetricsF, text: str) -> QRectF:
    return QRectF(0, 0, metrics.horizontalAdvance(text) + 6, metrics.height())
