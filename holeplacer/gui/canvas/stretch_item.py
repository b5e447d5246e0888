"""A stretch of stroke that breaks a rule, drawn on the stroke itself with its figure."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

import numpy as np
import shapely
from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QFont, QPainter, QPainterPath, QPen
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from holeplacer.geometry.curve import Points
from holeplacer.gui.canvas import paths
from holeplacer.gui.canvas.label_item import LabelItem, Line
from holeplacer.gui.theme import Colours

_WIDTH_PX = 4.0
_REACH_PX = 8.0


class StretchKind(Enum):
    """What is the matter with it; each has its own line."""

    UNCOVERED = "no hole near enough"
    LONG_SPAN = "span too long"
    CHECKED = "span of the hole in hand"


@dataclass(frozen=True, eq=False)
class Stretch:
    """Part of the axis and what is said of it.

    Attributes:
        kind: What is the matter.
        lines: Polylines, each (n, 2), mm.
        figure_at: Where the figure stands.
        figure: Value and limit, such as `342 of 300 mm`; may be empty.
    """

    kind: StretchKind
    lines: tuple[Points, ...]
    figure_at: tuple[float, float]
    figure: str

    def same_as(self, other: Stretch) -> bool:
        """Whether both look alike."""
        return (
            (self.kind, self.figure, self.figure_at) == (other.kind, other.figure, other.figure_at)
            and len(self.lines) == len(other.lines)
            and all(map(np.array_equal, self.lines, other.lines))
        )


class StretchItem(QGraphicsItem):
    """Dashes for metal that no hole holds, a barred line for a span that is too long.

    Attributes:
        stretch: What it shows.
        label: Its figure, an item of its own so that it lies above the holes.
    """

    def __init__(self, colours: Colours, font: QFont) -> None:
        super().__init__()
        self.stretch: Stretch | None = None
        self._colours = colours
        self._px_per_mm = 1.0
        self._path = QPainterPath()
        self._ends: list[tuple[QPointF, QPointF]] = []
        self.label = LabelItem(colours, font)
        self.label.offset_by(QPointF(10, -30))
        self.setAcceptedMouseButtons(Qt.MouseButton.NoButton)

    def wear_colours(self, colours: Colours) -> None:
        """Paint with another colour set."""
        self._colours = colours
        self.label.wear_colours(colours)
        self.update()

    def set_scale(self, px_per_mm: float) -> None:
        """The view shows so many pixels a millimetre from now on."""
        if px_per_mm != self._px_per_mm:
            self.prepareGeometryChange()
            self._px_per_mm = px_per_mm
            self._rebuild()

    def show_stretch(self, stretch: Stretch | None) -> None:
        """Show another one, or none; does nothing where it looks the same."""
        self.setVisible(stretch is not None)
        self.label.setVisible(stretch is not None and bool(stretch.figure))
        if stretch is None or (self.stretch is not None and stretch.same_as(self.stretch)):
            return
        self.prepareGeometryChange()
        self.stretch = stretch
        self._rebuild()
        self.label.setPos(*stretch.figure_at)
        broken = stretch.kind is not StretchKind.CHECKED
        lines = (Line(stretch.figure, broken=broken),) if stretch.figure else ()
        self.label.say(lines)
        self.update()

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
        pen.setWidthF(2.0 if checked else _WIDTH_PX if kind is StretchKind.UNCOVERED else 2.5)
        pen.setCosmetic(True)
        pen.setCapStyle(Qt.PenCapStyle.FlatCap)
        if kind is StretchKind.UNCOVERED:
            pen.setDashPattern([1.2, 1.2])
        return pen

    def _paint_bars(self, painter: QPainter) -> None:
        pen = painter.pen()
        painter.setPen(pen)
        half = 5.0 / self._px_per_mm
        for end, across in self._ends:
            painter.drawLine(end - half * across, end + half * across)

    def _rebuild(self) -> None:
        """Thin the lines for the scale: a wide pen costs by the joint."""
        if self.stretch is None:
            return
        tolerance = paths.COARSE_PX / self._px_per_mm
        thinned = [
            np.asarray(shapely.simplify(shapely.linestrings(line), tolerance).coords)
            for line in self.stretch.lines
            if len(line) >= 2
        ]
        self._path = paths.painter_path(thinned)
        self._ends = [
            (QPointF(*line[at]), _across(line[at] - line[beside]))
            for line in thinned
            for at, beside in ((0, 1), (-1, -2))
        ]


def _across(step: Points) -> QPointF:
    length = float(np.hypot(*step)) or 1.0
    return QPointF(-step[1] / length, step[0] / length)
