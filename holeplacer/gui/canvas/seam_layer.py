"""Seam layer: seams, sections and what is done to them on the canvas.

Nothing is made before there is a seam or sections are asked for; only what changed is touched.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QPoint, QPointF, QTimer, Signal
from PySide6.QtGui import QFont, QPainterPath, QPen
from PySide6.QtWidgets import QGraphicsPathItem

from holeplacer.gui.canvas.drag import Gesture, Pointer
from holeplacer.gui.canvas.label_item import LabelItem
from holeplacer.gui.canvas.plate import Line
from holeplacer.gui.canvas.seam_commands import SeamCommands
from holeplacer.gui.canvas.seam_drag import SeamDrag
from holeplacer.gui.canvas.view import CanvasView
from holeplacer.gui.sections_shown import SectionsShown
from holeplacer.gui.session import Session
from holeplacer.gui.theme import Theme, with_even_figures

if TYPE_CHECKING:
    from collections.abc import Iterable

    from holeplacer.gui.canvas.seam_item import SeamItem
    from holeplacer.gui.canvas.seam_symbol import SeamMark
    from holeplacer.gui.canvas.section_tint import SectionTintItem
    from holeplacer.plan.seam import Seam
    from holeplacer.seams.sections import Section

_TINT_Z, _OTHER_Z, _NAME_Z, _PLATE_Z = -9.7, 1.0, 3.0, 10.0
_GRAB_PX = 7.0
_PLATE_OFFSET = QPointF(18, 18)
_GHOST_PX = 2.0


class SeamLayer(QObject):
    """Keeps seams on the canvas in step with the session, and answers its pointer.

    Attributes:
        hovered_changed: Place in the plan's order of the seam under the pointer, -1 for none.
        commands: Steps without a held pointer.
        seams: Items by the seam's place in the plan's order.
        plate: Figures of the seam in hand.
    """

    hovered_changed = Signal(int)

    def __init__(self, session: Session, canvas: CanvasView, theme: Theme) -> None:
        super().__init__(canvas)
        self._session, self._canvas, self._theme = session, canvas, theme
        self._shown = SectionsShown.of(session)
        self.commands = SeamCommands(session, self)
        self.seams: dict[int, SeamItem] = {}
        self._font = with_even_figures(QFont())
        self._font.setPixelSize(12)
        self._tint: SectionTintItem | None = None
        self._names: list[LabelItem] = []
        self._divided: tuple[object, tuple[Seam, ...]] | None = None
        self._hovered: int | None = None
        self._held: int | None = None
        self._gesture: SeamDrag | None = None
        self._other = QGraphicsPathItem()
        self._other.setVisible(False)
        self._other.setZValue(_OTHER_Z)
        canvas.sign.addItem(self._other)
        self.plate = LabelItem(theme.colours, self._font)
        self.plate.setZValue(_PLATE_Z)
        canvas.sign.addItem(self.plate)
        self._lag = QTimer(self)
        self._lag.setSingleShot(True)
        self._lag.setInterval(0)
        self._lag.timeout.connect(self.refresh)
        self._listen()
        canvas.things = self
        self._wear()
        self.refresh()

    def _listen(self) -> None:
        session, canvas = self._session, self._canvas
        session.plan_changed.connect(self._lag.start)
        for signal in (
            session.evaluation_changed,
            session.selection_changed,
            session.unit_changed,
            session.layout_changed,
            self._shown.changed,
        ):
            signal.connect(self.refresh)
        canvas.scale_changed.connect(self._rescaled)
        canvas.pointer_moved.connect(self._show_ghost)
        canvas.pointer_left.connect(self._show_other)
        self._theme.changed.connect(self._wear)

    # --- in step with the session ---

    def refresh(self) -> None:
        """Draw the seams as they are now."""
        self._lag.stop()
        plan, session = self._session.plan, self._session
        if plan is None or not plan.seams:
            self._drop(tuple(self.seams))
        else:
            from holeplacer.gui.canvas.seam_marks import seam_marks  # with the first seam

            marks = seam_marks(plan, session.evaluation, session.selected_seams, session.unit)
            self._drop(self.seams.keys() - {mark.index for mark in marks})
            for mark in marks:
                if mark.index in self.seams:
                    self.seams[mark.index].show_mark(mark)
                else:
                    self._add(mark)
            for item in self.seams.values():
                item.set_named(self._shown.open)
        self._show_sections()
        self._show_other()
        self._show_figures()

    def hover(self, index: int) -> None:
        """Mark a seam as the one meant, such as the one under the ribbon's pointer; -1 for none."""
        wanted = index if index in self.seams else None
        if wanted != self._hovered:
            for which, over in ((self._hovered, False), (wanted, True)):
                if which in self.seams:
                    self.seams[which].set_hovered(over)
            self._hovered = wanted

    def hold(self, index: int) -> None:
        """Show what a seam costs that is dragged elsewhere, on the ribbon; -1 ends that."""
        self._held = index if index >= 0 else None
        self._show_figures()

    def _add(self, mark: SeamMark) -> None:
        from holeplacer.gui.canvas.seam_item import SeamItem

        item = SeamItem(mark, self._theme.colours, self._font)
        item.set_scale(self._canvas.px_per_mm)
        self.seams[mark.index] = item
        self._canvas.sign.addItem(item)

    def _drop(self, gone: Iterable[int]) -> None:
        for index in list(gone):
            self._canvas.sign.removeItem(self.seams.pop(index))
            if index == self._hovered:
                self._hovered = None

    # --- sections ---

    def _show_sections(self) -> None:
        """Tints and names of sections, while the stage is open; a drag shows them at its end."""
        plan, layout = self._session.plan, self._session.layout
        seen = self._shown.open and plan is not None and bool(plan.seams) and layout is not None
        if self._tint is not None:
            self._tint.setVisible(seen)
        if not seen or plan is None or layout is None:
            self._name(())
            self._divided = None
            return
        if plan is not self._session.committed:
            return
        key = (layout.outline, plan.seams)
        if self._divided is not None and self._divided == key:
            return
        self._divided = key
        from holeplacer.gui.canvas.section_tint import SectionTintItem
        from holeplacer.seams import sections

        found = sections.sections(layout.outline, plan.seams)
        if self._tint is None:
            self._tint = SectionTintItem(self._theme.colours)
            self._tint.setZValue(_TINT_Z)
            self._canvas.sign.addItem(self._tint)
        self._tint.setVisible(True)
        self._tint.show_sections(found)
        self._name(found)

    def _name(self, sections: tuple[Section, ...]) -> None:
        while len(self._names) > len(sections):
            self._canvas.sign.removeItem(self._names.pop())
        while len(self._names) < len(sections):
            label = LabelItem(self._theme.colours, self._font)
            label.setZValue(_NAME_Z)
            self._canvas.sign.addItem(label)
            self._names.append(label)
        for label, section in zip(self._names, sections, strict=True):
            left, _, right, top = section.polygon.bounds
            label.say((Line(f"section {section.number}"),))
            label.setPos((left + right) / 2, top)
            size = label.size_px
            label.offset_by(QPointF(-size.width() / 2, -size.height() - 6))

    # --- other seams: those of another way, and the one about to be put ---

    def _show_other(self) -> None:
        self._draw_other(self._shown.other_seams if self._shown.open else ())

    def _show_ghost(self, x_mm: float, y_mm: float) -> None:
        """The seam a click here would put, while one is being placed."""
        if self._shown.placing:
            seam = self.commands.across((x_mm, y_mm))
            self._draw_other(() if seam is None else (seam,))

    def _draw_other(self, seams: tuple[Seam, ...]) -> None:
        path = QPainterPath()
        for seam in seams:
            path.moveTo(seam.x1_mm, seam.y1_mm)
            path.lineTo(seam.x2_mm, seam.y2_mm)
        self._other.setPath(path)
        self._other.setVisible(bool(seams))

    # --- the seam in hand ---

    def _show_figures(self) -> None:
        session, held = self._session, self._in_hand
        plan, layout = session.plan, session.layout
        if held is None or plan is None or layout is None or held >= len(plan.seams):
            self.plate.say(())
            return
        from holeplacer.gui.canvas.seam_figures import seam_lines  # with the first drag

        seam = plan.seams[held]
        self.plate.say(seam_lines(plan, layout, seam, session.unit))
        self.plate.setPos(*seam.middle_mm)
        self.plate.offset_by(self._plate_offset(QPointF(*seam.middle_mm)))

    @property
    def _in_hand(self) -> int | None:
        gesture = self._gesture
        if gesture is not None and gesture.moving and self._canvas.gesture is gesture:
            return gesture.index
        return self._held

    def _plate_offset(self, place: QPointF) -> QPointF:
        """Below and right of the seam, on another side where the view ends."""
        size, port = self.plate.size_px, self._canvas.viewport().rect()
        at = self._canvas.mapFromScene(place)
        clear = _PLATE_OFFSET
        right = at.x() + clear.x() + size.width() < port.right()
        below = at.y() + clear.y() + size.height() < port.bottom()
        return QPointF(
            clear.x() if right else -clear.x() - size.width(),
            clear.y() if below else -clear.y() - size.height(),
        )

    # --- pointer and keys, as `Things` has them ---

    def gesture_at(self, at: Pointer) -> Gesture | None:
        """A drag of the seam that is pressed."""
        index = self.seam_at(at.px)
        if index is None:
            return None
        self._gesture = SeamDrag(self._session, index, self._carry, at)
        return self._gesture

    def hover_at(self, at: Pointer | None) -> bool:
        """Light up the seam under the pointer."""
        index = None if at is None else self.seam_at(at.px)
        found = -1 if index is None else index
        if index != self._hovered:
            self.hover(found)
            self.hovered_changed.emit(found)
        return index is not None

    def select_at(self, at: Pointer) -> bool:
        """Select the seam under the pointer."""
        index = self.seam_at(at.px)
        if index is not None and index not in self._session.selected_seams:
            self._session.select_seams({index})
        return index is not None

    def add_at(self, at: Pointer) -> bool:
        """While the stage is open a double click puts a seam across the stroke."""
        if not self._shown.open:
            return False
        if self.seam_at(at.px) is None:
            self.commands.add(at.place)
        return True

    def nudge(self, across: int, up: int, *, fine: bool) -> bool:
        """Slide the selected seams along their strokes."""
        if not self._session.selected_seams:
            return False
        self.commands.nudge(across, up, fine=fine)
        return True

    def step(self, by: int) -> bool:
        """While the stage is open Tab steps through the seams."""
        return self._shown.open and self.commands.step(by)

    def seam_at(self, px: QPoint) -> int | None:
        """The seam under a pixel, the nearest where several are; None while they can't be held."""
        if not self._shown.open:
            return None
        found = [
            (item.away_px(QPointF(px - self._canvas.mapFromScene(item.pos()))), index)
            for index, item in self.seams.items()
        ]
        away, index = min(found, default=(_GRAB_PX + 1, 0))
        return index if away <= _GRAB_PX else None

    def _carry(self, seam: Seam, start: Pointer, at: Pointer) -> Seam | None:
        dx, dy = at.place[0] - start.place[0], at.place[1] - start.place[1]
        x, y = seam.middle_mm
        return self.commands.across((x + dx, y + dy), fixed=seam.fixed)

    def _rescaled(self, px_per_mm: float) -> None:
        for item in self.seams.values():
            item.set_scale(px_per_mm)

    def _wear(self) -> None:
        colours = self._theme.colours
        for item in self.seams.values():
            item.wear_colours(colours)
        for label in (*self._names, self.plate):
            label.wear_colours(colours)
        if self._tint is not None:
            self._tint.wear_colours(colours)
        pen = QPen(colours.colour("accent"), _GHOST_PX)
        pen.setCosmetic(True)
        pen.setDashPattern([3, 2])
        self._other.setPen(pen)
