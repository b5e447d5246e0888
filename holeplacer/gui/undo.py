"""Undo: the one command there is, from a plan to a plan, named in plain words."""

from __future__ import annotations

from typing import TYPE_CHECKING, Protocol

from PySide6.QtGui import QUndoCommand

if TYPE_CHECKING:
    from holeplacer.plan.plan import Plan

_MERGEABLE = 1


class Shows(Protocol):
    """Whatever shows a plan."""

    def show_plan(self, plan: Plan) -> None:
        """Show this plan from now on."""


class PlanCommand(QUndoCommand):
    """One step: the plan before and the plan after.

    Steps of one gesture (one drag, one run of arrow keys, one turn of a value) merge to one; a
    gesture that ends where it began leaves no step.
    """

    def __init__(
        self, target: Shows, before: Plan, after: Plan, text: str, gesture: int | None
    ) -> None:
        super().__init__(text)
        self._target = target
        self._before = before
        self.after = after
        self.gesture = gesture

    def id(self) -> int:
        return _MERGEABLE if self.gesture is not None else -1

    def mergeWith(self, other: QUndoCommand) -> bool:
        if not isinstance(other, PlanCommand) or other.gesture != self.gesture:
            return False
        self.after = other.after
        self.setText(other.text())
        self.setObsolete(self.after == self._before)
        return True

    def redo(self) -> None:
        self._target.show_plan(self.after)

    def undo(self) -> None:
        self._target.show_plan(self._before)
