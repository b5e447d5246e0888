"""The stroke ribbon: look along all strokes at once; a tick drags like its hole."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from PySide6.QtCore import QLineF, QPoint, QPointF, QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QContextMenuEvent, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget

from holeplacer.gui.canvas.drag import Gesture, HoleDrag, Pan, Places, Pointer
from holeplacer.gui.canvas.hole_commands import HoleCommands
from holeplacer.gui.canvas.overlay import Overlay
from holeplacer.gui.canvas.plate import Line, Plate
from holeplacer.gui.canvas.seam_drag import SeamDrag
from holeplacer.gui.ribbon.strip import StripView
from holeplacer.gui.session import Session
from holeplacer.gui.theme import Theme

if TYPE_CHECKING:
    from PySide6.QtCore import QEvent

    from holeplacer.gui.canvas.stretches import Stretch
    from holeplacer.gui.ribbon.other_ticks import OtherTicks
    from holeplacer.gui.ribbon.sliding import Sliding
    from holeplacer.gui.ribbon.ticks import Bar, Tick
    from holeplacer.gui.ribbon.trace import Trace

_MARGIN_PX = 40.0
_BESIDE_PX = 12.0
_TICK_PX = 24


class RibbonView(StripView):
    """All strokes side by side, their clear width, holes and spans.

    Attributes:
        place_hovered: The pointer is over this place of the axis, mm.
        pointer_left: It is over none any more.
        hole_hovered: Number of the hole whose tick is under the pointer, 0 for none.
        hole_held: Number of the hole that is being dragged here, 0 when it is let go.
        menu_wanted: A context menu is asked for here, global pixels.
        seams: The seams on it.
    """

    place_hovered = Signal(float, float)
    pointer_left = Signal()
    hole_hovered = Signal(int)
    hole_held = Signal(int)
    menu_wanted = Signal(QPoint)

    def __init__(self, session: Session, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(theme, parent)
        self._session = session
        self._overlay = Overlay.of(session)
        self.commands = HoleCommands(session, self)
        self._more: tuple[Trace, ...] = ()
        self._needed_mm: float | None = None
        self._ticks: tuple[Tick, ...] = ()
        self._bars: dict[Stretch, Bar] = {}
        self.seams: OtherTicks | None = None
        self._gesture: Gesture | None = None
        self._hovered = 0
        self._pointer_px: QPoint | None = None
        self._plate: tuple[Plate, QPointF] | None = None
        self._told = QRect()
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.viewport().setMouseTracking(True)
        self.setAccessibleName("Stroke ribbon")
        self.setAccessibleDescription(
            "All strokes side by side with clear width, holes and spans; the same holes and "
            "findings are in the tables"
        )
        session.layout_changed.connect(self._layout_changed)
        session.unit_changed.connect(self._unit_changed)
        session.place_shown.connect(self.bring_into_view)
        self._overlay.changed.connect(self._refresh)
        session.selection_changed.connect(self._follow_selection)
        self._layout_changed()
        self._unit_changed()
        self._refresh()

    # --- what it shows ---

    @property
    def ticks(self) -> tuple[Tick, ...]:
        """The holes as they stand on the ribbon."""
        return self._ticks

    @property
    def gesture(self) -> Gesture | None:
        """What the held pointer does just now."""
        return self._gesture

    @property
    def sliding(self) -> Sliding | None:
        """From pixels to places on the axis; None before there is an axis."""
        if self.ribbon is None or self.scale is None:
            return None
        from holeplacer.gui.ribbon.sliding import Sliding  # with the first axis, not the window

        return Sliding(self.ribbon, self.scale)

    def show_more(self, more: tuple[Trace, ...]) -> None:
        """Draw further traces, each in a lane of its own under the clear width.

        Live ones that differ in their figures alone are painted again only where they do.
        """
        from holeplacer.gui.ribbon.trace import alike

        before, self._more = self._more, more
        if not alike(before, more) or len(self._lanes) != len(more) + 1:
            self._renew_traces()
            return
        if self.ribbon is None or self.scale is None or not more:
            return
        from holeplacer.gui.ribbon.live_lane import differing

        fresh = tuple(
            replace(lane, trace=trace) for lane, trace in zip(self._lanes[1:], more, strict=True)
        )
        for old, new in zip(self._lanes[1:], fresh, strict=True):
            for rect in differing(self.ribbon, self.scale, old, new):
                self.viewport().update(rect)
        self._lanes = (self._lanes[0], *fresh)

    def hover_hole(self, number: int) -> None:
        """Mark a tick as the one meant, such as that of the hole under the canvas's pointer."""
        if number != self._hovered:
            for tick in self._ticks:
                if tick.mark.number in (number, self._hovered):
                    self.viewport().update(self._tick_rect(tick))
            self._hovered = number

    def bring_into_view(self, x_mm: float, y_mm: float) -> None:
        """Scroll so far that the axis beside a place is in sight."""
        sliding = self.sliding
        if sliding is None or not sliding.ribbon.runs:
            return
        x, width = sliding.x_px((x_mm, y_mm)), sliding.scale.width_px
        if not _MARGIN_PX <= x <= width - _MARGIN_PX:
            self.pan(QPoint(round(width / 2 - x), 0))

    # --- in step with the session ---

    def _layout_changed(self) -> None:
        layout = self._session.layout
        if layout is None:
            self._ticks, self._bars = (), {}
            self.show_ribbon(None)
            return
        from holeplacer.gui.ribbon.unrolled import unrolled

        self._ticks, self._bars = (), {}
        self.show_ribbon(unrolled(layout.axis))
        self._renew_traces()

    def _renew_traces(self) -> None:
        plan = self._session.plan
        if self.ribbon is None or plan is None:
            return
        from holeplacer.gui.ribbon.trace import clear_width
        from holeplacer.rules import edge_distance

        self._needed_mm = 2 * edge_distance.limit(plan)
        self.show_traces((clear_width(self.ribbon.axis, self._needed_mm), *self._more))

    def _refresh(self) -> None:
        plan, layout, ribbon = self._session.plan, self._session.layout, self.ribbon
        if plan is None or layout is None or ribbon is None:
            return
        from holeplacer.gui.ribbon.ticks import bar, differing, ticks
        from holeplacer.rules import edge_distance, spacing

        if 2 * edge_distance.limit(plan) != self._needed_mm:
            self._renew_traces()
        feet = spacing.spans(plan, layout.outline, layout.axis).feet
        old_ticks, old_bars = self._ticks, self._bars
        same = {tick.mark.number: tick for tick in old_ticks}
        self._ticks = ticks(ribbon, self._overlay.marks, feet, same)
        self._bars = {s: old_bars.get(s) or bar(ribbon, s) for s in self._overlay.stretches}
        for tick in differing(old_ticks, self._ticks):
            self.viewport().update(self._tick_rect(tick))
        either = old_bars | self._bars
        for stretch in old_bars.keys() ^ self._bars.keys():
            self._update_bar(either[stretch])

    def _tick_rect(self, tick: Tick) -> QRect:
        x = 0 if self.scale is None else round(self.scale.x_px(tick.run, tick.x_mm))
        return QRect(x - _TICK_PX, 0, 2 * _TICK_PX, self.viewport().height())

    def _update_bar(self, bar: Bar) -> None:
        if self.scale is not None and self._lanes:
            top = round(self._lanes[-1].base_px)
            for rect in bar.rects(self.scale, top, self.viewport().height() - top):
                self.viewport().update(rect)

    def _follow_selection(self) -> None:
        """Scroll to the hole that was selected elsewhere."""
        chosen = [tick.mark for tick in self._ticks if tick.mark.selected]
        if self._gesture is None and len(chosen) == 1:
            self.bring_into_view(chosen[0].x_mm, chosen[0].y_mm)

    def _unit_changed(self) -> None:
        self.show_unit(self._session.unit)

    # --- painting ---

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self.viewport())
        exposed = event.region()
        if self.paint_still(painter) and self.ribbon is not None and self.scale is not None:
            from holeplacer.gui.ribbon.ticks import paint_bars, paint_numbers, paint_ticks

            colours, base = self._theme.colours, self._lanes[-1].base_px
            self._paint_live(painter, exposed.boundingRect())
            paint_bars(painter, self._bars.values(), self.scale, base, colours)
            self._paint_pointer(painter)
            seen = self._in_sight()
            near = [tick for tick, rect in seen if exposed.intersects(rect)]
            ordered = sorted(near, key=lambda tick: tick.mark.selected)
            paint_ticks(painter, ordered, self.scale, base, colours, hovered=self._hovered)
            paint_numbers(
                painter, (tick for tick, _rect in seen), self.scale, colours,
                hovered=self._hovered, exposed=exposed,
            )  # fmt: skip
            if self.seams is not None:
                self.seams.paint(painter, base, colours, exposed.boundingRect())
            if self._plate is not None:
                plate, corner = self._plate
                plate.paint(painter, corner, colours)
        painter.end()

    def _paint_live(self, painter: QPainter, exposed: QRect) -> None:
        live = [lane for lane in self._lanes if lane.trace.live]
        if live and self.ribbon is not None and self.scale is not None:
            from holeplacer.gui.ribbon.live_lane import paint_lane  # with the first of them

            for lane in live:
                paint_lane(painter, self.ribbon, self.scale, lane, self._theme.colours, exposed)

    def _in_sight(self) -> list[tuple[Tick, QRect]]:
        """Ticks within the view, each with all it may cover."""
        whole, scale = self.viewport().rect(), self.scale
        if scale is None:
            return []
        size = QSize(2 * _TICK_PX, whole.height())
        places = ((tick, round(scale.x_px(tick.run, tick.x_mm)) - _TICK_PX) for tick in self._ticks)
        inside = ((tick, x) for tick, x in places if -size.width() < x <= whole.right())
        return [(tick, QRect(QPoint(x, 0), size)) for tick, x in inside]

    def _paint_pointer(self, painter: QPainter) -> None:
        if self._pointer_px is not None and self._gesture is None and not self._hovered:
            painter.setPen(QPen(self._theme.colours.colour("accent"), 1))
            x = self._pointer_px.x() + 0.5
            painter.drawLine(QLineF(x, self._lanes[0].top_px, x, self._lanes[-1].base_px))

    def _tell(self) -> None:
        """Put what is under the pointer in figures beside it; repaint no more than that."""
        self.viewport().update(self._told)
        at, port, lines = self._pointer_px, self.viewport().rect(), self._words()
        self._told, self._plate = QRect(), None
        if at is None:
            return
        self._told = QRect(at.x() - 1, 0, 3, port.height())
        if lines:
            plate = Plate(lines, self.viewport().font())
            x = at.x() + _BESIDE_PX
            if x + plate.size.width() > port.width():
                x = at.x() - _BESIDE_PX - plate.size.width()
            most = port.height() - plate.size.height() - 2.0
            y = min(max(at.y() - plate.size.height() / 2, 2.0), most)
            self._plate = plate, QPointF(x, y)
            self._told = self._told.united(QRectF(QPointF(x, y), plate.size).toAlignedRect())
        self.viewport().update(self._told)

    def _words(self) -> tuple[Line, ...]:
        session, gesture = self._session, self._gesture
        if isinstance(gesture, SeamDrag):
            return () if self.seams is None else self.seams.lines(gesture)
        if isinstance(gesture, HoleDrag):
            if session.layout is None or session.evaluation is None or not gesture.moving:
                return ()
            from holeplacer.gui.canvas.figures import live_figures

            figures = live_figures(session.layout, session.evaluation, gesture.number, session.unit)
            return () if figures is None else figures.lines
        sliding, px = self.sliding, self._pointer_px
        found = None if sliding is None or px is None else sliding.run_at(px.x())
        if found is None or sliding is None:
            return ()
        axis = sliding.ribbon.axis
        return tuple(lane.trace.line(axis, *found, session.unit) for lane in self._lanes)

    # --- pointer ---

    def tick_at(self, px: QPoint) -> Tick | None:
        """The tick under a pixel, the nearest where several are."""
        sliding = self.sliding
        return None if sliding is None else sliding.tick_at(self._ticks, px.x())

    def mousePressEvent(self, event: QMouseEvent) -> None:
        at, left = _pointer(event), event.button() is Qt.MouseButton.LeftButton
        tick = self.tick_at(at.px)
        if self._gesture is None and left and tick is not None:
            self._gesture = HoleDrag(self._session, tick.mark.number, self._carry, at)
        elif self._gesture is None and left and self.seams and self.seams.tick_at(at.px):
            self._gesture = self.seams.gesture_at(at)
        elif self._gesture is None and (left or event.button() is Qt.MouseButton.MiddleButton):
            if left and not at.adds:
                self._session.select_holes(())
            self._gesture = Pan(self.pan, at)
        self._show_cursor(over_tick=tick is not None)
        event.accept()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        at = _pointer(event)
        self._pointer_px = at.px
        if self._gesture is None:
            self._hover(at)
        else:
            self._gesture.move(at)
            if isinstance(self._gesture, HoleDrag) and self._gesture.moving:
                self.hole_held.emit(self._gesture.number)
            elif isinstance(self._gesture, SeamDrag) and self._gesture.moving and self.seams:
                self.seams.held_changed.emit(self._gesture.index)
        self._tell()
        event.accept()

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        gesture = self._gesture
        if gesture is not None:
            gesture.commit(_pointer(event))
            self._let_go()
        event.accept()

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        at, sliding = _pointer(event), self.sliding
        found = None if sliding is None else sliding.run_at(at.px.x())
        on_axis = found is not None and self.tick_at(at.px) is None
        if event.button() is not Qt.MouseButton.LeftButton or not on_axis:
            event.accept()
        elif not (self.seams and self.seams.add_at(at.px)) and sliding and found:
            self.commands.add(sliding.place(*found), free=True)
        event.accept()

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        tick = self.tick_at(event.pos())
        if tick is not None and tick.mark.number not in self._session.selected_holes:
            self._session.select_holes({tick.mark.number})
        elif tick is None and self.seams is not None:
            self.seams.select_at(event.pos())
        self.menu_wanted.emit(event.globalPos())
        event.accept()

    def leaveEvent(self, event: QEvent) -> None:
        super().leaveEvent(event)
        self._pointer_px = None
        self.hover_hole(0)
        self.hole_hovered.emit(0)
        if self.seams is not None:
            self.seams.hover_at(None)
        self.pointer_left.emit()
        self._tell()

    def _hover(self, at: Pointer) -> None:
        tick = self.tick_at(at.px)
        number = tick.mark.number if tick is not None else 0
        self.hover_hole(number)
        self.hole_hovered.emit(number)
        sliding = self.sliding
        found = None if sliding is None else sliding.run_at(at.px.x())
        if sliding is not None and found is not None:
            self.place_hovered.emit(*sliding.place(*found))
        else:
            self.pointer_left.emit()
        seam = self.seams is not None and self.seams.hover_at(None if number else at.px)
        self._show_cursor(over_tick=seam or tick is not None)

    def _carry(self, held: Places, start: Pointer, at: Pointer) -> Places:
        sliding, gesture = self.sliding, self._gesture
        if sliding is None or not isinstance(gesture, HoleDrag):
            return held
        return sliding.carried(held, gesture.number, float(at.px.x() - start.px.x()))

    def _let_go(self) -> None:
        self._gesture = None
        self.hole_held.emit(0)
        if self.seams is not None:
            self.seams.held_changed.emit(-1)
        self._show_cursor(over_tick=False)
        self._tell()

    def _show_cursor(self, *, over_tick: bool) -> None:
        shape = Qt.CursorShape.ArrowCursor
        if self._gesture is not None and self._gesture.cursor is not None:
            shape = self._gesture.cursor
        elif over_tick:
            shape = Qt.CursorShape.OpenHandCursor
        if self.viewport().cursor().shape() is not shape:
            self.viewport().setCursor(shape)

    # --- keys ---

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key = event.key()
        by = {Qt.Key.Key_Left: -1, Qt.Key.Key_Right: 1}.get(Qt.Key(key), 0)
        fine = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
        if by and self._session.selected_holes:
            self._slide(by, fine=fine)
        elif by and self.seams is not None and self.seams.slide(by, fine=fine):
            pass
        elif key == Qt.Key.Key_Escape and self._gesture is not None:
            self._gesture.cancel()
            self._let_go()
        elif key == Qt.Key.Key_Escape:
            self._session.select_holes(())
        else:
            super().keyPressEvent(event)
            return
        event.accept()

    def focusNextPrevChild(self, forward: bool) -> bool:
        """Tab steps through the holes, and leaves the ribbon after the last."""
        by = 1 if forward else -1
        if self.seams is not None and self.seams.step(by):
            return True
        if not self._session.selected_seams and self.commands.step(by):
            return True
        return super().focusNextPrevChild(forward)

    def _slide(self, by: int, *, fine: bool) -> None:
        """Slide the selected holes one step along their strokes."""
        sliding = self.sliding
        if sliding is None:
            return
        step = by * self.commands.step_mm(fine=fine)
        moved = {}
        for tick in self._ticks:
            if tick.mark.selected:
                x, y = sliding.slid(tick, step)
                moved[tick.mark.number] = (x - tick.mark.x_mm, y - tick.mark.y_mm)
        self.commands.move_by(moved)


def _pointer(event: QMouseEvent) -> Pointer:
    """The pointer on the ribbon; it has no place on the sign of its own."""
    adds = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier
    return Pointer((0.0, 0.0), event.position().toPoint(), adds=bool(event.modifiers() & adds))
