"""Sheet asker: has the largest spacing and thinnest gauge worked out by a worker."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject, Signal

from holeplacer.errors import Cancelled, HoleplacerError
from holeplacer.gui.session import Session
from holeplacer.gui.workers import Task

if TYPE_CHECKING:
    from holeplacer.placement.sheet_limits import SheetLimits
    from holeplacer.plan.plan import Plan


class SheetAsker(QObject):
    """Asks what this sheet bears, keeps the answer with its plan, takes it as one step.

    Attributes:
        changed: `working`, `failure` or `found` is another one.
    """

    changed = Signal()

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self._session = session
        self._task: Task[Any] | None = None
        self._kept: tuple[Plan, SheetLimits] | None = None
        self.failure: HoleplacerError | None = None
        session.opened.connect(self._forget)
        session.busy_changed.connect(self.changed)
        session.plan_changed.connect(self.changed)

    @property
    def working(self) -> bool:
        """Whether a worker is at it."""
        return self._task is not None and self._session.evaluator.running(self._task)

    @property
    def found(self) -> SheetLimits | None:
        """The answer, as long as it is that of the plan as it stands."""
        return None if self._kept is None or self.stale else self._kept[1]

    @property
    def stale(self) -> bool:
        """Whether there is an answer, but to another plan."""
        return self._kept is not None and self._kept[0] != self._session.committed

    def ask(self) -> None:
        """Work it out."""
        plan, layout = self._session.committed, self._session.layout
        if plan is None or layout is None or self._session.problem is not None:
            return

        def work(task: Task[Any]) -> SheetLimits | None:
            from holeplacer.placement import sheet_limits

            return sheet_limits.sheet_limits(
                plan,
                layout.outline,
                layout.axis,
                progress=task.report,
                cancelled=task.is_cancelled,
            )

        self.failure = None
        self._task = self._session.evaluator.run(
            "Asking the sheet", work, lambda found: self._keep(plan, found), self._failed
        )
        self.changed.emit()

    def stop(self) -> None:
        """Stop the worker."""
        if self._task is not None:
            self._task.cancel()

    def take_spacing(self) -> None:
        """Take the largest spacing, its overhang and its holes into the plan."""
        plan, found = self._session.committed, self.found
        if plan is not None and found is not None and found.spacing.enough:
            self._session.push(found.spacing.taken(plan), "Take largest spacing")

    def take_gauge(self) -> None:
        """Take the thinnest gauge into the plan."""
        plan, found = self._session.committed, self.found
        if plan is not None and found is not None and found.gauge and found.gauge.enough:
            self._session.push(found.gauge.taken(plan), "Take thinnest gauge")

    def _keep(self, plan: Plan, found: SheetLimits | None) -> None:
        self._kept = None if found is None else (plan, found)

    def _failed(self, error: HoleplacerError) -> None:
        if isinstance(error, Cancelled):
            self._session.notice.emit("Stopped; nothing was changed.")
        else:
            self.failure = error

    def _forget(self) -> None:
        self._kept = self.failure = None
        self.changed.emit()
