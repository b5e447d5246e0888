"""Proposer: has holes proposed by a worker, and takes what it gives as one step."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any, TypeVar

from PySide6.QtCore import QObject, Signal

from holeplacer.errors import Cancelled, HoleplacerError
from holeplacer.gui.session import Session
from holeplacer.gui.workers import Task

if TYPE_CHECKING:
    from holeplacer.evaluation.layout import Layout
    from holeplacer.placement.count_curve import CountPoint
    from holeplacer.placement.count_deflection import CountDeflection
    from holeplacer.placement.propose import Proposal
    from holeplacer.plan.plan import Plan

Result = TypeVar("Result")

_FEWER, _MORE = 6, 12
"""How far round the plan's own count the curve goes."""

_NEAR_FEWER, _NEAR_MORE = 3, 6
"""The same of deflections, each of which is a proposal of its own."""


class Proposer(QObject):
    """Asks the placement for holes and for the curve of count to largest span.

    Attributes:
        changed: `working`, `failure` or `curve` is another one.
    """

    changed = Signal()

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self._session = session
        self._task: Task[Any] | None = None
        self._curve: tuple[Plan, tuple[CountPoint, ...]] | None = None
        self._deflections: tuple[Plan, tuple[CountDeflection, ...]] | None = None
        self.failure: HoleplacerError | None = None
        session.opened.connect(self._forget)
        session.busy_changed.connect(self.changed)

    @property
    def working(self) -> bool:
        """Whether a worker is at it."""
        return self._task is not None and self._session.evaluator.running(self._task)

    @property
    def curve(self) -> tuple[CountPoint, ...] | None:
        """Largest span by count of holes, as long as what it depends on is unchanged."""
        plan = self._session.plan
        if self._curve is None or plan is None or not _asks_alike(self._curve[0], plan):
            return None
        return self._curve[1]

    @property
    def deflections(self) -> tuple[CountDeflection, ...]:
        """Largest deflection by count of holes, as long as what it depends on is unchanged."""
        plan = self._session.plan
        if self._deflections is None or plan is None:
            return ()
        made_for, found = self._deflections
        alike = _asks_alike(made_for, plan) and made_for.loading == plan.loading
        return found if alike else ()

    def weigh_deflection(self) -> None:
        """Find the largest deflection for counts of holes round the plan's; it takes a while."""
        laid = self._laid_out()
        if laid is None or not laid[0].holes:
            return
        plan, layout = laid
        present = len(plan.holes)
        counts = range(max(present - _NEAR_FEWER, 2), present + _NEAR_MORE + 1)

        def work(task: Task[Any]) -> tuple[CountDeflection, ...]:
            from holeplacer.placement import count_deflection

            return count_deflection.count_deflections(
                plan,
                layout.outline,
                layout.axis,
                counts,
                progress=task.report,
                cancelled=task.is_cancelled,
            )

        def keep(found: tuple[CountDeflection, ...]) -> None:
            self._deflections = plan, found

        self._start("Weighing deflections", work, keep)

    def propose(self, count: int | None = None) -> None:
        """Propose holes; fixed ones stay.

        Args:
            count: The best places for so many holes; None proposes the fewest.
        """
        found = self._laid_out()
        if found is None:
            return
        plan, layout = found

        def work(task: Task[Any]) -> Proposal:
            from holeplacer.placement import propose

            return propose.propose(
                plan,
                layout.outline,
                layout.axis,
                count=count,
                near=plan.holes,
                progress=task.report,
                cancelled=task.is_cancelled,
            )

        self._start("Proposing holes", work, lambda made: self._take(plan, made))

    def draw_curve(self) -> None:
        """Find the largest span for counts of holes round the plan's."""
        found = self._laid_out()
        if found is None or not found[0].holes:
            return
        plan, layout = found
        present = len(plan.holes)
        counts = range(max(present - _FEWER, 2), present + _MORE + 1)

        def work(task: Task[Any]) -> tuple[CountPoint, ...]:
            from holeplacer.placement import count_curve

            return count_curve.count_curve(
                plan,
                layout.outline,
                layout.axis,
                counts,
                progress=task.report,
                cancelled=task.is_cancelled,
            )

        self._start("Weighing counts", work, lambda made: self._keep_curve(plan, made))

    def stop(self) -> None:
        """Stop the worker."""
        if self._task is not None:
            self._task.cancel()

    def _laid_out(self) -> tuple[Plan, Layout] | None:
        plan, layout = self._session.committed, self._session.layout
        if plan is None or layout is None or self._session.problem is not None:
            return None
        return plan, layout

    def _start(
        self, title: str, work: Callable[[Task[Result]], Result], then: Callable[[Result], None]
    ) -> None:
        self.failure = None
        self._task = self._session.evaluator.run(title, work, then, self._failed)
        self.changed.emit()

    def _take(self, plan: Plan, proposal: Proposal) -> None:
        from holeplacer.plan import edit

        if self._session.committed is not plan:
            self._session.notice.emit(
                "The plan changed while holes were being proposed; propose again."
            )
            return
        proposed = edit.with_holes(plan, proposal.holes)
        self._session.keep_proposal(proposed, proposal)
        self._session.push(proposed, "Propose holes")

    def _keep_curve(self, plan: Plan, curve: tuple[CountPoint, ...]) -> None:
        self._curve = (plan, curve)

    def _failed(self, error: HoleplacerError) -> None:
        if isinstance(error, Cancelled):
            self._session.notice.emit("Stopped; nothing was changed.")
        else:
            self.failure = error

    def _forget(self) -> None:
        self._curve = self._deflections = None
        self.failure = None
        self.changed.emit()


def _asks_alike(first: Plan, second: Plan) -> bool:
    """Whether the same curve belongs to two plans: all but free holes are alike."""
    fixed = [
        [(hole.x_mm, hole.y_mm, plan.diameter_of(hole)) for hole in plan.holes if hole.fixed]
        for plan in (first, second)
    ]
    return fixed[0] == fixed[1] and all(
        getattr(first, part) == getattr(second, part)
        for part in ("artwork", "reading", "sheet", "standoff", "limits", "offset_mm", "bosses")
    )
