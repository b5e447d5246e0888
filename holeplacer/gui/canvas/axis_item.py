"""The medial axis on the canvas: a thin line, shown only while it helps."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QBrush, QPen

from holeplacer.gui.canvas.outline_item import LinesItem
from holeplacer.gui.theme import Colours

if TYPE_CHECKING:
    from holeplacer.medial_axis.axis import Axis


class AxisItem(LinesItem):
    """Every branch. Seen if the person wants it always, or while a hole slides along it."""

    def __init__(self) -> None:
        super().__init__()
        self._always = False
        self._helping = False
        self.setVisible(False)

    def show_axis(self, axis: Axis | None) -> None:
        """Draw another axis, or none."""
        if axis is None or not axis.branches:
            self.show_lines(None, QRectF())
            return
        from shapely.geometry import MultiLineString  # with the first axis, not with the window

        from holeplacer.gui.canvas import paths

        lines = MultiLineString([branch.xy for branch in axis.branches])
        left, bottom, right, top = lines.bounds
        self.show_lines(paths.Detail(lines), QRectF(left, bottom, right - left, top - bottom))

    def wear_colours(self, colours: Colours) -> None:
        """Draw with another colour set."""
        self.wear(QPen(colours.colour("axis"), 1), QBrush(Qt.BrushStyle.NoBrush))

    @property
    def always(self) -> bool:
        """Whether the person wants it seen always."""
        return self._always

    def set_always(self, always: bool) -> None:
        """Keep it in sight, or show it only while it helps."""
        self._always = always
        self.setVisible(self._always or self._helping)

    def set_helping(self, helping: bool) -> None:
        """Show it while a hole slides along it."""
        self._helping = helping
        self.setVisible(self._always or self._helping)
