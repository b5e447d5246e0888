"""Work off the window's thread: one task with progress, an end and a way to stop it."""

from __future__ import annotations

import threading
from collections.abc import Callable
from typing import Any

from PySide6.QtCore import QObject, QRunnable, QThreadPool, Signal

from holeplacer.errors import Cancelled, HoleplacerError

Work = Callable[["Task"], Any]
"""What a task does; it may call `task.progress(share, text)` and `task.is_cancelled()`."""


class Task(QObject):
    """One piece of work and its signals, which arrive on the window's thread.

    Attributes:
        progressed: Share done, 0 to 1, and what is being done.
        finished: The result.
        failed: A `HoleplacerError`, `Cancelled` if it was stopped; or, where the program itself
            is at fault, the exception as it was raised.
        ended: After either of these.
    """

    progressed = Signal(float, str)
    finished = Signal(object)
    failed = Signal(object)
    ended = Signal()

    def __init__(self, title: str, work: Work, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.title = title
        self._work = work
        self._stop = threading.Event()

    def start(self, pool: QThreadPool) -> None:
        """Hand it to a thread of the pool."""
        pool.start(_Run(self))

    def cancel(self) -> None:
        """Ask it to stop; it ends with `Cancelled` at its next look."""
        self._stop.set()

    def is_cancelled(self) -> bool:
        """Whether it was asked to stop."""
        return self._stop.is_set()

    def progress(self, share: float, text: str) -> None:
        """Tell how far it is; called on the worker's thread."""
        self.progressed.emit(share, text)

    def run(self) -> None:
        """Do the work; called on the worker's thread."""
        try:
            result = self._work(self)
            if self.is_cancelled():
                raise Cancelled(f"{self.title} was stopped")
        except HoleplacerError as error:
            self.failed.emit(error)
        except Exception as error:  # noqa: BLE001 (carried to the window's thread, raised there)
            self.failed.emit(error)
        else:
            self.finished.emit(result)
        self.ended.emit()


class _Run(QRunnable):
    """Qt's handle of a task; keeps the task alive while a thread works on it."""

    def __init__(self, task: Task) -> None:
        super().__init__()
        self._task = task

    def run(self) -> None:
        self._task.run()
