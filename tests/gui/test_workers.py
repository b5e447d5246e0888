"""Work runs off the window's thread; what it tells arrives on it; it can be stopped."""

import threading
import time

import pytest
from PySide6.QtCore import QObject

from holeplacer.errors import Cancelled, InputError
from holeplacer.gui import workers
from holeplacer.gui.workers import Task, Workers


class Told:
    """All that a task tells, with the thread it is told on."""

    def __init__(self, work):
        self.progress, self.results, self.errors, self.threads = [], [], [], set()
        self.ended = 0
        self.task = Task(
            "Working",
            work,
            done=self._note(self.results.append),
            failed=self._note(self.errors.append),
            told=self._note(lambda *step: self.progress.append(step)),
            ended=self._note(self._end),
        )

    def _note(self, call):
        def noted(*told):
            self.threads.add(threading.get_ident())
            call(*told)

        return noted

    def _end(self):
        self.ended += 1


@pytest.fixture
def pool(qapp):
    parent = QObject()
    made = Workers(parent)
    yield made
    assert made.wait(10_000)
    parent.deleteLater()


@pytest.fixture
def run(pool, qtbot):
    def run(work, *, then=lambda _task: None):
        told = Told(work)
        pool.start(told.task)
        then(told.task)
        qtbot.waitUntil(lambda: told.ended, timeout=10_000)
        return told

    return run


def test_result_arrives_on_the_windows_thread(run):
    """The work runs elsewhere, what it gives arrives here."""
    told = run(lambda _task: threading.get_ident())
    assert told.results != [threading.get_ident()]
    assert told.threads == {threading.get_ident()}
    assert told.ended == 1


def test_progress_is_passed_on(run):
    """Each report arrives, in order, before the end."""

    def work(task):
        for step in range(10):
            task.report(step / 10, f"step {step}")

    assert run(work).progress == [(step / 10, f"step {step}") for step in range(10)]


def test_can_be_stopped(run):
    """A task that looks at its flag ends with `Cancelled`, not with a result."""

    def work(task):
        while not task.is_cancelled():
            time.sleep(0.001)
        return "too late"

    told = run(work, then=lambda task: task.cancel())
    assert told.results == []
    assert isinstance(told.errors[0], Cancelled)


def test_an_error_is_carried_over(run):
    """An error of the person's input arrives as it was raised."""
    error = InputError("too thin")

    def work(_task):
        raise error

    assert run(work).errors == [error]
    assert workers.only_ours(error) is error


def test_the_programs_own_faults_are_raised():
    """Anything but an error of our tree is raised again, never swallowed."""
    with pytest.raises(ZeroDivisionError):
        workers.only_ours(ZeroDivisionError())


def test_end_is_told_even_if_the_result_chokes(pool, qtbot):
    """A fault in taking the result does not leave the task running for ever."""
    ended = []

    def choke(_result):
        raise ZeroDivisionError

    task = Task("Choking", lambda _task: 1, done=choke, failed=pytest.fail,
                ended=lambda: ended.append(True))  # fmt: skip
    with qtbot.captureExceptions() as raised:
        pool.start(task)
        qtbot.waitUntil(lambda: bool(ended))
    assert raised[0][0] is ZeroDivisionError


def test_a_window_that_is_gone_is_no_fault(qapp):
    """A worker that ends after its window does so quietly."""
    parent = QObject()
    pool = Workers(parent)
    pool.wait()
    del parent
    pool.post(lambda: None)
