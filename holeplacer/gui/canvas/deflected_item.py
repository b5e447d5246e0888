"""The deflected shape: every stroke's axis as it would be seen from below left, exaggerated."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QPainter, QPainterPath, QPen, QPolygonF
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from holeplacer.gui.canvas.paths import polygon
from holeplacer.gui.canvas.stroke_bands import StrokeBands, changed_branches
from holeplacer.gui.theme import Colours

if TYPE_CHECKING:
    from numpy.typing import NDArray

TOWARDS = (0.8, -0.6)
"""Where off the wall, towards the eye, is drawn: right and down, a unit vector."""

_NOTHING = QPainterPath()
_SEEN_PX = 0.3


class DeflectedItem(QGraphicsItem):
    """A line beside each axis, off the wall drawn to the right and down."""

    def __init__(self) -> None:
        super().__init__()
        self._bands: StrokeBands | None = None
        self._places: NDArray[np.float64] = np.empty((0, 2))
        self._lines: list[tuple[QRectF, QPolygonF]] = []
        self._bounds = QRectF()
        self._pen = QPen()
        self.setAcceptedMouseButtons(Qt.MouseButton.NoButton)
        self.setFlag(QGraphicsItem.GraphicsItemFlag.ItemUsesExtendedStyleOption)
        self.setVisible(False)

    def wear_colours(self, colours: Colours) -> None:
        """Draw with another colour set."""
        self._pen = QPen(colours.colour("accent"), 1.5)
        self._pen.setCosmetic(True)
        self.update()

    def show_shape(
        self, bands: StrokeBands | None, moved: NDArray[np.float64], factor: float,
        px_per_mm: float,
    ) -> None:  # fmt: skip
        """Draw another shape.

        Args:
            bands: The strokes; None shows nothing.
            moved: Deflection of every point, off the wall positive, mm.
            factor: It is drawn so many times as large.
            px_per_mm: Scale of the view: what moves less than a pixel's part is left as it is.
        """
        self.setVisible(bands is not None)
        if bands is None:
            return
        places = bands.xy + np.outer(factor * moved, TOWARDS)
        if bands is not self._bands or len(places) != len(self._places):
            self._bands, self._places = bands, places
            self._lines = [self._line(branch) for branch in range(bands.branches)]
            self._bound()
            self.update()
            return
        far = np.abs(places - self._places).max(axis=1) > _SEEN_PX / max(px_per_mm, 1e-9)
        for branch in changed_branches(bands, far):
            part = slice(int(bands.first[branch]), int(bands.first[branch + 1]))
            self._places[part] = places[part]
            self.update(self._lines[branch][0])
            self._lines[branch] = self._line(branch)
            if not self._bounds.contains(self._lines[branch][0]):
                self._bound()
            self.update(self._lines[branch][0])

    def boundingRect(self) -> QRectF:
        return self._bounds

    def shape(self) -> QPainterPath:
        return _NOTHING

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        del widget
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(self._pen)
        exposed = option.exposedRect
        for box, line in self._lines:
            if exposed.intersects(box):
                painter.drawPolyline(line)

    def _line(self, branch: int) -> tuple[QRectF, QPolygonF]:
        if self._bands is None:
            return QRectF(), QPolygonF()
        low, high = int(self._bands.first[branch]), int(self._bands.first[branch + 1])
        line = polygon(self._places[low:high])
        # Room for the width of the pen, in millimetres at any zoom but the furthest.
        room = 4.0
        return line.boundingRect().adjusted(-room, -room, room, room), line

    def _bound(self) -> None:
        self.prepareGeometryChange()
        for box, _line in self._lines:
            self._bounds |= box
