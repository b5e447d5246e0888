"""Document: the file behind the session. Opens, saves, tells whether something is unsaved."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject, Signal

from holeplacer import resources
from holeplacer.errors import Cancelled, HoleplacerError
from holeplacer.gui.session import Session
from holeplacer.gui.workers import Task

if TYPE_CHECKING:
    from holeplacer.plan.plan import Plan

PLAN_SUFFIX = ".holeplan"
DEMO = ("demo", "thistledown.svg")


class Document(QObject):
    """Where the plan came from and where it is saved.

    Attributes:
        changed: Another name, or saved, or unsaved again.
        failed: A file can't be opened or saved: the error to tell.
        was_opened: A file was opened or saved: its path, for the recent files.
    """

    changed = Signal()
    failed = Signal(object)
    was_opened = Signal(object)

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self._session = session
        self._path: Path | None = None
        self._source: Path | None = None
        session.undo_stack.cleanChanged.connect(self._clean_changed)

    @property
    def path(self) -> Path | None:
        """The plan file; None before the first save."""
        return self._path

    @property
    def source(self) -> Path | None:
        """The file that was opened: artwork or plan; None for the demo and what was recovered."""
        return self._source

    @property
    def name(self) -> str:
        """What the document is called."""
        if self._path is not None:
            return self._path.name
        plan = self._session.plan
        return plan.artwork.name if plan is not None else ""

    @property
    def modified(self) -> bool:
        """Whether something would be lost by closing."""
        return not self._session.undo_stack.isClean()

    def open(self, path: Path) -> None:
        """Open artwork or a plan; `failed` tells if it can't be."""
        if path.suffix.casefold() == PLAN_SUFFIX:
            self.open_plan(path)
        else:
            self.open_artwork(path)

    def open_artwork(self, path: Path) -> None:
        """Begin a new plan with this artwork, read by a worker."""

        def work(_task: Task[Any]) -> Plan:
            from holeplacer.artwork import source
            from holeplacer.plan import plan

            return plan.Plan(artwork=source.load_file(path))

        self._open(path, work, None)

    def open_plan(self, path: Path) -> None:
        """Open a plan file, read by a worker."""

        def work(_task: Task[Any]) -> Plan:
            from holeplacer.plan import plan_file

            return plan_file.load_plan(path)

        self._open(path, work, path)

    def open_demo(self) -> None:
        """Begin a new plan with the demo artwork."""
        self.open_artwork(resources.resource_path(*DEMO))

    def recover(self, plan: Plan, path: Path | None) -> None:
        """Go on with a plan that was kept when the program ended without saving."""
        self._begin(plan, path, path)
        self._session.undo_stack.resetClean()
        self.changed.emit()

    def save(self, path: Path) -> bool:
        """Save the plan; False if it could not be, which `failed` tells."""
        from holeplacer.plan import plan_file

        plan = self._session.committed
        if plan is None:
            return False
        try:
            plan_file.save_plan(plan, path)
        except HoleplacerError as error:
            self.failed.emit(error)
            return False
        self._path = self._source = path
        self._session.undo_stack.setClean()
        self.was_opened.emit(path)
        self.changed.emit()
        return True

    def _open(self, path: Path, work: Callable[[Task[Plan]], Plan], plan_path: Path | None) -> None:
        def opened(plan: Plan) -> None:
            self._begin(plan, plan_path, path)
            if path != resources.resource_path(*DEMO):
                self.was_opened.emit(path)

        def failed(error: HoleplacerError) -> None:
            if not isinstance(error, Cancelled):
                self.failed.emit(error)

        self._session.evaluator.run(f"Opening {path.name}", work, opened, failed)

    def _begin(self, plan: Plan, path: Path | None, source: Path | None) -> None:
        self._path, self._source = path, source
        self._session.start(plan)
        self._session.undo_stack.setClean()
        self.changed.emit()

    def _clean_changed(self, _clean: bool) -> None:
        self.changed.emit()
