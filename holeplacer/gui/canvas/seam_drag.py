"""Seam drag: a held seam slides along the strokes; one drag is one step."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt

from holeplacer.gui.canvas.drag import Gesture, Pointer
from holeplacer.gui.session import Session

if TYPE_CHECKING:
    from holeplacer.plan.plan import Plan
    from holeplacer.plan.seam import Seam

Carry = Callable[["Seam", Pointer, Pointer], "Seam | None"]
"""Where a seam goes: the seam at the press, the press, and where the pointer is now."""


class SeamDrag(Gesture):
    """Moves one seam; it stays where it is let go, and is a finding if it breaks a rule there."""

    cursor = Qt.CursorShape.ClosedHandCursor

    def __init__(self, session: Session, index: int, carry: Carry, start: Pointer) -> None:
        self._session, self._carry, self._start = session, carry, start
        self.index = index
        self._moving = False
        chosen = session.selected_seams
        if start.adds:
            session.select_seams(chosen ^ {index})
        elif index not in chosen:
            session.select_seams({index})
        self._before: Plan | None = session.committed

    @property
    def moving(self) -> bool:
        """Whether it moves, or is still no more than a press."""
        return self._moving

    def move(self, at: Pointer) -> None:
        if self._overtaken or not (self._moving or at.strays(self._start)):
            return
        self._moving = True
        self._session.preview(self._moved(at))

    def commit(self, at: Pointer) -> None:
        if not self._moving:
            if not at.adds and len(self._session.selected_seams) > 1:
                self._session.select_seams({self.index})
            return
        self._moving = False
        plan = None if self._overtaken else self._moved(at)
        if plan is not None:
            self._session.push(plan, f"Move seam {self.index + 1}")

    def cancel(self) -> None:
        if self._moving:
            self._moving = False
            self._session.preview(None)

    @property
    def _overtaken(self) -> bool:
        """Whether another step was made meanwhile, by a key: it counts, the drag does not."""
        return self._session.committed is not self._before

    def _moved(self, at: Pointer) -> Plan | None:
        from holeplacer.plan import edit  # with the first drag, not with the window

        plan = self._before
        if plan is None or self.index >= len(plan.seams):
            return plan
        seam = self._carry(plan.seams[self.index], self._start, at)
        return plan if seam is None else edit.with_seam_moved(plan, self.index, seam)
