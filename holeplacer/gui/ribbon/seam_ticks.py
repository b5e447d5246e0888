"""Seams on the ribbon: ticks of another shape than holes', dragged along the strokes like them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QPoint, QRect, QRectF, Qt, Signal

from holeplacer.gui.canvas import seam_symbol
from holeplacer.gui.canvas.drag import Pointer
from holeplacer.gui.canvas.seam_commands import SeamCommands
from holeplacer.gui.canvas.seam_drag import SeamDrag
from holeplacer.gui.canvas.seam_symbol import SeamMark
from holeplacer.gui.sections_shown import SectionsShown
from holeplacer.gui.session import Session

if TYPE_CHECKING:
    from PySide6.QtGui import QPainter

    from holeplacer.gui.canvas.plate import Line
    from holeplacer.gui.ribbon.unrolled import Run
    from holeplacer.gui.ribbon.view import RibbonView
    from holeplacer.gui.theme import Colours
    from holeplacer.plan.seam import Seam

_SQUARE_PX = 9.0
_TOP_PX = 18.0
_GRAB_PX = 7.0
_WIDE_PX = 34
_NAME_PX = 14.0


@dataclass(frozen=True)
class SeamTick:
    """One seam on the ribbon.

    Attributes:
        mark: What is seen of it.
        run: The run its foot lies on.
        x_mm: Place on the ribbon.
    """

    mark: SeamMark
    run: Run
    x_mm: float


class SeamTicks(QObject):
    """Keeps the ribbon's seams in step with the session, and answers its pointer.

    Attributes:
        hovered_changed: Place in the plan's order of the seam under the pointer, -1 for none.
        held_changed: That of the seam being dragged here, -1 when it is let go.
        ticks: The seams as they stand on the ribbon.
    """

    hovered_changed = Signal(int)
    held_changed = Signal(int)

    def __init__(self, session: Session, view: RibbonView) -> None:
        super().__init__(view)
        self._session, self._view = session, view
        self._shown = SectionsShown.of(session)
        self.commands = SeamCommands(session, self)
        self.ticks: tuple[SeamTick, ...] = ()
        self._hovered = -1
        for signal in (
            session.evaluation_changed,
            session.selection_changed,
            session.layout_changed,
            session.unit_changed,
            self._shown.changed,
        ):
            signal.connect(self.refresh)
        view.seams = self
        self.refresh()

    def refresh(self) -> None:
        """Put the ticks where the seams are now; repaint only those that differ."""
        plan, ribbon = self._session.plan, self._view.ribbon
        before = self.ticks
        if plan is None or ribbon is None or not plan.seams or not ribbon.runs:
            self.ticks = ()
        else:
            self.ticks = self._made()
        for tick in set(before) ^ set(self.ticks):
            self._view.viewport().update(self._rect(tick))

    def _made(self) -> tuple[SeamTick, ...]:
        from holeplacer.gui.canvas.seam_marks import seam_marks  # with the first seam
        from holeplacer.medial_axis import ways

        session, ribbon = self._session, self._view.ribbon
        if session.plan is None or ribbon is None:
            return ()
        known = {tick.mark: tick for tick in self.ticks if tick.run in ribbon.runs}
        marks = seam_marks(session.plan, session.evaluation, session.selected_seams, session.unit)
        made = []
        for mark in marks:
            if mark in known:
                made.append(known[mark])
            else:
                foot = ways.foot(ribbon.axis, (mark.x_mm, mark.y_mm))[0]
                made.append(SeamTick(mark, *ribbon.place(foot)))
        return tuple(made)

    def hover(self, index: int) -> None:
        """Mark a tick as the one meant, such as that of the seam under the canvas's pointer."""
        if index != self._hovered:
            for tick in self.ticks:
                if tick.mark.index in (index, self._hovered):
                    self._view.viewport().update(self._rect(tick))
            self._hovered = index

    def paint(self, painter: QPainter, base_px: float, colours: Colours, exposed: QRect) -> None:
        """Paint the ticks in sight."""
        scale = self._view.scale
        if scale is None:
            return
        for tick in self.ticks:
            if not self._rect(tick).intersects(exposed):
                continue
            x = scale.x_px(tick.run, tick.x_mm)
            lit = tick.mark.index == self._hovered
            box = QRectF(x - _SQUARE_PX / 2, _TOP_PX, _SQUARE_PX, base_px + 4 - _TOP_PX)
            seam_symbol.paint_tick(painter, tick.mark, box, colours, lit=lit)
            if lit or tick.mark.selected:
                width = painter.fontMetrics().horizontalAdvance(tick.mark.words) + 6.0
                words = QRectF(x - width / 2, 0, width, _NAME_PX)
                painter.fillRect(words, colours.colour("ground"))
                painter.setPen(colours.colour("accent"))
                painter.drawText(words, Qt.AlignmentFlag.AlignCenter, tick.mark.words)

    # --- pointer and keys ---

    def tick_at(self, px: QPoint) -> SeamTick | None:
        """The tick under a pixel, the nearest; None while seams can't be held."""
        scale = self._view.scale
        if not self._shown.open or scale is None:
            return None
        near = [(abs(scale.x_px(tick.run, tick.x_mm) - px.x()), tick) for tick in self.ticks]
        away, tick = min(near, key=lambda one: one[0], default=(_GRAB_PX + 1, None))
        return tick if away <= _GRAB_PX else None

    def gesture_at(self, at: Pointer) -> SeamDrag | None:
        """A drag of the seam that is pressed."""
        tick = self.tick_at(at.px)
        if tick is None:
            return None
        return SeamDrag(self._session, tick.mark.index, self._carry, at)

    def hover_at(self, px: QPoint | None) -> bool:
        """Light up the tick under the pointer; whether there is one."""
        tick = None if px is None else self.tick_at(px)
        index = -1 if tick is None else tick.mark.index
        if index != self._hovered:
            self.hover(index)
            self.hovered_changed.emit(index)
        return tick is not None

    def select_at(self, px: QPoint) -> bool:
        """Select the seam under the pointer for a context menu; whether there is one."""
        tick = self.tick_at(px)
        if tick is not None and tick.mark.index not in self._session.selected_seams:
            self._session.select_seams({tick.mark.index})
        return tick is not None

    def add_at(self, px: QPoint) -> bool:
        """While the stage is open a double click puts a seam there."""
        place = self._place_at(float(px.x()))
        if not self._shown.open or place is None:
            return False
        if self.tick_at(px) is None:
            self.commands.add(place)
        return True

    def slide(self, by: int, *, fine: bool) -> bool:
        """Slide the selected seams along the ribbon; False if none is selected."""
        chosen = [tick for tick in self.ticks if tick.mark.selected]
        for tick in chosen[:1]:
            self.commands.slide(-by if tick.run.backwards else by, fine=fine)
        return bool(chosen)

    def step(self, by: int) -> bool:
        """While the stage is open Tab steps through the seams."""
        return self._shown.open and not self._session.selected_holes and self.commands.step(by)

    def lines(self, gesture: SeamDrag) -> tuple[Line, ...]:
        """Figures of the seam in hand."""
        from holeplacer.gui.canvas.seam_figures import seam_lines

        plan, layout = self._session.plan, self._session.layout
        if plan is None or layout is None or not gesture.moving or gesture.index >= len(plan.seams):
            return ()
        return seam_lines(plan, layout, plan.seams[gesture.index], self._session.unit)

    def _carry(self, seam: Seam, start: Pointer, at: Pointer) -> Seam | None:
        sliding = self._view.sliding
        if sliding is None:
            return None
        x_px = sliding.x_px(seam.middle_mm) + at.px.x() - start.px.x()
        place = self._place_at(x_px)
        return None if place is None else self.commands.across(place, fixed=seam.fixed)

    def _place_at(self, x_px: float) -> tuple[float, float] | None:
        sliding = self._view.sliding
        if sliding is None:
            return None
        run = sliding.scale.run_at(sliding.ribbon, x_px)
        return None if run is None else sliding.place(run, sliding.scale.x_mm(run, x_px))

    def _rect(self, tick: SeamTick) -> QRect:
        scale = self._view.scale
        x = 0 if scale is None else round(scale.x_px(tick.run, tick.x_mm))
        return QRect(x - _WIDE_PX, 0, 2 * _WIDE_PX, self._view.viewport().height())
