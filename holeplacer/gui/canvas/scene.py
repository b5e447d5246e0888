"""Everything seen on the canvas, kept in step with the session; only what changed is touched."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QFont, QPainterPath, QPen
from PySide6.QtWidgets import (
    QGraphicsItem,
    QGraphicsPathItem,
    QGraphicsRectItem,
    QGraphicsScene,
    QWidget,
)

from holeplacer.gui.canvas.axis_item import AxisItem
from holeplacer.gui.canvas.hole_item import HoleItem
from holeplacer.gui.canvas.live_item import LiveItem
from holeplacer.gui.canvas.measure import MeasureItem
from holeplacer.gui.canvas.outline_item import OutlineItem
from holeplacer.gui.session import Session
from holeplacer.gui.theme import Theme, with_even_figures

if TYPE_CHECKING:
    from holeplacer.gui.canvas.hole_symbol import HoleMark
    from holeplacer.gui.canvas.stretch_item import Stretch, StretchItem

Point = tuple[float, float]

_LABEL_Z = 10.0
_POINT_PX = 6.0


class SignScene(QGraphicsScene):
    """Outline, axis, stretches, holes, and what gestures show.

    Attributes:
        outline, axis: The sign.
        holes: Items by hole number.
        stretches: Items of stretches that break a rule; those beyond the last are hidden.
        live: Figures of the hole in hand.
        measured: The measured line.
    """

    def __init__(self, session: Session, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self._theme = theme
        self._px_per_mm = 1.0
        self._font = with_even_figures(QFont())
        self._font.setPixelSize(12)
        self.setItemIndexMethod(QGraphicsScene.ItemIndexMethod.NoIndex)
        self.outline = OutlineItem()
        self.axis = AxisItem()
        self.holes: dict[int, HoleItem] = {}
        self.stretches: list[StretchItem] = []
        self.live = LiveItem(theme.colours, self._font)
        self.measured = MeasureItem(theme.colours, self._font)
        self._band = QGraphicsRectItem()
        self._points = QGraphicsPathItem()
        self._hovered: int | None = None
        for z, item in enumerate((self.outline, self.axis, self.live)):
            self._put(item, z - 10)
        for item in (self._band, self._points, self.measured):
            self._put(item, 5)
        for item in (self.live.plate, self.live.edge, self.measured.label):
            self._put(item, _LABEL_Z)
        self._band.setVisible(False)
        theme.changed.connect(self._wear)
        self._wear()

    # --- in step with the session ---

    def refresh_layout(self) -> None:
        """Another outline and axis."""
        layout = self._session.layout
        self.outline.show_outline(None if layout is None else layout.outline)
        self.axis.show_axis(None if layout is None else layout.axis)

    def refresh_holes(self) -> None:
        """Other holes, figures or selection."""
        session = self._session
        marks: tuple[HoleMark, ...] = ()
        if session.plan is not None:
            from holeplacer.gui.canvas.marks import hole_marks  # with the first plan

            marks = hole_marks(
                session.plan, session.evaluation, session.selected_holes, session.unit
            )
        gone = self.holes.keys() - {mark.number for mark in marks}
        for number in gone:
            self.removeItem(self.holes.pop(number))
        for mark in marks:
            if mark.number in self.holes:
                self.holes[mark.number].show_mark(mark)
            else:
                self._add_hole(mark)

    def refresh_stretches(self) -> None:
        """Other stretches that break a rule."""
        session = self._session
        shown: tuple[Stretch, ...] = ()
        if session.layout is not None and session.evaluation is not None:
            from holeplacer.gui.canvas.stretches import broken_stretches

            shown = broken_stretches(session.layout, session.evaluation, session.unit)
        self._show_stretches(shown)

    def show_live(self, number: int | None, room: QRectF) -> None:
        """Show what a hole costs while it is in hand; None stops that."""
        session = self._session
        figures = None
        if number is not None and session.layout is not None and session.evaluation is not None:
            from holeplacer.gui.canvas.figures import live_figures

            figures = live_figures(session.layout, session.evaluation, number, session.unit)
        self.live.show_figures(figures, room)
        self.axis.set_helping(number is not None)

    # --- what gestures show ---

    def show_band(self, corner: Point | None, other: Point) -> None:
        """Draw the selecting rectangle; None takes it away."""
        self._band.setVisible(corner is not None)
        if corner is not None:
            self._band.setRect(QRectF(QPointF(*corner), QPointF(*other)).normalized())

    def show_points(self, points: tuple[Point, ...]) -> None:
        """Mark picked points by upright crosses, joined by a line."""
        half = _POINT_PX / self._px_per_mm
        path = QPainterPath()
        for x, y in points:
            for dx, dy in ((half, 0.0), (0.0, half)):
                path.moveTo(x - dx, y - dy)
                path.lineTo(x + dx, y + dy)
        if len(points) > 1:
            path.moveTo(*points[0])
            for point in points[1:]:
                path.lineTo(*point)
        self._points.setPath(path)

    def hover(self, number: int | None) -> None:
        """The pointer is over this hole, here or on the ribbon; None for no hole."""
        if number != self._hovered:
            for which, over in ((self._hovered, False), (number, True)):
                if which in self.holes:
                    self.holes[which].set_hovered(over)
            self._hovered = number

    def set_scale(self, px_per_mm: float) -> None:
        """The view shows so many pixels a millimetre from now on."""
        self._px_per_mm = px_per_mm
        for item in (self.live, self.measured, *self.stretches, *self.holes.values()):
            item.set_scale(px_per_mm)

    # --- parts ---

    def _put(self, item: QGraphicsItem, z: float) -> None:
        item.setZValue(z)
        self.addItem(item)

    def _add_hole(self, mark: HoleMark) -> None:
        item = HoleItem(mark, self._theme.colours, self._font)
        item.set_scale(self._px_per_mm)
        self.holes[mark.number] = item
        self.addItem(item)

    def _show_stretches(self, shown: tuple[Stretch, ...]) -> None:
        while len(self.stretches) < len(shown):
            from holeplacer.gui.canvas.stretch_item import StretchItem

            item = StretchItem(self._theme.colours, self._font)
            item.set_scale(self._px_per_mm)
            self.stretches.append(item)
            self._put(item, -5)
            self._put(item.label, _LABEL_Z)
        for i, item in enumerate(self.stretches):
            item.show_stretch(shown[i] if i < len(shown) else None)

    def _wear(self) -> None:
        colours = self._theme.colours
        for item in (self.outline, self.axis, self.live, self.measured):
            item.wear_colours(colours)
        for item in (*self.stretches, *self.holes.values()):
            item.wear_colours(colours)
        pen = QPen(colours.colour("accent"), 1)
        pen.setCosmetic(True)
        pen.setStyle(Qt.PenStyle.DashLine)
        self._band.setPen(pen)
        self._band.setBrush(colours.colour("reach"))
        solid = QPen(colours.colour("accent"), 1.5)
        solid.setCosmetic(True)
        self._points.setPen(solid)
