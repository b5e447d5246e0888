"""A stretch of stroke that breaks a rule, drawn on the stroke itself with its figure."""

from __future__ import annotations

import numpy as np
from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QFont, QPainter, QPainterPath, QPen
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from holeplacer.geometry.curve import Points
from holeplacer.gui.canvas import paths
from holeplacer.gui.canvas.coarse_axis import CoarseAxis
from holeplacer.gui.canvas.label_item import LabelItem
from holeplacer.gui.canvas.plate import Line
from holeplacer.gui.canvas.stretches import Stretch, StretchKind
from holeplacer.gui.theme import Colours

_WIDE_PX = 4.0
_THIN_PX = 1.5
_BAR_PX = 6.0
_REACH_PX = 8.0
_LABEL_GAP_PX = 10.0


class StretchItem(QGraphicsItem):
    """Dashes for metal that no hole holds, a barred line for a span that is too long.

    Attributes:
        stretch: What it shows.
        label: Its figure, an item of its own so that it lies above the holes.
    """

    def __init__(self, colours: Colours, font: QFont) -> None:
        super().__init__()
        self.stretch: Stretch | None = None
        self._axis: CoarseAxis | None = None
        self._said = False
        self._colours = colours
        self._px_per_mm = 1.0
        self._path = QPainterPath()
        self._ends: list[tuple[QPointF, QPointF]] = []
        self.label = LabelItem(colours, font)
        self.setAcceptedMouseButtons(Qt.MouseButton.NoButton)

    def wear_colours(self, colours: Colours) -> None:
        """Paint with another colour set."""
        if colours is not self._colours:
            self._colours = colours
            self.label.wear_colours(colours)
            self.update()

    def set_scale(self, px_per_mm: float) -> None:
        """The view shows so many pixels a millimetre from now on."""
        if px_per_mm != self._px_per_mm:
            self.prepareGeometryChange()
            self._px_per_mm = px_per_mm
            self._rebuild()

    def show_stretch(self, stretch: Stretch | None, axis: CoarseAxis | None = None) -> None:
        """Show another one of an axis, or none."""
        if stretch is None:
            if self.stretch is not None:
                self.stretch = None
                self.setVisible(False)
                self.label.say(())
            return
        self.setVisible(True)
        self.prepareGeometryChange()
        self.stretch, self._axis = stretch, axis
        self._rebuild()
        self._said = False
        self.label.setVisible(False)
        self.update()

    def show_label(self, shown: bool) -> None:
        """Show the figure, if there is one and the stretch itself is seen."""
        shown = shown and self._speaks()
        if shown != self.label.isVisible():
            self.label.setVisible(shown)

    def label_px(self) -> QRectF:
        """Where the figure is, in pixels from the sign's origin; empty without one."""
        if not self._speaks():
            return QRectF()
        at = QPointF(self.label.x() * self._px_per_mm, -self.label.y() * self._px_per_mm)
        return QRectF(at + self.label.offset_px, self.label.size_px)

    def _speaks(self) -> bool:
        """Put the figure on the label, once it is asked for: a drag never asks."""
        stretch = self.stretch
        if stretch is None or not stretch.figure:
            return False
        if not self._said:
            self._said = True
            broken = stretch.kind is not StretchKind.CHECKED
            self.label.setPos(*stretch.figure_at)
            self.label.say((Line(stretch.figure, broken=broken),))
            size = self.label.size_px
            self.label.offset_by(QPointF(-size.width() / 2, -size.height() - _LABEL_GAP_PX))
        return True

    def boundingRect(self) -> QRectF:
        reach = _REACH_PX / self._px_per_mm
        return self._path.boundingRect().adjusted(-reach, -reach, reach, reach)

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        del option, widget
        if self.stretch is None:
            return
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(self._pen(self.stretch.kind))
        painter.drawPath(self._path)
        if self.stretch.kind is not StretchKind.UNCOVERED:
            self._paint_bars(painter)

    def _pen(self, kind: StretchKind) -> QPen:
        checked = kind is StretchKind.CHECKED
        pen = QPen(self._colours.colour("accent" if checked else "alert"))
        pen.setWidthF(_WIDE_PX if kind is StretchKind.UNCOVERED else _THIN_PX)
        pen.setCosmetic(True)
        pen.setCapStyle(Qt.PenCapStyle.FlatCap)
        if kind is StretchKind.UNCOVERED:
            pen.setDashPattern([1.2, 1.0])
        return pen

    def _paint_bars(self, painter: QPainter) -> None:
        half = _BAR_PX / self._px_per_mm
        for end, across in self._ends:
            reach = QPointF(half * across.x(), half * across.y())
            painter.drawLine(end - reach, end + reach)

    def _rebuild(self) -> None:
        """Thin lines for the scale: a wide pen costs by the joint."""
        if self.stretch is None or self._axis is None:
            return
        lines = [self._axis.line(part, self._px_per_mm) for part in self.stretch.parts]
        self._path = paths.painter_path(lines)
        self._ends = []
        if lines:
            first, last = lines[0], lines[-1]
            for at, beside in ((first[0], first[1]), (last[-1], last[-2])):
                self._ends.append((QPointF(*at), _across(at - beside)))


def _across(step: Points) -> QPointF:
    length = float(np.hypot(*step)) or 1.0
    return QPointF(-step[1] / length, step[0] / length)
