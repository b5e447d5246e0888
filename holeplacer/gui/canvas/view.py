"""The canvas: shows the session's sign and turns pointer and keys into gestures and steps."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from PySide6.QtCore import QPoint, QRectF, Qt, Signal
from PySide6.QtGui import QContextMenuEvent, QFocusEvent, QKeyEvent, QMouseEvent
from PySide6.QtWidgets import QWidget

from holeplacer.gui.canvas.drag import BandSelection, Gesture, HoleDrag, Pan, Places, Pointer
from holeplacer.gui.canvas.hole_commands import HoleCommands
from holeplacer.gui.canvas.measure import Measure
from holeplacer.gui.canvas.number_editor import NumberEditor
from holeplacer.gui.canvas.overlay import Overlay
from holeplacer.gui.canvas.scene import SignScene
from holeplacer.gui.canvas.snapping import Snap, SnapKind, axis_foot, snap
from holeplacer.gui.canvas.things import Things
from holeplacer.gui.canvas.zoom_view import ZoomView
from holeplacer.gui.session import Session
from holeplacer.gui.theme import Theme

if TYPE_CHECKING:
    from PySide6.QtCore import QEvent

Point = tuple[float, float]

_GRAB_PX = 9.0
_SNAP_PX = 10.0
_HOLE_ROOM_MM = 120.0
_CLOSE_PX_PER_MM = 6.0
_ARROWS = {
    Qt.Key.Key_Left: (-1, 0),
    Qt.Key.Key_Right: (1, 0),
    Qt.Key.Key_Up: (0, 1),
    Qt.Key.Key_Down: (0, -1),
}


class CanvasView(ZoomView):
    """The sign, to be looked at and worked on.

    Attributes:
        pointer_moved: The pointer is over this place, mm; for the status bar.
        pointer_left: It left the canvas.
        hole_hovered: Number of the hole under the pointer, 0 for none.
        measuring_changed: The measure tool was taken up or put down.
        menu_wanted: A context menu is asked for here, global pixels; what is under the pointer
            is selected by then.
        things: What else than holes can be taken hold of.
    """

    pointer_moved = Signal(float, float)
    pointer_left = Signal()
    hole_hovered = Signal(int)
    measuring_changed = Signal(bool)
    menu_wanted = Signal(QPoint)

    def __init__(self, session: Session, theme: Theme, parent: QWidget | None = None) -> None:
        self._sign = SignScene(session, theme)
        super().__init__(self._sign, theme, parent)
        self._sign.setParent(self)
        self._session = session
        self.commands = HoleCommands(session, self)
        self.things: Things | None = None
        self._gesture: Gesture | None = None
        self._measuring = False
        self._space = False
        self._last: Pointer | None = None
        self._held_elsewhere: int | None = None
        self._editor = NumberEditor(session, self.viewport())
        self.setMouseTracking(True)
        self.viewport().setMouseTracking(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName("Canvas")
        self.setAccessibleDescription(
            "The sign with its holes; the same holes and findings are in the tables beside it"
        )
        self._listen()
        self._sign.set_scale(self.px_per_mm)
        self._refresh()

    def _listen(self) -> None:
        session = self._session
        self.scale_changed.connect(self._rescaled)
        session.layout_changed.connect(self._layout_changed)
        Overlay.of(session).changed.connect(self._refresh)
        session.unit_changed.connect(self._unit_changed)
        session.opened.connect(self._opened)
        session.place_shown.connect(self.bring_into_view)
        session.pick_changed.connect(self._pick_changed)
        self._layout_changed()
        self._unit_changed()

    # --- what it shows ---

    @property
    def sign(self) -> SignScene:
        """The scene."""
        return self._sign

    @property
    def gesture(self) -> Gesture | None:
        """What the held pointer does just now."""
        return self._gesture

    @property
    def measuring(self) -> bool:
        """Whether the measure tool is in hand."""
        return self._measuring

    def set_measuring(self, measuring: bool) -> None:
        """Take up or put down the measure tool."""
        if measuring != self._measuring:
            self._measuring = measuring
            if not measuring:
                self._show_measured(None, None)
                self._sign.show_place(None)
            self._show_cursor()
            self.measuring_changed.emit(measuring)

    def set_axis_shown(self, shown: bool) -> None:
        """Keep the axis in sight, or show it only while a hole slides along it."""
        self._sign.axis.set_always(shown)

    def fit_selection(self) -> None:
        """Zoom to the selected holes or seams, or to all where none is selected."""
        plan, chosen = self._session.plan, self._session.selected_holes
        places = [(h.x_mm, h.y_mm) for h in (plan.holes if plan else ()) if h.number in chosen]
        seams = self._session.selected_seams
        places += [s.middle_mm for i, s in enumerate(plan.seams if plan else ()) if i in seams]
        if not places:
            self.fit()
            return
        xs, ys = zip(*places, strict=True)
        box = QRectF(min(xs), min(ys), max(xs) - min(xs), max(ys) - min(ys))
        room = _HOLE_ROOM_MM / 2
        self.fit_rect(box.adjusted(-room, -room, room, room), closest_px_per_mm=_CLOSE_PX_PER_MM)

    def hover_hole(self, number: int) -> None:
        """Mark a hole as the one meant, such as the one under the pointer on the ribbon."""
        self._sign.hover(number or None)

    def hold_hole(self, number: int) -> None:
        """Show what a hole costs that is dragged elsewhere, on the ribbon; 0 ends that."""
        if (number or None) != self._held_elsewhere:
            self._held_elsewhere = number or None
            self._refresh()

    def show_place(self, x_mm: float, y_mm: float) -> None:
        """Mark a place of the axis, such as the one under the ribbon's pointer."""
        self._sign.show_place((x_mm, y_mm))

    def hide_place(self) -> None:
        """Mark no place."""
        self._sign.show_place(None)

    def edit_number(self) -> None:
        """Type another number for the one selected hole, in place."""
        chosen = self._session.selected_holes
        if len(chosen) == 1:
            (number,) = chosen
            item = self._sign.holes[number]
            self.bring_into_view(item.x(), item.y())
            self._editor.edit(number, self.mapFromScene(item.pos()))

    def add_at_pointer(self) -> None:
        """Add a hole where the pointer is, or in the middle of the view."""
        inside = self._last is not None and self.viewport().rect().contains(self._last.px)
        at = self._last.px if inside and self._last else self.viewport().rect().center()
        place = self.to_sign(at)
        self.commands.add((place.x(), place.y()), free=False)

    # --- in step with the session ---

    def _layout_changed(self) -> None:
        self._sign.refresh_layout()
        layout = self._session.layout
        if layout is not None and layout.outline.pieces:
            left, bottom, right, top = layout.outline.bounds_mm
            self.show_bounds(QRectF(left, bottom, right - left, top - bottom))

    def _opened(self) -> None:
        """Another document: see all of it as soon as it is laid out."""
        self.fit()

    def _refresh(self) -> None:
        gesture = self._gesture
        dragged = gesture.number if isinstance(gesture, HoleDrag) and gesture.moving else None
        self._sign.refresh(dragged or self._held_elsewhere, self.in_sight)

    def _unit_changed(self) -> None:
        self.show_unit(self._session.unit)

    def _rescaled(self, px_per_mm: float) -> None:
        self._sign.set_scale(px_per_mm)
        self._pick_changed()

    def _pick_changed(self) -> None:
        pick = self._session.pick
        self._sign.show_points(() if pick is None else pick.points)
        self._sign.show_place(None)
        self._show_cursor()

    # --- pointer ---

    def mousePressEvent(self, event: QMouseEvent) -> None:
        at = self._pointer(event)
        if self._gesture is not None:
            event.accept()
            return
        panning = event.button() is Qt.MouseButton.MiddleButton or self._space
        if panning:
            self._gesture = Pan(self.pan, at)
        elif event.button() is Qt.MouseButton.LeftButton:
            self._gesture = self._left_gesture(at)
        self._show_cursor()
        event.accept()

    def _left_gesture(self, at: Pointer) -> Gesture | None:
        if self._session.pick is not None:
            self._session.give_point(*self._find(at.place).place)
            return None
        if self._measuring:
            return Measure(at, self._find, self._show_measured)
        number = self.hole_at(at.px)
        if number is None:
            other = None if self.things is None else self.things.gesture_at(at)
            return other or BandSelection(self._session, at, self._sign.show_band)
        return HoleDrag(self._session, number, self._carry, at)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        at = self._pointer(event)
        self._last = at
        self.pointer_moved.emit(*at.place)
        for ruler, where in zip(self.rulers, (at.px.x(), at.px.y()), strict=True):
            ruler.show_pointer(where)
        if self._gesture is not None:
            self._gesture.move(at)
        else:
            self._hover(at)
        event.accept()

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        gesture, self._gesture = self._gesture, None
        if gesture is not None:
            gesture.commit(self._pointer(event))
            self._refresh()
        self._show_cursor()
        event.accept()

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        at = self._pointer(event)
        busy = self._measuring or self._session.pick is not None or self._space
        if event.button() is Qt.MouseButton.LeftButton and not busy:
            if self.hole_at(at.px) is None and not (self.things and self.things.add_at(at)):
                self.commands.add(at.place, free=at.free)
            event.accept()
            return
        self.mousePressEvent(event)

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        if event.reason() is QContextMenuEvent.Reason.Mouse:
            number = self.hole_at(event.pos())
            if number is not None and number not in self._session.selected_holes:
                self._session.select_holes({number})
            place = self.to_sign(event.pos())
            self._last = Pointer((place.x(), place.y()), event.pos())
            if number is None and self.things is not None:
                self.things.select_at(self._last)
        self.menu_wanted.emit(event.globalPos())
        event.accept()

    def leaveEvent(self, event: QEvent) -> None:
        super().leaveEvent(event)
        self._last = None
        for ruler in self.rulers:
            ruler.show_pointer(None)
        self._hover_number(None)
        if self.things is not None:
            self.things.hover_at(None)
        self.pointer_left.emit()

    def hole_at(self, px: QPoint) -> int | None:
        """Number of the hole under a pixel, the nearest where several are."""
        best, found = math.inf, None
        for number, item in self._sign.holes.items():
            gap = self.mapFromScene(item.pos()) - px
            away = math.hypot(gap.x(), gap.y())
            if away <= max(item.halo_px, _GRAB_PX) and away < best:
                best, found = away, number
        return found

    def _pointer(self, event: QMouseEvent) -> Pointer:
        px = event.position().toPoint()
        place = self.to_sign(px)
        held = event.modifiers()
        shift = bool(held & Qt.KeyboardModifier.ShiftModifier)
        control = bool(held & Qt.KeyboardModifier.ControlModifier)
        return Pointer(
            (place.x(), place.y()),
            px,
            free=control or bool(held & Qt.KeyboardModifier.AltModifier),
            adds=control or shift,
            straight=shift,
        )

    def _hover(self, at: Pointer) -> None:
        pick = self._session.pick
        if not self._measuring and pick is None:
            number = self.hole_at(at.px)
            other = self.things is not None and self.things.hover_at(None if number else at)
            self._hover_number(number, other=other)
            return
        found = self._find(at.place)
        self._sign.show_place(None if found.kind is SnapKind.FREE else found.place)
        if pick is not None:
            self._sign.show_points((*pick.points, found.place) if pick.points else ())

    def _hover_number(self, number: int | None, *, other: bool = False) -> None:
        self._sign.hover(number)
        self.hole_hovered.emit(number or 0)
        self._show_cursor(over_hole=other or number is not None)

    def _carry(self, held: Places, start: Pointer, at: Pointer) -> Places:
        """Each hole by the pointer's way; then onto the axis, unless the pointer frees it."""
        layout = self._session.layout
        dx, dy = at.place[0] - start.place[0], at.place[1] - start.place[1]
        wanted = {number: (x + dx, y + dy) for number, (x, y) in held.items()}
        if at.free or layout is None:
            return wanted
        return {number: axis_foot(layout.axis, place) for number, place in wanted.items()}

    def _find(self, place: Point) -> Snap:
        layout, plan = self._session.layout, self._session.plan
        if layout is None or plan is None:
            return Snap(place, SnapKind.FREE)
        return snap(place, _SNAP_PX / self.px_per_mm, layout, plan.holes)

    def _show_measured(self, start: Snap | None, end: Snap | None) -> None:
        self._sign.measured.show_between(start, end, self._session.unit)

    def _show_cursor(self, *, over_hole: bool = False) -> None:
        shape = Qt.CursorShape.ArrowCursor
        if self._gesture is not None and self._gesture.cursor is not None:
            shape = self._gesture.cursor
        elif self._space:
            shape = Qt.CursorShape.OpenHandCursor
        elif self._measuring or self._session.pick is not None:
            shape = Qt.CursorShape.CrossCursor
        elif over_hole:
            shape = Qt.CursorShape.OpenHandCursor
        if self.viewport().cursor().shape() is not shape:
            self.viewport().setCursor(shape)

    # --- keys ---

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key = Qt.Key(event.key())
        if key in _ARROWS and self._session.selected_holes:
            fine = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
            self.commands.nudge(*_ARROWS[key], fine=fine)
        elif (
            key in _ARROWS
            and self.things is not None
            and self.things.nudge(
                *_ARROWS[key], fine=bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
            )
        ):
            pass
        elif key is Qt.Key.Key_Escape:
            self._escape()
        elif key is Qt.Key.Key_Space:
            self._space = True
            self._show_cursor()
        else:
            super().keyPressEvent(event)
            return
        event.accept()

    def keyReleaseEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Space and not event.isAutoRepeat():
            self._space = False
            self._show_cursor()
            return
        super().keyReleaseEvent(event)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        self._space = False
        super().focusOutEvent(event)

    def focusNextPrevChild(self, forward: bool) -> bool:
        """Tab steps through the seams or the holes, and leaves the canvas after the last."""
        by = 1 if forward else -1
        holes = bool(self._session.selected_holes)
        if not holes and self.things is not None and self.things.step(by):
            return True
        if not self._session.selected_seams and self.commands.step(by):
            return True
        return super().focusNextPrevChild(forward)

    def _escape(self) -> None:
        """Let go of the innermost thing in hand."""
        if self._gesture is not None:
            gesture, self._gesture = self._gesture, None
            gesture.cancel()
            self._refresh()
            self._show_cursor()
        elif self._session.pick is not None:
            self._session.drop_pick()
        elif self._sign.measured.distance_mm is not None:
            self._show_measured(None, None)
        elif self._measuring:
            self.set_measuring(False)
        else:
            self._session.select_holes(())
