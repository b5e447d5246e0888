"""A real window with settings of its own, and a small sign open in it."""

import gc
from pathlib import Path

import pytest
from PySide6.QtCore import QSettings
from PySide6.QtWidgets import QApplication, QMessageBox

from holeplacer.gui.main_window import MainWindow
from holeplacer.gui.theme import Choice, Theme

SIGN = """<svg xmlns="http://www.w3.org/2000/svg" width="600mm" height="200mm"
  viewBox="0 0 600 200">
  <path d="M0 80 H600 V120 H0 Z"/>
  <path d="M40 150 H300 V160 H40 Z"/>
</svg>
"""
"""A bar 600 x 40 mm that takes holes, and one 260 x 10 mm too thin for any."""

UNITLESS = SIGN.replace(' width="600mm" height="200mm"', "")
"""The same without a physical size."""


@pytest.fixture
def theme(qapp):
    """A light theme; colours and scheme are as before afterwards."""
    made = Theme(qapp, Choice.LIGHT)
    yield made
    made.choose(Choice.SYSTEM)
    made.deleteLater()


@pytest.fixture
def settings(tmp_path):
    """Settings in a file of this test."""
    return QSettings(str(tmp_path / "settings.ini"), QSettings.Format.IniFormat)


@pytest.fixture
def answers(monkeypatch):
    """What questions are answered with, in order; an unexpected one fails the test."""
    given: list[QMessageBox.StandardButton] = []

    def question(*_args):
        assert given, "a question that was not expected"
        return given.pop(0)

    monkeypatch.setattr(QMessageBox, "question", question)
    return given


@pytest.fixture
def window(qtbot, theme, settings, tmp_path, answers):
    """The window on the screen, set up, nothing open."""
    made = MainWindow(theme, settings, tmp_path / "unsaved")
    qtbot.addWidget(made, before_close_func=_give_up)
    with qtbot.waitExposed(made):
        made.show()
    made.furnish()
    yield made
    _give_up(made)
    made.close()
    QApplication.processEvents()
    gc.collect()


def _give_up(window: MainWindow) -> None:
    """What is open may go without a question."""
    bench = window.workbench
    if bench is not None:
        bench.session.evaluator.wait(30_000)
        bench.session.undo_stack.setClean()


@pytest.fixture
def bench(window):
    """All parts of the window."""
    return window.workbench


@pytest.fixture
def sign_file(tmp_path) -> Path:
    """The small sign as a file."""
    path = tmp_path / "sign.svg"
    path.write_text(SIGN, encoding="utf-8")
    return path


@pytest.fixture
def opened(bench, qtbot, sign_file):
    """The parts of the window with the small sign open and laid out."""
    bench.files.open_file(sign_file)
    qtbot.waitUntil(lambda: bench.session.evaluation is not None, timeout=20_000)
    return bench
