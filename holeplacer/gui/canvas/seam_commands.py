"""Steps that need no held pointer: add, delete, fix, nudge, step through the seams."""

from __future__ import annotations

import math
import time
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject

from holeplacer.units import MM_PER_INCH, LengthUnit

if TYPE_CHECKING:
    from collections.abc import Iterable

    from holeplacer.gui.session import Session
    from holeplacer.medial_axis.ways import AxisPoint
    from holeplacer.plan.plan import Plan
    from holeplacer.plan.seam import Seam

Point = tuple[float, float]

_STEP_MM = {LengthUnit.MM: (1.0, 0.1), LengthUnit.INCH: (MM_PER_INCH / 16, MM_PER_INCH / 64)}
_PAUSE_S = 1.2
_ACROSS = math.cos(math.radians(80))


class SeamCommands(QObject):
    """What can be done to the selected seams; each is one step, named in the undo menu."""

    def __init__(self, session: Session, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self._run: tuple[frozenset[int], Plan | None, int, float] | None = None

    def add(self, place: Point) -> int | None:
        """Put a seam straight across the stroke at a place.

        Returns:
            Its place in the plan's order; None where there is no stroke to put it across.
        """
        from holeplacer.plan import edit  # with the first step, not with the window

        plan, layout = self._session.committed, self._session.layout
        if plan is None or layout is None:
            return None
        seam = None
        if layout.outline.piece_at(place)[0] >= 0:
            seam = self.across(place)
        if seam is None:
            self._session.notice.emit("There is no stroke here. Point at one to put a seam across.")
            return None
        index = len(plan.seams)
        self._session.push(edit.with_seam_added(plan, seam), _named("Add", [index]))
        self._session.select_seams({index})
        return index

    def across(self, place: Point, *, fixed: bool = False) -> Seam | None:
        """The seam straight across the stroke nearest to a place; None where there is none."""
        from holeplacer.medial_axis import ways
        from holeplacer.seams import crossing

        layout = self._session.layout
        if layout is None or not layout.axis.branches:
            return None
        at = ways.foot(layout.axis, place)[0]
        return crossing.seam_across(layout.outline, layout.axis, at, fixed=fixed)

    def delete(self) -> None:
        """Take the selected seams out."""
        from holeplacer.plan import edit

        plan, chosen = self._session.committed, self._chosen()
        if plan is None or not chosen:
            return
        for index in reversed(chosen):
            plan = edit.without_seam(plan, index)
        self._session.select_seams(())
        self._session.push(plan, _named("Delete", chosen))
        self._session.notice.emit(f"{_named('Deleted', chosen)}. Undo brings back what was there.")

    def toggle_fixed(self) -> None:
        """Fix the selected seams where they are, or free them if all are fixed."""
        from holeplacer.plan import edit

        plan, chosen = self._session.committed, self._chosen()
        if plan is None or not chosen:
            return
        fix = not self.all_fixed
        for index in chosen:
            plan = edit.with_seam_fixed(plan, index, fix)
        self._session.push(plan, _named("Fix" if fix else "Free", chosen))

    @property
    def all_fixed(self) -> bool:
        """Whether every selected seam is fixed."""
        plan, chosen = self._session.committed, self._chosen()
        return plan is not None and bool(chosen) and all(plan.seams[i].fixed for i in chosen)

    def nudge(self, across: int, up: int, *, fine: bool) -> None:
        """Slide the selected seams along their strokes, one step of the unit shown.

        A run of nudges without a pause is one step in the undo stack.

        Args:
            across: Towards the right, or the left (negative).
            up: Upwards, or downwards.
            fine: Small steps.
        """
        step = _STEP_MM[self._session.unit][fine]
        moved = {index: self._slid(index, (across, up), step) for index in self._chosen()}
        self.move({index: seam for index, seam in moved.items() if seam is not None})

    def slide(self, by: int, *, fine: bool) -> None:
        """Slide them along their strokes in the ribbon's direction, which is the axis's."""
        step = by * _STEP_MM[self._session.unit][fine]
        moved = {index: self._slid(index, None, step) for index in self._chosen()}
        self.move({index: seam for index, seam in moved.items() if seam is not None})

    def move(self, places: dict[int, Seam]) -> None:
        """Put seams elsewhere; a run without a pause is one step."""
        from holeplacer.plan import edit

        plan = self._session.committed
        if plan is None or not places:
            return
        gesture = self._gesture_of_run(frozenset(places))
        for index, seam in places.items():
            plan = edit.with_seam_moved(plan, index, seam)
        self._session.push(plan, _named("Move", places), gesture)
        self._run = (frozenset(places), self._session.committed, gesture, time.monotonic())

    def step(self, by: int) -> bool:
        """Select the next or previous seam; False past the last."""
        plan, chosen = self._session.plan, self._session.selected_seams
        count = len(plan.seams) if plan is not None else 0
        if plan is None or not count:
            return False
        if chosen:
            at = (max(chosen) if by > 0 else min(chosen)) + by
        else:
            at = 0 if by > 0 else count - 1
        if not 0 <= at < count:
            return False
        self._session.select_seams({at})
        self._session.place_shown.emit(*plan.seams[at].middle_mm)
        return True

    def _slid(self, index: int, towards: tuple[int, int] | None, step: float) -> Seam | None:
        """The seam a step further along its stroke; None where that is not along the stroke."""
        from holeplacer.medial_axis import ways
        from holeplacer.seams import crossing

        plan, layout = self._session.committed, self._session.layout
        if plan is None or layout is None:
            return None
        seam = plan.seams[index]
        at = crossing.foot_of(layout.axis, seam)
        if at is None or at.branch == ways.LONE:
            return None
        (x, y), (tx, ty) = self._place_and_way(at)
        if towards is not None:
            along = towards[0] * tx + towards[1] * ty
            if abs(along) < _ACROSS:
                return None
            step = math.copysign(step, along)
        return self.across((x + step * tx, y + step * ty), fixed=seam.fixed)

    def _place_and_way(self, at: AxisPoint) -> tuple[Point, Point]:
        """Where an axis point is, and which way the axis runs there."""
        import numpy as np

        layout = self._session.layout
        if layout is None:
            raise LookupError("there is no axis")
        branch = layout.axis.branches[at.branch]
        room = min(1.0, branch.length_mm / 4)
        places = np.clip([at.s_mm - room, at.s_mm, at.s_mm + room], 0.0, branch.length_mm)
        xy = np.column_stack([np.interp(places, branch.s, branch.xy[:, axis]) for axis in (0, 1)])
        way = xy[2] - xy[0]
        tx, ty = (way / (np.hypot(*way) or 1.0)).tolist()
        x, y = xy[1].tolist()
        return (x, y), (tx, ty)

    def _chosen(self) -> list[int]:
        plan = self._session.committed
        count = len(plan.seams) if plan is not None else 0
        return sorted(index for index in self._session.selected_seams if index < count)

    def _gesture_of_run(self, moved: frozenset[int]) -> int:
        """The run that goes on, or a new one: other seams, another step between, a pause."""
        if self._run is not None:
            before, plan, gesture, last = self._run
            goes_on = before == moved and plan is self._session.committed
            if goes_on and time.monotonic() - last < _PAUSE_S:
                return gesture
        return self._session.new_gesture()


def _named(verb: str, indices: Iterable[int]) -> str:
    """Name of a step: `Move seam 7`, `Move 3 seams`."""
    held = sorted(indices)
    return f"{verb} seam {held[0] + 1}" if len(held) == 1 else f"{verb} {len(held)} seams"
