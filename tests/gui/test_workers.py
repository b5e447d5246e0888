"""Work runs off the window's thread; its signals arrive on it; it can be stopped."""

import threading
import time

import pytest
from PySide6.QtCore import QThreadPool

from holeplacer.errors import Cancelled, InputError
from holeplacer.gui import workers
from holeplacer.gui.workers import Task


@pytest.fixture
def pool(qapp):
    made = QThreadPool()
    yield made
    assert made.waitForDone(10_000)


def test_result_arrives_on_the_windows_thread(qtbot, pool):
    """The work runs elsewhere, what it gives arrives here."""
    here, seen = threading.get_ident(), {}
    task = Task("Adding", lambda _task: threading.get_ident())
    task.finished.connect(lambda there: seen.update(worker=there, slot=threading.get_ident()))
    with qtbot.waitSignal(task.ended):
        task.start(pool)
    assert seen["worker"] != here
    assert seen["slot"] == here


def test_progress_is_passed_on(qtbot, pool):
    """Each report arrives, in order, before the end."""
    told = []

    def work(task):
        for step in range(10):
            task.report(step / 10, f"step {step}")

    task = Task("Counting", work)
    task.progressed.connect(lambda share, text: told.append((share, text)))
    with qtbot.waitSignal(task.ended):
        task.start(pool)
    assert told == [(step / 10, f"step {step}") for step in range(10)]


def test_can_be_stopped(qtbot, pool):
    """A task that looks at its flag ends with `Cancelled`."""

    def work(task):
        while not task.is_cancelled():
            time.sleep(0.001)
        return "too late"

    task = Task("Waiting", work)
    with qtbot.assertNotEmitted(task.finished), qtbot.waitSignal(task.failed) as told:
        task.start(pool)
        task.cancel()
    assert isinstance(told.args[0], Cancelled)


def test_an_error_is_carried_over(qtbot, pool):
    """An error of the person's input arrives as it was raised."""
    error = InputError("too thin")

    def work(_task):
        raise error

    task = Task("Failing", work)
    with qtbot.waitSignal(task.failed) as told:
        task.start(pool)
    assert told.args[0] is error
    assert workers.only_ours(error) is error


def test_the_programs_own_faults_are_raised():
    """Anything but an error of our tree is raised again, never swallowed."""
    with pytest.raises(ZeroDivisionError):
        workers.only_ours(ZeroDivisionError())
