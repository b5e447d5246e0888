"""Work off the window's thread: one task with progress, an end and a way to stop it."""

from __future__ import annotations

import threading
from collections.abc import Callable
from typing import Any

from PySide6.QtCore import QObject, QRunnable, Qt, QThreadPool, Signal

from holeplacer.errors import Cancelled, HoleplacerError

Work = Callable[["Task"], Any]
"""What a task does; it may call `task.report(share, text)` and `task.is_cancelled()`."""


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
    _reported = Signal(float, str)
    _outcome = Signal(object, object)

    def __init__(self, title: str, work: Work, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.title = title
        self._work = work
        self._stop = threading.Event()
        # Bound methods of an object of the window's thread: queued, whoever emits.
        self._reported.connect(self._pass_on, Qt.ConnectionType.QueuedConnection)
        self._outcome.connect(self._end, Qt.ConnectionType.QueuedConnection)

    def start(self, pool: QThreadPool) -> None:
        """Hand it to a thread of the pool."""
        pool.start(_Run(self))

    def cancel(self) -> None:
        """Ask it to stop; it ends with `Cancelled` at its next look."""
        self._stop.set()

    def is_cancelled(self) -> bool:
        """Whether it was asked to stop."""
        return self._stop.is_set()

    def report(self, share: float, text: str) -> None:
        """Tell how far it is; called on the worker's thread."""
        self._reported.emit(share, text)

    def run(self) -> None:
        """Do the work; called on the worker's thread."""
        try:
            result = self._work(self)
            if self.is_cancelled():
                raise Cancelled(f"{self.title} was stopped")
        except Exception as error:  # noqa: BLE001 (carried to the window's thread, raised there)
            self._outcome.emit(None, error)
        else:
            self._outcome.emit(result, None)

    def _pass_on(self, share: float, text: str) -> None:
        self.progressed.emit(share, text)

    def _end(self, result: object, error: Exception | None) -> None:
        try:
            if error is None:
                self.finished.emit(result)
            else:
                self.failed.emit(error)
        finally:
            self.ended.emit()


def only_ours(error: Exception) -> HoleplacerError:
    """The error if it is one a person can act on; any other is the program's fault and raised."""
    if not isinstance(error, HoleplacerError):
        raise error
    return error


class _Run(QRunnable):
    """Qt's handle of a task; keeps the task alive while a thread works on it."""

    def __init__(self, task: Task) -> None:
        super().__init__()
        self._task = task

    def run(self) -> None:
        self._task.run()
