"""Evaluator: keeps outline, axis and findings in step with the plan shown.

Moving a hole or changing a limit is checked at once, in the same frame. What makes another
outline (artwork, reading, offset, boss) is made by a worker; while it works, the last outline
stays on the screen, and only the newest plan is made next.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, TypeVar

from PySide6.QtCore import QObject, Signal

from holeplacer.errors import Cancelled, HoleplacerError
from holeplacer.gui.workers import Task, Workers, only_ours

if TYPE_CHECKING:
    from collections.abc import Callable

    from holeplacer.evaluation.evaluate import Evaluation
    from holeplacer.evaluation.layout import Layout
    from holeplacer.plan.plan import Plan

Result = TypeVar("Result")

_STEPS = {
    "read": "Reading the artwork",
    "change": "Applying offset and bosses",
    "axis": "Finding the medial axis",
}

_KEPT = 4
"""Outlines that are kept, the one shown among them."""


class Evaluator(QObject):
    """What is computed of the plan, and the tasks that compute it.

    Attributes:
        layout_changed: `layout` is another one.
        evaluation_changed: `evaluation` is another one.
        problem_changed: `problem` is another one.
        busy_changed: A task began, went on or ended.
        ended: The window closes: nothing that is not asked for may be begun any more.
    """

    layout_changed = Signal()
    evaluation_changed = Signal()
    problem_changed = Signal()
    busy_changed = Signal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.layout: Layout | None = None
        self.evaluation: Evaluation | None = None
        self.problem: HoleplacerError | None = None
        self.busy = ""
        self.progress: float | None = None
        self.ended = False
        self._workers = Workers(self)
        self._made: list[Layout] = []
        self._plan: Plan | None = None
        self._laying: Task[Any] | None = None
        self._task: Task[Any] | None = None

    def evaluate(self, plan: Plan) -> None:
        """Bring everything in step with this plan."""
        self._plan = plan
        ready = next((made for made in self._made if same_outline(plan, made.plan)), None)
        if ready is not None:
            self._finish(ready)
        elif self._laying is None:
            self._lay_out(plan)

    def keep(self, made: Layout) -> None:
        """Keep an outline that was made lately or elsewhere, so that going back takes a frame."""
        self._made = [made, *(old for old in self._made if old.outline is not made.outline)]
        del self._made[_KEPT:]

    def forget(self) -> None:
        """Another document begins: nothing that was made counts any more."""
        self.layout = None
        self.evaluation = None
        self._made.clear()
        self._laying = None
        self._set_problem(None)
        self.layout_changed.emit()
        self.evaluation_changed.emit()

    def run(
        self,
        title: str,
        work: Callable[[Task[Result]], Result],
        then: Callable[[Result], None],
        failed: Callable[[HoleplacerError], None],
    ) -> Task[Result]:
        """Start a task that shows its progress and can be stopped; it replaces the last one."""
        self.cancel()
        task = Task(
            title,
            work,
            done=lambda result: self._done(task, result, then),
            failed=lambda error: self._failed(task, error, failed),
            told=lambda share, text: self._progressed(task, share, text),
            ended=lambda: self._ended(task),
        )
        self._task = task
        self.busy, self.progress = title, None
        self._workers.start(task)
        self.busy_changed.emit()
        return task

    @property
    def can_stop(self) -> bool:
        """Whether a task runs that can be stopped."""
        return self._task is not None and not self._task.is_cancelled()

    def running(self, task: Task[Any]) -> bool:
        """Whether this task is still under way."""
        return task is self._task

    def cancel(self) -> None:
        """Stop the task that shows its progress."""
        if self._task is not None:
            self._task.cancel()

    def wait(self, milliseconds: int = -1) -> bool:
        """Stop what can be stopped and wait for all threads; called when the window closes."""
        self.ended = True
        self.cancel()
        return self._workers.wait(milliseconds)

    # --- outline and axis ---

    def _lay_out(self, plan: Plan) -> None:
        previous = self.layout

        def work(task: Task[Layout]) -> Layout:
            from holeplacer.evaluation import layout

            return layout.lay_out(plan, previous, lambda step: task.report(0.0, _STEPS[step]))

        task = Task(
            "Reading the artwork",
            work,
            done=lambda made: self._laid(task, plan, made),
            failed=lambda error: self._laid(task, plan, error),
            told=lambda _share, text: self._laying_goes_on(task, text),
        )
        self._laying = task
        self._workers.start(task)
        if not self.busy:
            self.busy, self.progress = task.title, None
        self.busy_changed.emit()

    def _laying_goes_on(self, task: Task[Any], text: str) -> None:
        if task is self._laying and self._task is None:
            self.busy = text
            self.busy_changed.emit()

    def _laid(self, task: Task[Any], plan: Plan, made: Layout | Exception) -> None:
        if task is not self._laying:
            return
        self._laying = None
        if self._task is None:
            self.busy = ""
        self.busy_changed.emit()
        newest = self._plan
        if newest is not None and not same_outline(plan, newest):
            self.evaluate(newest)
        elif isinstance(made, Exception):
            self._set_problem(only_ours(made))
        else:
            self._finish(made)

    def _finish(self, made: Layout) -> None:
        """Put the plan shown on this outline and hold it to the rules."""
        from holeplacer.evaluation import evaluate, layout

        if self._plan is None:
            return
        another = self.layout is None or made.outline is not self.layout.outline
        self.layout = layout.lay_out(self._plan, made)
        self.keep(self.layout)
        self._set_problem(None)
        if another:
            self.layout_changed.emit()
        self.evaluation = evaluate.evaluate(self._plan, self.layout.outline, self.layout.axis)
        self.evaluation_changed.emit()

    def _set_problem(self, problem: HoleplacerError | None) -> None:
        if problem is not self.problem:
            self.problem = problem
            self.problem_changed.emit()

    # --- the task that shows its progress ---

    def _done(self, task: Task[Any], result: Result, then: Callable[[Result], None]) -> None:
        if self._current(task):
            then(result)

    def _current(self, task: Task[Any]) -> bool:
        return task is self._task and not task.is_cancelled()

    def _progressed(self, task: Task[Any], share: float, text: str) -> None:
        if self._current(task):
            self.busy, self.progress = text or task.title, share
            self.busy_changed.emit()

    def _failed(
        self, task: Task[Any], error: Exception, failed: Callable[[HoleplacerError], None]
    ) -> None:
        ours = only_ours(error)
        if task is self._task or not isinstance(ours, Cancelled):
            failed(ours)

    def _ended(self, task: Task[Any]) -> None:
        if task is self._task:
            self._task = None
            self.busy, self.progress = (self._laying.title if self._laying else ""), None
            self.busy_changed.emit()


def same_outline(first: Plan, second: Plan) -> bool:
    """Whether two plans have the same cut outline, whatever their holes and limits."""
    return (
        first.artwork == second.artwork
        and first.reading == second.reading
        and first.offset_mm == second.offset_mm
        and first.bosses == second.bosses
    )
