"""The window takes dropped files and closes in good order."""

from pathlib import Path

import pytest
from PySide6.QtCore import QMimeData, QPoint, QPointF, Qt, QUrl
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import QApplication, QMessageBox

from holeplacer.gui.main_window import MainWindow
from holeplacer.plan import edit


def drop(window, *urls):
    """Drop these on a widget the way a file manager does; whether it or its window took them."""
    data = QMimeData()
    data.setUrls([QUrl(url) for url in urls])
    act, button = Qt.DropAction.CopyAction, Qt.MouseButton.LeftButton
    none = Qt.KeyboardModifier.NoModifier
    enter = QDragEnterEvent(QPoint(50, 50), act, data, button, none)
    enter.ignore()
    QApplication.sendEvent(window, enter)
    if enter.isAccepted():
        QApplication.sendEvent(window, QDropEvent(QPointF(50, 50), act, data, button, none))
    return enter.isAccepted()


def test_a_dropped_file_is_opened(window, bench, qtbot, sign_file):
    """One local file opens."""
    with qtbot.waitSignal(bench.session.opened, timeout=20_000):
        assert drop(window, QUrl.fromLocalFile(str(sign_file)).toString())
    assert bench.document.source == sign_file


def test_the_canvas_lets_a_file_through(window, opened, qtbot, sign_file):
    """Dropped on the sign that is open, the other file opens."""
    before = opened.session.plan
    assert drop(opened.canvas.viewport(), QUrl.fromLocalFile(str(sign_file)).toString())
    qtbot.waitUntil(lambda: opened.session.plan is not before, timeout=20_000)


@pytest.mark.parametrize("urls", [(), ("https://example.org/a.svg",), ("file:///a", "file:///b")])
def test_what_is_no_single_file_is_not_taken(window, urls):
    """Nothing, a web address, two files: refused while still over the window."""
    assert not drop(window, *urls)


def test_closing_asks_for_unsaved_changes(window, opened, answers):
    """Cancel keeps it open, Discard lets it go."""
    opened.session.push(edit.with_hole_added(opened.session.committed, 300, 100), "Add hole 1")
    answers.append(QMessageBox.StandardButton.Cancel)
    assert not window.close()
    assert window.isVisible()
    answers.append(QMessageBox.StandardButton.Discard)
    assert window.close()


def test_closing_remembers_and_tidies_up(window, opened, settings, tmp_path):
    """Place, parts and unit are kept; nothing is left to recover."""
    assert window.close()
    assert settings.value("window/place") is not None
    assert settings.value("window/parts") is not None
    assert settings.value("unit") == "mm"
    folder = tmp_path / "unsaved"
    assert not folder.exists() or list(folder.iterdir()) == []


def test_closing_before_the_workbench_is_there(qtbot, theme, settings):
    """A window closed in its first moment closes."""
    window = MainWindow(theme, settings, Path("unused"))
    qtbot.addWidget(window)
    window.show()
    assert window.close()


def test_furnish_once(window, bench):
    """The workbench is set up once."""
    assert window.furnish() is bench
