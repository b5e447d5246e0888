"""Steps that need no held pointer: add, delete, fix, number, nudge, step through the holes.

Canvas, ribbon and menus share them, so that a key does the same wherever the focus is.
"""

from __future__ import annotations

import time
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject

from holeplacer.gui.canvas.drag import named
from holeplacer.gui.canvas.snapping import axis_foot
from holeplacer.units import MM_PER_INCH, LengthUnit

if TYPE_CHECKING:
    from holeplacer.gui.session import Session
    from holeplacer.plan.plan import Plan

Point = tuple[float, float]

_STEP_MM = {LengthUnit.MM: (1.0, 0.1), LengthUnit.INCH: (MM_PER_INCH / 16, MM_PER_INCH / 64)}
_PAUSE_S = 1.2


class HoleCommands(QObject):
    """What can be done to the selected holes; each is one step, named in the undo menu."""

    def __init__(self, session: Session, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self._run: tuple[frozenset[int], Plan | None, int, float] | None = None

    def add(self, place: Point, *, free: bool) -> int | None:
        """Add a hole on the axis beside a place on the metal, or exactly there if free.

        Returns:
            Its number; None where there is no metal to put it on.
        """
        from holeplacer.plan import edit  # with the first step, not with the window

        plan, layout = self._session.committed, self._session.layout
        if plan is None or layout is None:
            return None
        if not free:
            if layout.outline.piece_at(place)[0] < 0:
                self._session.notice.emit(
                    "There is no metal here. Point at a stroke, or hold Ctrl to place it anyway."
                )
                return None
            place = axis_foot(layout.axis, place)
        number = edit.next_number(plan)
        self._session.push(edit.with_hole_added(plan, *place), named("Add", [number]))
        self._session.select_holes({number})
        return number

    def delete(self) -> None:
        """Take the selected holes out."""
        from holeplacer.plan import edit

        plan, chosen = self._session.committed, self._chosen()
        if plan is None or not chosen:
            return
        for number in chosen:
            plan = edit.without_hole(plan, number)
        self._session.push(plan, named("Delete", chosen))
        self._session.notice.emit(f"{named('Deleted', chosen)}. Undo brings back what was there.")

    def toggle_fixed(self) -> None:
        """Fix the selected holes where they are, or free them if all are fixed."""
        from holeplacer.plan import edit

        plan, chosen = self._session.committed, self._chosen()
        if plan is None or not chosen:
            return
        fix = not self.all_fixed
        for number in chosen:
            plan = edit.with_hole_fixed(plan, number, fix)
        self._session.push(plan, named("Fix" if fix else "Free", chosen))

    @property
    def all_fixed(self) -> bool:
        """Whether every selected hole is fixed."""
        plan = self._session.committed
        chosen = self._session.selected_holes
        held = [hole.fixed for hole in (plan.holes if plan else ()) if hole.number in chosen]
        return bool(held) and all(held)

    def renumber(self) -> None:
        """Number all holes from left to right."""
        from holeplacer.plan import edit

        plan = self._session.committed
        if plan is not None and plan.holes:
            self._session.push(edit.renumbered(plan), "Number holes from left to right")

    def select_all(self) -> None:
        """Select every hole."""
        plan = self._session.plan
        if plan is not None:
            self._session.select_holes(hole.number for hole in plan.holes)

    def nudge(self, across: int, up: int, *, fine: bool) -> None:
        """Move the selected holes one step of the unit shown, exactly level or upright.

        A run of nudges without a pause is one step in the undo stack.

        Args:
            across: Steps to the right.
            up: Steps upwards.
            fine: Small steps, see `step_mm`.
        """
        step = self.step_mm(fine=fine)
        self.move_by(dict.fromkeys(self._chosen(), (across * step, up * step)))

    def step_mm(self, *, fine: bool) -> float:
        """One step of the arrow keys: 1 or 0.1 mm; 1/16 or 1/64 in where inches are shown."""
        return _STEP_MM[self._session.unit][fine]

    def move_by(self, ways: dict[int, Point]) -> None:
        """Move holes by these ways, mm; a run without a pause is one step."""
        from holeplacer.plan import edit

        plan = self._session.committed
        if plan is None or not ways:
            return
        gesture = self._gesture_of_run(frozenset(ways))
        for number, (dx, dy) in ways.items():
            hole = edit.hole_numbered(plan, number)
            plan = edit.with_hole_moved(plan, number, hole.x_mm + dx, hole.y_mm + dy)
        self._session.push(plan, named("Move", ways), gesture)
        self._run = (frozenset(ways), self._session.committed, gesture, time.monotonic())

    def step(self, by: int) -> bool:
        """Select the next or previous hole by number; False past the last."""
        plan = self._session.plan
        numbers = [hole.number for hole in plan.holes] if plan else []
        if not numbers:
            return False
        chosen = self._session.selected_holes
        if not chosen:
            at = 0 if by > 0 else len(numbers) - 1
        else:
            at = numbers.index(max(chosen) if by > 0 else min(chosen)) + by
        if not 0 <= at < len(numbers):
            return False
        hole = plan.holes[at] if plan else None
        self._session.select_holes({numbers[at]})
        if hole is not None:
            self._session.place_shown.emit(hole.x_mm, hole.y_mm)
        return True

    def _chosen(self) -> list[int]:
        plan = self._session.committed
        there = {hole.number for hole in plan.holes} if plan is not None else set()
        return sorted(self._session.selected_holes & there)

    def _gesture_of_run(self, moved: frozenset[int]) -> int:
        """The run that goes on, or a new one: other holes, another step between, a pause."""
        if self._run is not None:
            before, plan, gesture, last = self._run
            goes_on = before == moved and plan is self._session.committed
            if goes_on and time.monotonic() - last < _PAUSE_S:
                return gesture
        return self._session.new_gesture()
