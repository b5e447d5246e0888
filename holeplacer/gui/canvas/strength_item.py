"""Deflection or stress on the strokes themselves, by colour."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPainterPath, QPolygonF
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from holeplacer.gui.canvas import colour_scale
from holeplacer.gui.canvas.paths import polygon
from holeplacer.gui.canvas.stroke_bands import StrokeBands, changed_branches

if TYPE_CHECKING:
    from numpy.typing import NDArray

_NOTHING = QPainterPath()


class StrengthItem(QGraphicsItem):
    """All strokes in classes of colour; only branches whose classes change are painted again.

    Attributes:
        rebuilt: How many branches were outlined since it was made.
    """

    def __init__(self) -> None:
        super().__init__()
        self.rebuilt = 0
        self._bands: StrokeBands | None = None
        self._classes: NDArray[np.int8] = np.empty(0, np.int8)
        self._shapes: list[tuple[QRectF, list[tuple[int, QPolygonF]]]] = []
        self._bounds = QRectF()
        self._colours: tuple[QColor, ...] = ()
        self.setAcceptedMouseButtons(Qt.MouseButton.NoButton)
        self.setFlag(QGraphicsItem.GraphicsItemFlag.ItemUsesExtendedStyleOption)
        self.setVisible(False)

    def wear_scale(self, *, dark: bool) -> None:
        """Paint with the scale for a dark or a light ground."""
        self._colours = tuple(QColor(name) for name in colour_scale.colours(dark=dark))
        self.update()

    def show_figures(
        self, bands: StrokeBands | None, figures: NDArray[np.float64], top: float
    ) -> None:
        """Colour by other figures.

        Args:
            bands: The strokes; None shows nothing.
            figures: At every point of the bands.
            top: Upper end of the scale.
        """
        self.setVisible(bands is not None)
        if bands is None:
            return
        classes = bands.classes(figures, top, colour_scale.STEPS)
        if bands is not self._bands:
            self.prepareGeometryChange()
            self._bands = bands
            boxes = [QRectF(left, low, right - left, up - low) for left, low, right, up in
                     (bands.bounds(branch) for branch in range(bands.branches))]  # fmt: skip
            self._shapes = [(box.adjusted(-1, -1, 1, 1), []) for box in boxes]
            self._bounds = QRectF()
            for box, _runs in self._shapes:
                self._bounds |= box
            self._outline(range(bands.branches), classes)
            self.update()
            return
        other = changed_branches(bands, classes != self._classes)
        self._outline(other, classes)
        for branch in other:
            self.update(self._shapes[branch][0])

    def boundingRect(self) -> QRectF:
        return self._bounds

    def shape(self) -> QPainterPath:
        return _NOTHING

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        del widget
        exposed = option.exposedRect
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(Qt.PenStyle.NoPen)
        for box, runs in self._shapes:
            if exposed.intersects(box):
                for colour, corners in runs:
                    painter.setBrush(self._colours[colour])
                    painter.drawPolygon(corners, Qt.FillRule.WindingFill)

    def _outline(self, branches: range | list[int], classes: NDArray[np.int8]) -> None:
        self._classes = classes
        if self._bands is None:
            return
        for branch in branches:
            runs = self._bands.runs(branch, classes)
            box = self._shapes[branch][0]
            self._shapes[branch] = box, [(run.colour, polygon(run.corners)) for run in runs]
            self.rebuilt += 1
