"""Divider: has seams proposed and sections laid on sheets by a worker, and keeps what they cost."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING, Any, TypeVar

from PySide6.QtCore import QObject, QTimer, Signal

from holeplacer.errors import Cancelled, HoleplacerError
from holeplacer.gui.sections_shown import SectionsShown
from holeplacer.gui.session import Session
from holeplacer.gui.workers import Task

if TYPE_CHECKING:
    from holeplacer.cutting.division import Compared, Division
    from holeplacer.cutting.sheet_layout import SheetLayout
    from holeplacer.evaluation.layout import Layout
    from holeplacer.plan.plan import Plan
    from holeplacer.plan.seam import Seam
    from holeplacer.seams.choice import SeamChoice

Result = TypeVar("Result")

_REST_MS = 350
"""So long after a change sections are laid on sheets anew, while the stage is open."""

_KEPT = 6

_OF_SIGN = ("artwork", "reading", "offset_mm", "bosses", "holes", "sheet", "standoff", "sections")
_OF_DIVISION = (*_OF_SIGN, "seams", "laid")


class Divider(QObject):
    """Asks for seams, for the sections on sheets, and for the other ways to divide the sign.

    Attributes:
        changed: `working`, `failure`, `division`, `compared` or `choice` is another one.
        failure: Why there is nothing, or None.
    """

    changed = Signal()

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self._session = session
        self._shown = SectionsShown.of(session)
        self._task: Task[Any] | None = None
        self._proposing = False
        self._divisions: list[tuple[Plan, Division]] = []
        self._compared: tuple[Plan, tuple[Compared, ...]] | None = None
        self._choice: tuple[Plan, SeamChoice] | None = None
        self._given_up: Plan | None = None
        self.failure: HoleplacerError | None = None
        self._rest = QTimer(self)
        self._rest.setSingleShot(True)
        self._rest.setInterval(_REST_MS)
        self._rest.timeout.connect(self._due)
        session.opened.connect(self._forget)
        session.plan_changed.connect(self._plan_changed)
        session.layout_changed.connect(self._rest.start)
        session.busy_changed.connect(self._busy_changed)
        self._shown.changed.connect(self._rest.start)

    # --- what is known ---

    @property
    def working(self) -> bool:
        """Whether a worker is at it."""
        return self._task is not None and self._session.evaluator.running(self._task)

    @property
    def proposing(self) -> bool:
        """Whether seams are being proposed."""
        return self._proposing and self.working

    @property
    def division(self) -> Division | None:
        """Sections of the plan shown on their sheets, as long as it is unchanged."""
        plan = self._session.plan
        found = (_still(kept, plan, _OF_DIVISION) for kept in self._divisions)
        return next((made for made in found if made is not None), None)

    @property
    def last(self) -> Division | None:
        """The same, or that of the plan before, so that a view need not go blank."""
        return self._divisions[0][1] if self._divisions else None

    @property
    def compared(self) -> tuple[Compared, ...]:
        """The other ways to divide the sign, as long as they are the same."""
        return _still(self._compared, self._session.plan, _OF_SIGN) or ()

    @property
    def choice(self) -> SeamChoice | None:
        """The last proposal, as long as the plan has its seams and all it depends on."""
        found = _still(self._choice, self._session.plan, _OF_SIGN)
        plan = self._session.plan
        if found is None or plan is None or _places(plan.seams) != _places(found.seams):
            return None
        return found

    # --- acts ---

    def propose(self) -> None:
        """Propose seams; fixed ones stay."""
        found = self._laid_out()
        if found is None:
            return
        plan, layout = found

        def work(task: Task[SeamChoice]) -> SeamChoice:
            from holeplacer.seams import choice

            return choice.choose(
                plan,
                layout.outline,
                layout.axis,
                progress=task.report,
                cancelled=task.is_cancelled,
            )

        self._shown.look_at("", ())
        self._start("Proposing seams", work, lambda made: self._take(plan, made))
        self._proposing = True

    def take(self, name: str) -> None:
        """Divide the sign in one of the other ways."""
        from holeplacer.plan import edit

        plan = self._session.committed
        for item in self.compared:
            if item.way.name == name and plan is not None:
                divided = edit.with_seams(plan, item.way.seams)
                self._shown.look_at("", ())
                self._session.push(divided, f"Take the seams of the {name}")

    def lay_anew(self) -> None:
        """Lay sections on sheets anew, but for those that were put somewhere by hand."""
        from holeplacer.cutting import kept_layout

        plan = self._session.committed
        if plan is not None:
            self._given_up = None
            self._session.push(kept_layout.anew(plan), "Lay sections out anew")
            self._rest.start(0)

    def forget_hands(self) -> None:
        """Lay all sections on sheets anew, those placed by hand with the rest."""
        from holeplacer.plan import edit

        plan = self._session.committed
        if plan is not None:
            self._session.push(edit.with_laid(plan, ()), "Lay all sections out anew")

    def place_by_hand(self, layout: SheetLayout, section: int, text: str, gesture: int) -> None:
        """Keep a layout in which somebody moved a section."""
        from holeplacer.cutting import division, hand_layout, kept_layout

        plan = self._session.committed
        if plan is None:
            return
        own = kept_layout.by_hand(plan, layout) | {section}
        layout = hand_layout.without_empty_sheets(layout)
        moved = kept_layout.with_layout(plan, layout, own)
        made = division.Division(layout, division.figures(layout, moved), division.collided(layout))
        self._keep(moved, made)
        self._session.push(moved, text, gesture)
        self.changed.emit()

    def stop(self) -> None:
        """Stop the worker."""
        if self._task is not None:
            self._task.cancel()

    # --- in step with the session ---

    def _plan_changed(self) -> None:
        if self.working and not self._proposing and self.division is None:
            self.stop()  # what it is laying out is of an older plan
        self._rest.start()
        self.changed.emit()

    def _busy_changed(self) -> None:
        self.changed.emit()
        if not self._session.busy and not self._rest.isActive():
            self._rest.start()

    def _due(self) -> None:
        """Lay sections on sheets if they aren't, then weigh the other ways; one at a time."""
        plan, session = self._session.plan, self._session
        found = self._laid_out()
        if (
            not self._shown.open
            or session.evaluator.ended
            or found is None
            or plan is not session.committed
            or session.busy
            or not found[0].sections.stock
            or self._given_up is plan
        ):
            return
        if self.division is None:
            self._lay(*found)
        elif not self.compared:
            self._weigh(*found)

    def _keep(self, plan: Plan, made: Division) -> None:
        """The newest first, and a few before it, so that undo need not lay them out again."""
        self._divisions.insert(0, (plan, made))
        del self._divisions[_KEPT:]

    def _lay(self, plan: Plan, layout: Layout) -> None:
        def work(task: Task[Division]) -> Division:
            from holeplacer.cutting import division

            return division.division(
                plan, layout.outline, progress=task.report, cancelled=task.is_cancelled
            )

        def keep(made: Division) -> None:
            self._keep(plan, made)

        self._start("Laying sections on sheets", work, keep)

    def _weigh(self, plan: Plan, layout: Layout) -> None:
        def work(task: Task[tuple[Compared, ...]]) -> tuple[Compared, ...]:
            from holeplacer.cutting import division

            return division.compared(
                plan,
                layout.outline,
                layout.axis,
                progress=task.report,
                cancelled=task.is_cancelled,
            )

        def keep(made: tuple[Compared, ...]) -> None:
            self._compared = plan, made

        self._start("Weighing other divisions", work, keep)

    def _laid_out(self) -> tuple[Plan, Layout] | None:
        from holeplacer.gui.evaluator import same_outline

        plan, layout = self._session.committed, self._session.layout
        if plan is None or layout is None or self._session.problem is not None:
            return None
        return (plan, layout) if same_outline(plan, layout.plan) else None

    def _start(
        self, title: str, work: Callable[[Task[Result]], Result], then: Callable[[Result], None]
    ) -> None:
        self.failure = None
        self._proposing = False
        plan = self._session.committed

        def failed(error: HoleplacerError) -> None:
            self._failed(plan, error)

        self._task = self._session.evaluator.run(title, work, then, failed)
        self.changed.emit()

    def _take(self, plan: Plan, made: SeamChoice) -> None:
        from holeplacer.plan import edit

        if self._session.committed is not plan:
            self._session.notice.emit(
                "The plan changed while seams were being proposed; propose again."
            )
            return
        divided = edit.with_seams(plan, made.seams)
        self._choice = divided, made
        self._session.push(divided, "Propose seams")

    def _failed(self, plan: Plan | None, error: HoleplacerError) -> None:
        if plan is not self._session.committed:
            return
        self._given_up = plan
        if isinstance(error, Cancelled):
            self._session.notice.emit("Stopped; nothing was changed.")
        else:
            self.failure = error

    def _forget(self) -> None:
        self._divisions.clear()
        self._compared = self._choice = self._given_up = None
        self.failure = None
        self.changed.emit()


def _still(
    kept: tuple[Plan, Result] | None, plan: Plan | None, parts: tuple[str, ...]
) -> Result | None:
    """What was made for a plan, if another is the same in these parts."""
    if kept is None or plan is None:
        return None
    made_for, value = kept
    same = made_for is plan or all(getattr(made_for, part) == getattr(plan, part) for part in parts)
    return value if same else None


def _places(seams: Iterable[Seam]) -> set[tuple[float, float, float, float]]:
    return {(seam.x1_mm, seam.y1_mm, seam.x2_mm, seam.y2_mm) for seam in seams}
