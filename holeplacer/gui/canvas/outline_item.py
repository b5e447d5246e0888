"""The sheet on the canvas: a quiet fill and its cut edge, painted once and then only copied."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QBrush, QPainter, QPainterPath, QPen
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from holeplacer.gui.theme import Colours

if TYPE_CHECKING:
    from holeplacer.gui.canvas.paths import Detail
    from holeplacer.outline.outline import Outline

_NOTHING = QPainterPath()


class LinesItem(QGraphicsItem):
    """Fixed lines in sign coordinates, seen but never touched.

    The picture of it is kept at the screen's own pixels (device cache), so that what moves above
    costs a copy instead of a painting; an empty shape keeps Qt from stroking thousands of
    vertices at each move of the pointer. The pen is one pixel wide at every zoom: wider pens
    cost several times as much (joints are stroked one by one).

    Attributes:
        paints: How often it was really painted; a drag must not add to it.
    """

    def __init__(self) -> None:
        super().__init__()
        self.paints = 0
        self._detail: Detail | None = None
        self._bounds = QRectF()
        self._pen = QPen()
        self._brush = QBrush()
        self.setAcceptedMouseButtons(Qt.MouseButton.NoButton)
        self.setCacheMode(QGraphicsItem.CacheMode.DeviceCoordinateCache)

    def show_lines(self, detail: Detail | None, bounds: QRectF) -> None:
        """Draw other lines."""
        self.prepareGeometryChange()
        self._detail = detail
        margin = 0.01 * max(bounds.width(), bounds.height())
        self._bounds = bounds.adjusted(-margin, -margin, margin, margin)
        self.update()

    def wear(self, pen: QPen, brush: QBrush) -> None:
        """Draw with other colours."""
        pen.setCosmetic(True)
        self._pen, self._brush = pen, brush
        self.update()

    def boundingRect(self) -> QRectF:
        return self._bounds

    def shape(self) -> QPainterPath:
        return _NOTHING

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        del option, widget  # there is no widget behind a cached painting
        self.paints += 1
        if self._detail is None:
            return
        transform = painter.worldTransform()
        px_per_mm = abs(transform.m11()) * painter.device().devicePixelRatio()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(self._pen)
        painter.setBrush(self._brush)
        painter.drawPath(self._detail.path(px_per_mm))


class OutlineItem(LinesItem):
    """All pieces with their counters."""

    def show_outline(self, outline: Outline | None) -> None:
        """Draw another outline, or none."""
        if outline is None or not outline.pieces:
            self.show_lines(None, QRectF())
            return
        from holeplacer.gui.canvas.paths import Detail  # with the first outline, not the window

        left, bottom, right, top = outline.bounds_mm
        self.show_lines(
            Detail(outline.region.boundary), QRectF(left, bottom, right - left, top - bottom)
        )

    def wear_colours(self, colours: Colours) -> None:
        """Draw with another colour set."""
        self.wear(QPen(colours.colour("cut_edge"), 1), QBrush(colours.colour("metal")))
