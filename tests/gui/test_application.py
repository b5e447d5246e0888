"""The application opens what it is given and ends with its window."""

import os
import subprocess
import sys

import pytest
from PySide6.QtCore import QSettings
from PySide6.QtWidgets import QMessageBox

from holeplacer.gui import application
from holeplacer.gui.theme import Choice
from holeplacer.plan import edit

RUN = """
import sys
from PySide6.QtCore import QTimer
from holeplacer.gui import application

def look(window):
    bench = window.workbench
    if bench.session.evaluation is not None:
        print(bench.document.name, len(bench.session.layout.outline.pieces))
        window.close()
    else:
        QTimer.singleShot(50, lambda: look(window))

begin = application.begin
def begin_and_look(window, arguments):
    begin(window, arguments)
    look(window)
application.begin = begin_and_look
sys.exit(application.run(sys.argv[1:]))
"""


def test_opens_the_file_it_is_given(tmp_path, sign_file):
    """A real process shows the sign, closes, ends with 0 and says nothing on stderr."""
    places = dict.fromkeys(("HOME", "XDG_CONFIG_HOME", "XDG_STATE_HOME"), str(tmp_path))
    done = subprocess.run(
        [sys.executable, "-c", RUN, str(sign_file)],
        env={**os.environ, **places, "QT_QPA_PLATFORM": "offscreen"},
        capture_output=True,
        text=True,
        timeout=60,
    )
    assert done.returncode == 0, done.stderr
    assert done.stdout.strip() == "sign.svg 2"
    noise = [line for line in done.stderr.splitlines() if "propagateSizeHints" not in line]
    assert noise == []


ASKED_TO_END = RUN.replace("window.close()", "os.kill(os.getpid(), number)").replace(
    "import sys", "import os, sys, signal", 1
)


@pytest.mark.parametrize("name", ["SIGINT", "SIGTERM"])
def test_ends_when_asked_from_outside(tmp_path, sign_file, name):
    """A signal from the terminal or the system ends it at once, in good order."""
    places = dict.fromkeys(("HOME", "XDG_CONFIG_HOME", "XDG_STATE_HOME"), str(tmp_path))
    done = subprocess.run(
        [sys.executable, "-c", ASKED_TO_END.replace("number", f"signal.{name}"), str(sign_file)],
        env={**os.environ, **places, "QT_QPA_PLATFORM": "offscreen"},
        capture_output=True,
        text=True,
        timeout=60,
    )
    assert done.returncode == 0, done.stderr


class Manager:
    """Stands for the system's session manager, which only the system can make."""

    def __init__(self, asks):
        self.asks, self.told = asks, []

    def allowsInteraction(self):  # noqa: N802 (Qt's name)
        return self.asks

    def release(self):
        self.told.append("release")

    def cancel(self):
        self.told.append("cancel")


def kept_plans(tmp_path):
    return list((tmp_path / "unsaved").glob("*/plan.holeplan"))


def test_a_logout_is_called_off_by_cancel(window, opened, answers):
    """The person is asked; Cancel keeps window and session."""
    opened.session.push(edit.with_hole_added(opened.session.committed, 300, 100), "Add hole 1")
    answers.append(QMessageBox.StandardButton.Cancel)
    manager = Manager(asks=True)
    application.end_session(window, manager)
    assert manager.told == ["release", "cancel"]
    assert window.isVisible()


def test_what_a_logout_gives_up_is_asked_for_once(window, opened, answers, tmp_path):
    """Discard lets the logout go on and leaves nothing; a later change is asked for again."""
    opened.session.push(edit.with_hole_added(opened.session.committed, 300, 100), "Add hole 1")
    answers.append(QMessageBox.StandardButton.Discard)
    manager = Manager(asks=True)
    application.end_session(window, manager)
    assert manager.told == ["release"]
    assert opened.document.modified
    assert kept_plans(tmp_path) == []
    opened.session.push(edit.with_hole_added(opened.session.committed, 400, 100), "Add hole 2")
    answers.append(QMessageBox.StandardButton.Cancel)
    assert not window.close()
    opened.session.undo_stack.undo()
    assert window.close()


def test_where_nothing_may_be_asked_changes_are_kept(window, opened, tmp_path):
    """They are on disk for the next start before the system goes on."""
    opened.session.push(edit.with_hole_added(opened.session.committed, 300, 100), "Add hole 1")
    manager = Manager(asks=False)
    application.end_session(window, manager)
    assert manager.told == []
    assert len(kept_plans(tmp_path)) == 1


def test_a_logout_of_an_unchanged_plan_asks_nothing(window, opened):
    """Nor does one before anything is set up."""
    manager = Manager(asks=True)
    application.end_session(window, manager)
    assert manager.told == ["release"]


def test_the_system_is_heeded(qapp, window):
    """A logout, and any other end, reaches the window."""
    signals = ("2commitDataRequest(QSessionManager&)", "2aboutToQuit()")
    before = [qapp.receivers(signal) for signal in signals]
    application.heed_session(qapp, window)
    assert [qapp.receivers(signal) for signal in signals] == [count + 1 for count in before]
    qapp.commitDataRequest.disconnect()
    qapp.aboutToQuit.disconnect(window.keep_unsaved)


@pytest.mark.parametrize(
    ("kept", "choice"),
    [("dark", Choice.DARK), ("light", Choice.LIGHT), ("", Choice.SYSTEM), ("pink", Choice.SYSTEM)],
)
def test_colours_of_last_time(tmp_path, kept, choice):
    """What was chosen is worn; what is unknown follows the system."""
    settings = QSettings(str(tmp_path / "settings.ini"), QSettings.Format.IniFormat)
    settings.setValue("theme", kept)
    assert application.chosen_theme(settings) is choice


def test_begin_offers_leftovers_and_opens(window, bench, qtbot, sign_file, monkeypatch):
    """What a crash left is offered before the file is opened."""
    order = []
    monkeypatch.setattr(type(bench), "offer_leftovers", lambda _self: order.append("leftovers"))
    monkeypatch.setattr(type(bench.files), "open_file", lambda _self, path: order.append(path))
    application.begin(window, [str(sign_file)])
    assert order == ["leftovers", sign_file]
