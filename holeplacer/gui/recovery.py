"""Recovery: keeps the unsaved plan on disk while the program runs, and finds it after a crash.

Each running window has a folder of its own with a lock. A folder whose lock nobody holds was
left by a program that ended without closing; what it kept is offered at the next start.
"""

from __future__ import annotations

import json
import secrets
import shutil
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import (
    QLockFile,
    QObject,
    QSaveFile,
    QStandardPaths,
    QTimer,
    Signal,
)

from holeplacer.gui.document import Document
from holeplacer.gui.session import Session
from holeplacer.gui.workers import Task, Workers, only_ours

if TYPE_CHECKING:
    from holeplacer.plan.plan import Plan

_PLAN, _NOTE, _LOCK = "plan.holeplan", "note.json", "lock"
_PAUSE_MS = 2000


@dataclass(frozen=True)
class Leftover:
    """A plan that was not saved when a program ended.

    Attributes:
        folder: Where it is kept.
        name: What the document was called.
        path: The plan file it belongs to, if it had one.
    """

    folder: Path
    name: str
    path: Path | None


def default_folder() -> Path:
    """Where the system keeps the state of programs."""
    place = QStandardPaths.StandardLocation.StateLocation
    return Path(QStandardPaths.writableLocation(place)) / "unsaved"


class Recovery(QObject):
    """Writes the plan two seconds after each change, off the window's thread.

    Attributes:
        failed: The plan can't be kept: the sentence to tell, once.
    """

    failed = Signal(str)

    def __init__(self, session: Session, document: Document, folder: Path | None = None) -> None:
        super().__init__(session)
        self._session, self._document = session, document
        self._root = folder if folder is not None else default_folder()
        self._own = self._root / secrets.token_hex(8)
        self._lock: QLockFile | None = None
        self._workers = Workers(self, most_threads=1)
        self._told = False
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(_PAUSE_MS)
        self._timer.timeout.connect(self.keep)
        session.plan_changed.connect(self._changed)
        document.changed.connect(self._changed)

    @property
    def folder(self) -> Path:
        """This window's own folder."""
        return self._own

    def leftovers(self) -> tuple[Leftover, ...]:
        """Plans of programs that ended without closing, newest first.

        Each one found is locked to this window, so that a second window does not offer it too.
        """
        if not self._root.is_dir():
            return ()
        found = []
        for folder in self._root.iterdir():
            plan = folder / _PLAN
            if folder == self._own or not plan.is_file():
                continue
            lock = _lock(folder)
            if lock.tryLock(0):
                lock.unlock()
                found.append((plan.stat().st_mtime, _leftover(folder)))
        found.sort(key=lambda pair: pair[0], reverse=True)
        return tuple(leftover for _, leftover in found)

    def recover(self, leftover: Leftover) -> None:
        """Go on with what was kept; its folder goes once this window keeps the plan itself.

        Raises:
            PlanFileError: What was kept can't be read.
        """
        from holeplacer.plan import plan_file

        plan = plan_file.plan_from_bytes((leftover.folder / _PLAN).read_bytes(), leftover.name)
        self._document.recover(plan, leftover.path)
        self.keep()
        self._workers.wait()
        self.discard(leftover)

    def discard(self, leftover: Leftover) -> None:
        """Throw away what was kept."""
        shutil.rmtree(leftover.folder, ignore_errors=True)

    def keep(self) -> None:
        """Write the plan now if it is unsaved, or forget it if it is saved."""
        plan = self._session.committed
        if plan is None or not self._document.modified:
            self._forget()
            return
        note = {"name": self._document.name, "path": str(self._document.path or "")}
        self._workers.start(
            Task(
                "Keeping the plan",
                lambda _task: self._write(plan, note),
                done=lambda _none: None,
                failed=self._tell,
            )
        )

    def keep_now(self) -> None:
        """Write at once what the pause after a change still holds back; return when it is written.

        Once the window has closed there is nothing more to keep.
        """
        if self._timer.isActive():
            self._timer.stop()
            self.keep()
        self._workers.wait()

    def let_go(self) -> None:
        """Forget what is kept: the person gave it up. A further change is kept again."""
        self._timer.stop()
        self._workers.wait()
        self._forget()

    def close(self) -> None:
        """The window closes in good order: nothing is left behind."""
        self._timer.stop()
        self._workers.wait()
        if self._lock is not None:
            self._lock.unlock()
            self._lock = None
        shutil.rmtree(self._own, ignore_errors=True)

    def _changed(self) -> None:
        self._timer.start()

    def _forget(self) -> None:
        for name in (_PLAN, _NOTE):
            (self._own / name).unlink(missing_ok=True)

    def _write(self, plan: Plan, note: dict[str, str]) -> None:
        from holeplacer.plan import plan_file

        self._own.mkdir(parents=True, exist_ok=True)
        if self._lock is None:
            self._lock = _lock(self._own)
            self._lock.tryLock(0)
        _save(self._own / _NOTE, json.dumps(note).encode())
        _save(self._own / _PLAN, plan_file.plan_bytes(plan))

    def _tell(self, error: Exception) -> None:
        reason = error if isinstance(error, OSError) else only_ours(error)
        if not self._told:
            self._told = True
            self.failed.emit(f"Unsaved changes can't be kept for a crash: {reason}")


def _lock(folder: Path) -> QLockFile:
    lock = QLockFile(str(folder / _LOCK))
    lock.setStaleLockTime(0)  # only a dead process makes it stale, never its age
    return lock


def _leftover(folder: Path) -> Leftover:
    try:
        note = json.loads((folder / _NOTE).read_text(encoding="utf-8"))
        name, path = str(note["name"]), str(note["path"])
    except (OSError, ValueError, KeyError, TypeError):
        name, path = "unnamed plan", ""
    return Leftover(folder, name, Path(path) if path else None)


def _save(path: Path, data: bytes) -> None:
    file = QSaveFile(str(path))
    if not (
        file.open(QSaveFile.OpenModeFlag.WriteOnly)
        and file.write(data) == len(data)
        and file.commit()
    ):
        raise OSError(file.errorString())
