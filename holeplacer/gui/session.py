"""Session: the one plan the window shows, its undo stack, what is computed of it and selected.

Views read values from here and connect to its signals; gestures and forms hand new plans to
`push` (a step that can be undone) or `preview` (while a gesture lasts). Nothing else changes a
plan. The core is imported on first use, so that the window is on the screen before it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QUndoStack

from holeplacer.errors import Cancelled, HoleplacerError
from holeplacer.gui.evaluator import Evaluator
from holeplacer.gui.undo import PlanCommand
from holeplacer.gui.workers import Task
from holeplacer.units import LengthUnit

if TYPE_CHECKING:
    from holeplacer.artwork.options import ReadOptions
    from holeplacer.evaluation.evaluate import Evaluation
    from holeplacer.evaluation.layout import Layout
    from holeplacer.placement.propose import Proposal
    from holeplacer.plan.plan import Plan
    from holeplacer.rules.finding import Finding

Point = tuple[float, float]


@dataclass(frozen=True)
class PointPick:
    """Points the canvas is asked for.

    Attributes:
        prompt: What to click, in words.
        count: How many points are needed.
        points: Those given so far, sign coordinates, mm.
    """

    prompt: str
    count: int
    points: tuple[Point, ...] = ()


class Session(QObject):
    """State of the window.

    Attributes:
        plan_changed: `plan` is another one (pushed, previewed, undone, opened).
        layout_changed: `layout` is another one: other outline, other axis.
        evaluation_changed: `evaluation` is another one.
        selection_changed: Other holes or seams, or another finding, are selected.
        busy_changed: Work began, went on or ended: read `busy`, `progress`.
        problem_changed: `problem` is another one: the artwork can't be used as decided.
        unit_changed: Lengths are shown in another unit.
        opened: Another document is open; fit it to the view.
        notice: One line for the status bar.
        place_shown: Jump there: x, y in mm.
        pick_changed: `pick` is another one.
    """

    plan_changed = Signal()
    layout_changed = Signal()
    evaluation_changed = Signal()
    selection_changed = Signal()
    busy_changed = Signal()
    problem_changed = Signal()
    unit_changed = Signal()
    opened = Signal()
    notice = Signal(str)
    place_shown = Signal(float, float)
    pick_changed = Signal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.undo_stack = stack = QUndoStack(self)
        # A stack tells that it is clean while it dies; nobody is left to hear it by then.
        self.destroyed.connect(lambda: stack.blockSignals(True))
        self.undo_stack.setUndoLimit(500)
        self.evaluator = Evaluator(self)
        self._committed: Plan | None = None
        self._plan: Plan | None = None
        self._proposal: tuple[Plan, Proposal] | None = None
        self._holes: frozenset[int] = frozenset()
        self._seams: frozenset[int] = frozenset()
        self._finding: Finding | None = None
        self._unit = LengthUnit.MM
        self._gestures = 0
        self._pick: PointPick | None = None
        self._then: Callable[[tuple[Point, ...]], None] | None = None
        self.evaluator.layout_changed.connect(self.layout_changed)
        self.evaluator.evaluation_changed.connect(self._evaluated)
        self.evaluator.busy_changed.connect(self.busy_changed)
        self.evaluator.problem_changed.connect(self.problem_changed)

    # --- the plan ---

    @property
    def plan(self) -> Plan | None:
        """The plan shown: a preview while a gesture lasts, else the committed one."""
        return self._plan

    @property
    def committed(self) -> Plan | None:
        """The plan the undo stack stands at."""
        return self._committed

    @property
    def layout(self) -> Layout | None:
        """Outline and axis last made; may lag behind `plan` while a worker makes the next."""
        return self.evaluator.layout

    @property
    def evaluation(self) -> Evaluation | None:
        """Findings and figures of the plan shown, None until there are any."""
        return self.evaluator.evaluation

    @property
    def problem(self) -> HoleplacerError | None:
        """Why the artwork can't be laid out as decided, such as missing units."""
        return self.evaluator.problem

    def push(self, plan: Plan, text: str, gesture: int | None = None) -> None:
        """Commit a plan as one step that can be undone.

        Args:
            plan: The plan from now on.
            text: The step in plain words, such as `Move hole 7`.
            gesture: Number from `new_gesture`; steps of one gesture become one.
        """
        if self._committed is None:
            self.start(plan)
            return
        if plan == self._committed and gesture is None:
            self.show_plan(self._committed)
            return
        self.undo_stack.push(PlanCommand(self, self._committed, plan, text, gesture))

    def read_anew(self, reading: ReadOptions, text: str, gesture: int | None = None) -> None:
        """Commit another way to read the artwork; holes stay where they are on the lettering."""
        plan, layout = self._committed, self.layout
        if plan is None or reading == plan.reading:
            return
        if layout is None or not (plan.holes or plan.bosses):
            self.push(replace(plan, reading=reading), text, gesture)
            return

        def work(_task: Task[Layout]) -> Layout:
            from holeplacer.evaluation import rereading

            return rereading.reread(plan, layout, reading)

        def done(made: Layout) -> None:
            if self._committed is plan:
                self.evaluator.keep(made)
                self.push(made.plan, text, gesture)
            else:
                self.read_anew(reading, text, gesture)

        def failed(error: HoleplacerError) -> None:
            if self._committed is plan and not isinstance(error, Cancelled):
                self.push(replace(plan, reading=reading), text, gesture)

        self.evaluator.run("Reading the artwork", work, done, failed)

    def preview(self, plan: Plan | None) -> None:
        """Show a plan while a gesture lasts; None goes back to the committed one."""
        shown = self._committed if plan is None else plan
        if shown is not None:
            self._show(shown)

    def new_gesture(self) -> int:
        """A fresh number by which the steps of one gesture know each other."""
        self._gestures += 1
        return self._gestures

    def start(self, plan: Plan) -> None:
        """Begin with another document: no steps to undo, nothing selected."""
        self.undo_stack.clear()
        self._proposal = None
        self.select_holes(())
        self.drop_pick()
        self.evaluator.forget()
        self.show_plan(plan)
        self.opened.emit()

    def show_plan(self, plan: Plan) -> None:
        """Commit without a step; the undo stack's commands call it."""
        self._committed = plan
        self._show(plan)

    def _show(self, plan: Plan) -> None:
        self._plan = plan
        kept = self._holes & {hole.number for hole in plan.holes}
        seams = self._seams & frozenset(range(len(plan.seams)))
        self.plan_changed.emit()
        if (kept, seams) != (self._holes, self._seams):
            self._select(kept, None, seams)
        self.evaluator.evaluate(plan)

    # --- what was proposed ---

    @property
    def proposal(self) -> Proposal | None:
        """The last proposal, as long as its holes and what it depends on are unchanged."""
        if self._proposal is None or self._plan is None:
            return None
        made_for, proposal = self._proposal
        return proposal if _placed_alike(made_for, self._plan) else None

    def keep_proposal(self, plan: Plan, proposal: Proposal) -> None:
        """Remember that this plan's holes come from that proposal."""
        self._proposal = (plan, proposal)

    # --- selection ---

    @property
    def selected_holes(self) -> frozenset[int]:
        """Numbers of the selected holes."""
        return self._holes

    @property
    def selected_seams(self) -> frozenset[int]:
        """Places, in the plan's order, of the selected seams; none while holes are selected."""
        return self._seams

    @property
    def selected_finding(self) -> Finding | None:
        """The selected finding."""
        return self._finding

    def select_holes(self, numbers: Iterable[int]) -> None:
        """Select these holes and no finding."""
        self._select(frozenset(numbers), None)

    def select_seams(self, indices: Iterable[int]) -> None:
        """Select these seams, no hole and no finding."""
        self._select(frozenset(), None, frozenset(indices))

    def select_finding(self, finding: Finding, *, jump: bool = True) -> None:
        """Select a finding with the hole it is about, and jump to its place."""
        about = {finding.place.index} if finding.place.kind.value == "hole" else ()
        seams = self._seams_at(finding.place.xy_mm) if finding.rule == "seams" else ()
        self._select(frozenset(about), finding, frozenset(seams))
        if jump:
            self.place_shown.emit(*finding.place.xy_mm)

    def _seams_at(self, place: Point) -> tuple[int, ...]:
        seams = self._plan.seams if self._plan is not None else ()
        return tuple(index for index, seam in enumerate(seams) if seam.middle_mm == place)

    def _select(
        self,
        holes: frozenset[int],
        finding: Finding | None,
        seams: frozenset[int] = frozenset(),
    ) -> None:
        if (holes, finding, seams) != (self._holes, self._finding, self._seams):
            self._holes, self._finding, self._seams = holes, finding, seams
            self.selection_changed.emit()

    def _evaluated(self) -> None:
        if self._finding is not None:
            found = self.evaluation.findings if self.evaluation is not None else ()
            if self._finding not in found:
                self._select(self._holes, None, self._seams)
        self.evaluation_changed.emit()

    # --- unit shown ---

    @property
    def unit(self) -> LengthUnit:
        """The unit lengths are shown in, and typed in where none is given."""
        return self._unit

    def set_unit(self, unit: LengthUnit) -> None:
        """Show lengths in millimetres or inches; the plan does not change."""
        if unit is not self._unit:
            self._unit = unit
            self.unit_changed.emit()

    # --- points from the canvas ---

    @property
    def pick(self) -> PointPick | None:
        """Points the canvas is asked for just now."""
        return self._pick

    def ask_points(
        self, prompt: str, count: int, then: Callable[[tuple[Point, ...]], None]
    ) -> None:
        """Ask for points on the canvas.

        Args:
            prompt: What to click, in words.
            count: How many points.
            then: Called with them, sign coordinates, mm.
        """
        self._pick, self._then = PointPick(prompt, count), then
        self.pick_changed.emit()

    def give_point(self, x_mm: float, y_mm: float) -> None:
        """The canvas hands over one point."""
        if self._pick is None or self._then is None:
            return
        self._pick = replace(self._pick, points=(*self._pick.points, (x_mm, y_mm)))
        if len(self._pick.points) < self._pick.count:
            self.pick_changed.emit()
            return
        points, then = self._pick.points, self._then
        self.drop_pick()
        then(points)

    def drop_pick(self) -> None:
        """Ask for no points any more."""
        if self._pick is not None:
            self._pick, self._then = None, None
            self.pick_changed.emit()

    # --- work ---

    @property
    def busy(self) -> str:
        """What is being worked on, empty if nothing is."""
        return self.evaluator.busy

    @property
    def progress(self) -> float | None:
        """Share done, 0 to 1; None where it can't be told."""
        return self.evaluator.progress

    def cancel(self) -> None:
        """Stop the work that can be stopped."""
        self.evaluator.cancel()


def _placed_alike(first: Plan, second: Plan) -> bool:
    """Whether two plans differ in nothing but numbers and fixing of the same holes."""
    if replace(first, holes=()) != replace(second, holes=()):
        return False
    places = [
        sorted((hole.x_mm, hole.y_mm, plan.diameter_of(hole)) for hole in plan.holes)
        for plan in (first, second)
    ]
    return places[0] == places[1]
