"""Work off the window's thread: one task with progress, an end and a way to stop it."""

from __future__ import annotations

import contextlib
import threading
from collections.abc import Callable
from typing import Any, Generic, TypeVar

from PySide6.QtCore import QObject, QRunnable, Qt, QThreadPool, Signal

from holeplacer.errors import Cancelled, HoleplacerError

Result = TypeVar("Result")


class Workers(QObject):
    """Threads of their own, and the way back from them to the window's thread.

    Tasks are plain values, not Qt objects: nothing of Qt's is ever let go of on another thread.
    """

    _posted = Signal(object)

    def __init__(self, parent: QObject, most_threads: int = 2) -> None:
        super().__init__(parent)
        self._pool = QThreadPool(self)
        self._pool.setMaxThreadCount(most_threads)
        self._posted.connect(self._call, Qt.ConnectionType.QueuedConnection)

    def start(self, task: Task[Any]) -> None:
        """Hand a task to a thread."""
        self._pool.start(_Run(task, self))

    def wait(self, milliseconds: int = -1) -> bool:
        """Wait until no thread works any more; what they gave arrives after that."""
        return self._pool.waitForDone(milliseconds)

    def post(self, call: Callable[[], object]) -> None:
        """Have something called on the window's thread; any thread may ask."""
        with contextlib.suppress(RuntimeError):  # the window is gone: nobody is left to be told
            self._posted.emit(call)

    def _call(self, call: Callable[[], object]) -> None:
        call()


class Task(Generic[Result]):
    """One piece of work. What it tells is called on the window's thread.

    Attributes:
        title: What is being done.
    """

    def __init__(
        self,
        title: str,
        work: Callable[[Task[Result]], Result],
        *,
        done: Callable[[Result], object],
        failed: Callable[[Exception], object],
        told: Callable[[float, str], object] | None = None,
        ended: Callable[[], object] | None = None,
    ) -> None:
        """Describe it; `Workers.start` starts it.

        Args:
            title: What is being done.
            work: Does it; may call `report` and `is_cancelled`.
            done: Called with the result.
            failed: Called with the error: `Cancelled` if it was stopped; if the program itself
                is at fault, the exception as it was raised.
            told: Called with the share done, 0 to 1, and what is being done.
            ended: Called after `done` or `failed`.
        """
        self.title = title
        self._work, self._done, self._failed = work, done, failed
        self._told, self._ended = told, ended
        self._stop = threading.Event()
        self._workers: Workers | None = None

    def cancel(self) -> None:
        """Ask it to stop; it ends with `Cancelled` at its next look."""
        self._stop.set()

    def is_cancelled(self) -> bool:
        """Whether it was asked to stop."""
        return self._stop.is_set()

    def report(self, share: float, text: str) -> None:
        """Tell how far it is; called on the worker's thread."""
        told = self._told
        if told is not None and self._workers is not None:
            self._workers.post(lambda: told(share, text))

    def run(self, workers: Workers) -> None:
        """Do the work; called on the worker's thread."""
        self._workers = workers
        try:
            result = self._work(self)
            if self.is_cancelled():
                raise Cancelled(f"{self.title} was stopped")
        except Exception as error:  # noqa: BLE001 (carried to the window's thread, told there)
            raised = error
            workers.post(lambda: self._end(lambda: self._failed(raised)))
        else:
            workers.post(lambda: self._end(lambda: self._done(result)))

    def _end(self, tell: Callable[[], object]) -> None:
        try:
            tell()
        finally:
            if self._ended is not None:
                self._ended()


def only_ours(error: Exception) -> HoleplacerError:
    """The error if it is one a person can act on; any other is the program's fault and raised."""
    if not isinstance(error, HoleplacerError):
        raise error
    return error


class _Run(QRunnable):
    """Qt's handle of a task."""

    def __init__(self, task: Task[Any], workers: Workers) -> None:
        super().__init__()
        self._task, self._workers = task, workers

    def run(self) -> None:
        self._task.run(self._workers)
