"""The sheets with their sections: looked at sheet by sheet, sections moved and turned by hand."""

from __future__ import annotations

import math
import time
from dataclasses import replace
from typing import TYPE_CHECKING

from PySide6.QtCore import QPoint, QRectF, Qt, Signal
from PySide6.QtGui import QFont, QKeyEvent, QMouseEvent
from PySide6.QtWidgets import QGraphicsScene, QWidget

from holeplacer.gui.canvas.drag import Gesture, Pan, Pointer
from holeplacer.gui.canvas.plate import Line
from holeplacer.gui.canvas.zoom_view import ZoomView
from holeplacer.gui.divider import Divider
from holeplacer.gui.sections_shown import SectionsShown
from holeplacer.gui.session import Session
from holeplacer.gui.theme import Theme, with_even_figures
from holeplacer.units import MM_PER_INCH, LengthUnit, format_length

if TYPE_CHECKING:
    from PySide6.QtCore import QEvent

    from holeplacer.cutting.division import Division
    from holeplacer.cutting.sheet_layout import SheetLayout
    from holeplacer.gui.sheets.laid_item import LaidItem
    from holeplacer.gui.sheets.sheet_item import SheetItem

_GAP_SHARE = 0.08
_GRIP_PX = 10.0
_LABEL_Z = 5.0
_STEP_MM = {LengthUnit.MM: (1.0, 0.1), LengthUnit.INCH: (MM_PER_INCH / 16, MM_PER_INCH / 64)}
_STEP_RAD = {"any": math.radians(15), "quarter": math.pi / 2}
_PAUSE_S = 1.2
_STALE = 0.45
"""How much is seen of sections while others are being laid."""

_ARROWS = {
    Qt.Key.Key_Left: (-1, 0),
    Qt.Key.Key_Right: (1, 0),
    Qt.Key.Key_Up: (0, 1),
    Qt.Key.Key_Down: (0, -1),
}


class SheetsView(ZoomView):
    """All sheets side by side, the first on the left.

    Attributes:
        pointer_moved: The pointer is over this place of a sheet, mm; for the status bar.
        pointer_left: It left them.
    """

    pointer_moved = Signal(float, float)
    pointer_left = Signal()

    def __init__(
        self, session: Session, divider: Divider, theme: Theme, parent: QWidget | None = None
    ) -> None:
        self._scene = QGraphicsScene()
        super().__init__(self._scene, theme, parent)
        self._scene.setParent(self)
        self._session, self._divider = session, divider
        self._shown = SectionsShown.of(session)
        self._font = with_even_figures(QFont())
        self._font.setPixelSize(12)
        self.sheets: list[SheetItem] = []
        self.sections: dict[int, LaidItem] = {}
        self._drawn: SheetLayout | None = None
        self._moved: SheetLayout | None = None
        self._gesture: Gesture | None = None
        self._chosen: int | None = None
        self._run: tuple[int, object, int, float] | None = None
        self.setMouseTracking(True)
        self.viewport().setMouseTracking(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName("Sheets")
        self.setAccessibleDescription(
            "The sheets with their sections; what lies where is listed in the form beside it"
        )
        divider.changed.connect(self.refresh)
        session.unit_changed.connect(self._unit_changed)
        session.opened.connect(self._forget)
        self._shown.changed.connect(self.refresh)
        self.scale_changed.connect(self._rescaled)
        theme.changed.connect(self._wear_items)
        self._unit_changed()

    # --- what it shows ---

    @property
    def chosen(self) -> int | None:
        """Number of the selected section."""
        return self._chosen

    def refresh(self) -> None:
        """Draw the sections as they lie now; the last ones while others are being laid."""
        found = self._divider.division or self._divider.last
        if not self._shown.on_sheets or self._gesture is not None:
            return
        if found is None or found.layout is None:
            self._clear()
            return
        if found.layout is not self._drawn:
            self._draw(found.layout)
        stale = found is not self._divider.division
        for item in self.sections.values():
            item.setOpacity(_STALE if stale else 1.0)
        self._remark(found.layout, found)

    def choose(self, number: int | None) -> None:
        """Select a section."""
        self._chosen = number if number in self.sections else None
        found = self._divider.division or self._divider.last
        if found is not None and found.layout is not None and self._drawn is not None:
            self._remark(self._drawn, found)

    def fit_sheet(self, by: int) -> None:
        """See the next or previous sheet alone."""
        if not self.sheets:
            return
        middle = self.in_sight.center().x()
        away = [abs(sheet.area.center().x() - middle) for sheet in self.sheets]
        at = away.index(min(away))
        whole = self.in_sight.width() > 1.5 * self.sheets[at].area.width()
        at = at if whole and by > 0 and len(self.sheets) > 1 else at + by
        area = self.sheets[min(max(at, 0), len(self.sheets) - 1)].area
        self.fit_rect(area.adjusted(0, 0, 0, 0.06 * area.height()))

    def _draw(self, layout: SheetLayout) -> None:
        """Other sheets and sections."""
        from holeplacer.gui.sheets.sheet_item import SheetItem  # with the first layout

        if not self._same_sheets(layout):
            first = not self.sheets
            self._clear()
            left = 0.0
            for used in layout.sheets:
                size = used.stock.width_mm, used.stock.height_mm
                item = SheetItem(size, self._theme.colours, self._font)
                item.setPos(left, 0.0)
                item.setZValue(-1)
                item.label.setZValue(_LABEL_Z)
                self._scene.addItem(item)
                self._scene.addItem(item.label)
                self.sheets.append(item)
                left += size[0] * (1 + _GAP_SHARE)
            high = max(used.stock.height_mm for used in layout.sheets)
            self.show_bounds(QRectF(0, 0, left - size[0] * _GAP_SHARE, high * 1.04))
            if first:
                self.fit()
        for number in list(self.sections):
            item_ = self.sections.pop(number)
            self._scene.removeItem(item_)
            self._scene.removeItem(item_.label)
        self._add_sections(layout)
        self._drawn = layout

    def _add_sections(self, layout: SheetLayout) -> None:
        from holeplacer.gui.canvas.section_tint import tints
        from holeplacer.gui.sheets.laid_item import LaidItem, LaidMark

        tint, plan = tints(layout.sections), self._session.plan
        rings = (
            {hole.number: (hole.x_mm, hole.y_mm, plan.diameter_of(hole)) for hole in plan.holes}
            if plan is not None
            else {}
        )
        for placed in layout.placed:
            section = layout.section(placed.section)
            holes = tuple(rings[number] for number in section.holes if number in rings)
            number = placed.section
            mark = LaidMark(number, 0.0, 0.0, placed.angle_rad, tint[number])
            item = LaidItem(section.polygon, holes, mark, self._theme.colours, self._font)
            item.grip = layout.choice.turning != "none"
            item.set_scale(self.px_per_mm)
            self._scene.addItem(item)
            self._scene.addItem(item.label)
            self.sections[number] = item

    def _same_sheets(self, layout: SheetLayout) -> bool:
        sizes = [(used.stock.width_mm, used.stock.height_mm) for used in layout.sheets]
        return bool(self.sheets) and sizes == [sheet.size_mm for sheet in self.sheets]

    def _remark(self, layout: SheetLayout, found: Division) -> None:
        """Places and states of all sections, figures of all sheets."""
        from holeplacer.cutting import hand_layout, kept_layout
        from holeplacer.gui.sheets.collision_words import collision_words

        plan, unit = self._session.plan, self._session.unit
        own = frozenset() if plan is None else kept_layout.by_hand(plan, layout)
        if self._moved is None:
            collisions = hand_layout.collisions(layout) if found.findings else ()
        else:
            collisions = hand_layout.collisions(layout, self._chosen)
        said: dict[int, list[str]] = {}
        for item in collisions:
            for number, words in collision_words(item, layout.choice.apart_mm, unit):
                said.setdefault(number, []).append(words)
        for placed in layout.placed:
            shape = self.sections[placed.section]
            centre = placed.of(layout.section(placed.section).polygon).centroid
            left = self.sheets[placed.sheet].x()
            shape.show_mark(
                replace(
                    shape.mark,
                    x_mm=left + centre.x,
                    y_mm=centre.y,
                    angle_rad=placed.angle_rad,
                    by_hand=placed.section in own,
                    selected=placed.section == self._chosen,
                    trouble=tuple(said.get(placed.section, ())),
                )
            )
        self._say_sheets(layout)

    def _say_sheets(self, layout: SheetLayout) -> None:
        unit = self._session.unit
        for number, (item, used) in enumerate(zip(self.sheets, layout.sheets, strict=True), 1):
            item.show_usable(layout.choice.margin_mm, used.usable_width_mm, used.usable_height_mm)
            width = format_length(used.stock.width_mm, unit).removesuffix(f" {unit.value}")
            size = f"{width} × {format_length(used.stock.height_mm, unit)}"
            item.say((Line(f"sheet {number}, {size}", f"{100 * used.scrap_share:.0f} % scrap"),))

    def _clear(self) -> None:
        self._scene.clear()
        self.sheets.clear()
        self.sections.clear()
        self._drawn = None
        self._chosen = None

    def _forget(self) -> None:
        self._gesture = self._moved = None
        self._clear()

    # --- pointer ---

    def section_at(self, px: QPoint) -> int | None:
        """The section under a pixel, the selected one first."""
        import shapely

        at = self.to_sign(px)
        point = shapely.Point(at.x(), at.y())
        numbers = sorted(self.sections, key=lambda number: number != self._chosen)
        return next((n for n in numbers if self.sections[n].lying.covers(point)), None)

    def _grip_at(self, px: QPoint) -> bool:
        item = self.sections.get(self._chosen) if self._chosen is not None else None
        if item is None or not item.grip:
            return False
        gap = self.mapFromScene(*item.grip_mm) - px
        return math.hypot(gap.x(), gap.y()) <= _GRIP_PX

    def mousePressEvent(self, event: QMouseEvent) -> None:
        at = self._pointer(event)
        event.accept()
        if self._gesture is not None:
            return
        if event.button() is Qt.MouseButton.MiddleButton:
            self._gesture = Pan(self.pan, at)
        elif event.button() is Qt.MouseButton.LeftButton:
            self._gesture = self._left_gesture(at)
        self._show_cursor(at)

    def _left_gesture(self, at: Pointer) -> Gesture:
        from holeplacer.gui.sheets.section_drag import SectionMove, SectionTurn

        ready = self._divider.division is not None and self._drawn is not None
        if ready and self._drawn is not None and self._grip_at(at.px):
            mark = self.sections[self._chosen or 0].mark
            turning = self._drawn.choice.turning
            return SectionTurn(
                at, self._show_moved, self._keep_turned, centre=(mark.x_mm, mark.y_mm),
                angle_rad=mark.angle_rad, step_rad=_STEP_RAD[turning], free=turning == "any",
            )  # fmt: skip
        number = self.section_at(at.px)
        self.choose(number)
        if number is None or not ready:
            return Pan(self.pan, at)
        return SectionMove(at, self._show_moved, self._keep_moved)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        at = self._pointer(event)
        for ruler, where in zip(self.rulers, (at.px.x(), at.px.y()), strict=True):
            ruler.show_pointer(where)
        sheet = self._sheet_at(at.place[0])
        left = self.sheets[sheet].x() if self.sheets else 0.0
        self.pointer_moved.emit(at.place[0] - left, at.place[1])
        if self._gesture is not None:
            self._gesture.move(at)
        self._show_cursor(at)
        event.accept()

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        gesture, self._gesture = self._gesture, None
        if gesture is not None:
            gesture.commit(self._pointer(event))
            self._moved = None
            self.refresh()
        event.accept()

    def leaveEvent(self, event: QEvent) -> None:
        super().leaveEvent(event)
        for ruler in self.rulers:
            ruler.show_pointer(None)
        self.pointer_left.emit()

    def _pointer(self, event: QMouseEvent) -> Pointer:
        px = event.position().toPoint()
        place = self.to_sign(px)
        held = event.modifiers()
        free = Qt.KeyboardModifier.AltModifier | Qt.KeyboardModifier.ControlModifier
        return Pointer((place.x(), place.y()), px, free=bool(held & free))

    def _show_cursor(self, at: Pointer) -> None:
        shape = Qt.CursorShape.ArrowCursor
        if self._gesture is not None and self._gesture.cursor is not None:
            shape = self._gesture.cursor
        elif self._gesture is None and (self._grip_at(at.px) or self.section_at(at.px) is not None):
            shape = Qt.CursorShape.OpenHandCursor
        if self.viewport().cursor().shape() is not shape:
            self.viewport().setCursor(shape)

    # --- moving ---

    def _sheet_at(self, x_mm: float) -> int:
        """The sheet at a place of the scene, or the nearest one."""
        away = [
            max(sheet.area.left() - x_mm, x_mm - sheet.area.right(), 0.0) for sheet in self.sheets
        ]
        return away.index(min(away)) if away else 0

    def _with_moved(self, dx: float, dy: float, turned: float) -> SheetLayout | None:
        from holeplacer.cutting import hand_layout

        layout, number = self._drawn, self._chosen
        if layout is None or number is None:
            return None
        placed = next(item for item in layout.placed if item.section == number)
        centre = placed.of(layout.section(number).polygon).centroid
        here = self.sheets[placed.sheet].x()
        sheet = self._sheet_at(here + centre.x + dx)
        dx += here - self.sheets[sheet].x()
        return hand_layout.moved(layout, number, dx, dy, turned, sheet=sheet)

    def _show_moved(self, dx: float, dy: float, turned: float) -> None:
        found = self._divider.division
        self._moved = self._with_moved(dx, dy, turned)
        if self._moved is not None and found is not None:
            self._remark(self._moved, found)

    def _keep_moved(self, dx: float, dy: float, turned: float) -> None:
        self._keep(dx, dy, turned, f"Move section {self._chosen} on its sheet")

    def _keep_turned(self, dx: float, dy: float, turned: float) -> None:
        self._keep(dx, dy, turned, f"Turn section {self._chosen} on its sheet")

    def _keep(
        self, dx: float, dy: float, turned: float, text: str, gesture: int | None = None
    ) -> None:
        moved = self._with_moved(dx, dy, turned)
        if moved is not None and self._chosen is not None and self._divider.division is not None:
            number = self._session.new_gesture() if gesture is None else gesture
            self._divider.place_by_hand(moved, self._chosen, text, number)

    # --- keys ---

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key = Qt.Key(event.key())
        fine = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
        if key in _ARROWS and self._chosen is not None:
            step = _STEP_MM[self._session.unit][fine]
            across, up = _ARROWS[key]
            self._nudge(across * step, up * step, 0.0)
        elif key is Qt.Key.Key_R and self._chosen is not None and self._drawn is not None:
            turning = self._drawn.choice.turning
            if turning != "none":
                self._nudge(0.0, 0.0, -_STEP_RAD[turning] if fine else _STEP_RAD[turning])
        elif key in (Qt.Key.Key_PageDown, Qt.Key.Key_PageUp):
            self.fit_sheet(1 if key is Qt.Key.Key_PageDown else -1)
        elif key is Qt.Key.Key_Escape:
            self._escape()
        else:
            super().keyPressEvent(event)
            return
        event.accept()

    def _nudge(self, dx: float, dy: float, turned: float) -> None:
        """One step of a key; a run without a pause is one step to undo."""
        number, plan = self._chosen, self._session.committed
        gesture = self._session.new_gesture()
        if self._run is not None:
            before, seen, same, last = self._run
            if before == number and seen is plan and time.monotonic() - last < _PAUSE_S:
                gesture = same
        verb = "Turn" if turned else "Move"
        self._keep(dx, dy, turned, f"{verb} section {number} on its sheet", gesture)
        if number is not None:
            self._run = number, self._session.committed, gesture, time.monotonic()

    def focusNextPrevChild(self, forward: bool) -> bool:
        """Tab steps through the sections, and leaves the sheets after the last."""
        numbers = sorted(self.sections)
        if numbers:
            if self._chosen is None:
                at = 0 if forward else len(numbers) - 1
            else:
                at = numbers.index(self._chosen) + (1 if forward else -1)
            if 0 <= at < len(numbers):
                self.choose(numbers[at])
                mark = self.sections[numbers[at]].mark
                self.bring_into_view(mark.x_mm, mark.y_mm)
                return True
        return super().focusNextPrevChild(forward)

    def _escape(self) -> None:
        gesture, self._gesture = self._gesture, None
        if gesture is not None:
            gesture.cancel()
            self._moved = None
            self.refresh()
        else:
            self.choose(None)

    # --- looks ---

    def _rescaled(self, px_per_mm: float) -> None:
        for item in self.sections.values():
            item.set_scale(px_per_mm)

    def _unit_changed(self) -> None:
        self.show_unit(self._session.unit)
        self.refresh()

    def _wear_items(self) -> None:
        for sheet in self.sheets:
            sheet.wear_colours(self._theme.colours)
        for section in self.sections.values():
            section.wear_colours(self._theme.colours)
