"""Everything seen on the canvas, kept in step with the session; only what changed is touched."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QFont, QPainterPath, QPen
from PySide6.QtWidgets import (
    QGraphicsEllipseItem,
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
from holeplacer.gui.canvas.overlay import Overlay
from holeplacer.gui.session import Session
from holeplacer.gui.theme import Theme, with_even_figures

if TYPE_CHECKING:
    from holeplacer.gui.canvas.coarse_axis import CoarseAxis
    from holeplacer.gui.canvas.hole_symbol import HoleMark
    from holeplacer.gui.canvas.live_item import LiveFigures
    from holeplacer.gui.canvas.stretch_item import StretchItem
    from holeplacer.gui.canvas.stretches import Stretch

Point = tuple[float, float]

_LABEL_Z = 10.0
_STRETCH_Z = -5.0
_POINT_PX = 6.0
_PLACE_PX = 5.0


class SignScene(QGraphicsScene):
    """Outline, axis, stretches, holes, and what gestures show.

    Attributes:
        outline, axis: The sign.
        holes: Items by hole number.
        stretches: Item of each stretch that is shown.
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
        self.stretches: dict[Stretch, StretchItem] = {}
        self._spare: list[StretchItem] = []
        self._coarse: CoarseAxis | None = None
        self.live = LiveItem(theme.colours, self._font)
        self.measured = MeasureItem(theme.colours, self._font)
        self._band = QGraphicsRectItem()
        self._points = QGraphicsPathItem()
        self._place = QGraphicsEllipseItem(-_PLACE_PX, -_PLACE_PX, 2 * _PLACE_PX, 2 * _PLACE_PX)
        self._place.setFlag(QGraphicsItem.GraphicsItemFlag.ItemIgnoresTransformations)
        self._overlay = Overlay.of(session)
        self._hovered: int | None = None
        self._held: int | None = None
        for z, item in enumerate((self.outline, self.axis, self.live)):
            self._put(item, z - 10)
        for item in (self._band, self._points, self._place, self.measured):
            self._put(item, 5)
        for item in (self.live.plate, self.live.edge, self.measured.label):
            self._put(item, _LABEL_Z)
        self._band.setVisible(False)
        self._place.setVisible(False)
        theme.changed.connect(self._wear)
        self._wear()

    # --- in step with the session ---

    def refresh_layout(self) -> None:
        """Another outline and axis."""
        layout = self._session.layout
        self.outline.show_outline(None if layout is None else layout.outline)
        self.axis.show_axis(None if layout is None else layout.axis)
        self._coarse = None
        if layout is not None:
            from holeplacer.gui.canvas.coarse_axis import CoarseAxis  # with the first axis

            self._coarse = CoarseAxis(layout.axis)

    def refresh(self, held: int | None, room: QRectF) -> None:
        """Other holes, states or stretches.

        Args:
            held: The hole in hand, whose cost is shown; None without one.
            room: What the view shows, mm; figures stay inside.
        """
        marks = self._overlay.marks
        gone = self.holes.keys() - {mark.number for mark in marks}
        for number in gone:
            self.removeItem(self.holes.pop(number))
        for mark in marks:
            if mark.number in self.holes:
                self.holes[mark.number].show_mark(mark)
            else:
                self._add_hole(mark)
        before, self._held = self._held, held if held in self.holes else None
        for either in {before, self._held}:
            if either in self.holes:
                self.holes[either].set_held(either == self._held)
        self.axis.set_helping(self._held is not None)
        figures, checked = self._cost(self._held)
        self.live.show_figures(figures, room)
        self._show_stretches((*self._overlay.stretches, *checked))

    def _cost(self, held: int | None) -> tuple[LiveFigures | None, tuple[Stretch, ...]]:
        session = self._session
        if held is None or session.layout is None or session.evaluation is None:
            return None, ()
        from holeplacer.gui.canvas.figures import live_figures  # with the first drag
        from holeplacer.gui.canvas.stretches import spans_of

        layout, evaluation, unit = session.layout, session.evaluation, session.unit
        return live_figures(layout, evaluation, held, unit), spans_of(layout, held, unit)

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

    def show_place(self, place: Point | None) -> None:
        """Mark a place by a small ring; None takes it away."""
        self._place.setVisible(place is not None)
        if place is not None:
            self._place.setPos(*place)

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
        for figures in (self.live, self.measured):
            figures.set_scale(px_per_mm)
        for stretch in self.stretches.values():
            stretch.set_scale(px_per_mm)
        for hole in self.holes.values():
            hole.set_scale(px_per_mm)
        self._declutter()

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
        """Keep the items of stretches that stay, give those of others that went to new ones."""
        kept = {stretch: self.stretches[stretch] for stretch in shown if stretch in self.stretches}
        spare = [item for stretch, item in self.stretches.items() if stretch not in kept]
        # Those that show nothing are at the front: one that is taken over is taken from the end.
        self._spare += spare
        self.stretches = {
            stretch: kept.get(stretch) or self._stretch_item(stretch) for stretch in shown
        }
        for item in self._spare:
            item.show_stretch(None)
        self._declutter()

    def _stretch_item(self, stretch: Stretch) -> StretchItem:
        if self._spare:
            item = self._spare.pop()
        else:
            from holeplacer.gui.canvas.stretch_item import StretchItem  # with the first of them

            item = StretchItem(self._theme.colours, self._font)
            self._put(item, _STRETCH_Z)
            self._put(item.label, _LABEL_Z)
        item.set_scale(self._px_per_mm)
        item.wear_colours(self._theme.colours)
        item.show_stretch(stretch, self._coarse)
        return item

    def _declutter(self) -> None:
        """Hide figures that would cover others, and all of them while a hole is in hand.

        The line on the stroke stays; zooming in brings its figure back.
        """
        taken: list[QRectF] = []
        for item in self.stretches.values():
            if self._held is not None:
                item.show_label(False)
                continue
            box = item.label_px()
            shown = not box.isEmpty() and not any(box.intersects(other) for other in taken)
            item.show_label(shown)
            if shown:
                taken.append(box)

    def _wear(self) -> None:
        colours = self._theme.colours
        for part in (self.outline, self.axis, self.live, self.measured):
            part.wear_colours(colours)
        for stretch in self.stretches.values():
            stretch.wear_colours(colours)
        for hole in self.holes.values():
            hole.wear_colours(colours)
        pen = QPen(colours.colour("accent"), 1)
        pen.setCosmetic(True)
        pen.setStyle(Qt.PenStyle.DashLine)
        self._band.setPen(pen)
        self._band.setBrush(colours.colour("reach"))
        solid = QPen(colours.colour("accent"), 1.5)
        solid.setCosmetic(True)
        self._points.setPen(solid)
        self._place.setPen(solid)
