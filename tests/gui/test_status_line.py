"""The last line says place, zoom, counts and work in progress."""

import threading

import pytest
from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtWidgets import QApplication, QLabel

from holeplacer.gui.session import Session
from holeplacer.gui.status_line import StatusLine
from holeplacer.plan import edit
from holeplacer.units import LengthUnit


@pytest.fixture
def session(qtbot):
    made = Session()
    yield made
    assert made.evaluator.wait(10_000)


@pytest.fixture
def line(session, qtbot):
    made = StatusLine(session)
    qtbot.addWidget(made)
    made.show()
    return made


def texts(line):
    return " | ".join(label.text() for label in line.findChildren(QLabel) if label.isVisible())


def test_place_in_the_unit_shown(line, session):
    """Both coordinates bear their unit."""
    line.show_place(25.4, -12.7)
    assert "x 25.4 mm   y -12.7 mm" in texts(line)
    session.set_unit(LengthUnit.INCH)
    line.show_place(25.4, -12.7)
    assert "x 1 in   y -1/2 in" in texts(line)
    line.forget_place()
    assert "x 1 in" not in texts(line)


def test_zoom_is_relative_to_true_size(line):
    """Hundred per cent is life size on a screen that tells the truth."""
    line.show_scale(line.logicalDpiX() / 25.4)
    assert "zoom 100 %" in texts(line)


def test_notice_is_shown(line, session):
    """What just happened is said."""
    session.notice.emit("Saved sign.holeplan.")
    assert line.currentMessage() == "Saved sign.holeplan."


def test_unit_button_switches(line, session, qtbot):
    """One click goes to inches, another back."""
    button = line._unit
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)
    assert session.unit is LengthUnit.INCH
    assert button.text() == "inches"
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)
    assert session.unit is LengthUnit.MM


def test_work_is_shown_and_can_be_stopped(line, session, qtbot):
    """While a task runs its name, its progress and Stop are there."""
    begun = threading.Event()

    def work(task):
        task.report(0.5, "Halfway")
        begun.set()
        while not task.is_cancelled():
            begun.wait(0.001)

    session.evaluator.run("Waiting", work, pytest.fail, lambda _error: None)
    qtbot.waitUntil(lambda: "Halfway" in texts(line))
    assert line._bar.value() == 500
    qtbot.mouseClick(line._stop, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: not line._bar.isVisible())
    assert "Halfway" not in texts(line)


def test_counts_by_sign_and_word(opened):
    """Holes and findings are counted; a sign stands beside the word."""
    _, bottom, _, top = opened.session.layout.outline.pieces[0].bounds_mm
    plan = edit.with_hole_added(opened.session.committed, 300, (bottom + top) / 2)
    opened.session.push(plan, "Add hole 1")
    counts = opened.status._counts.text()
    assert counts.startswith("1 hole   ▲ ")
    assert counts.endswith("findings")


def test_the_pointer_lays_nothing_out(line, qtbot):
    """Labels keep their size whatever they say, so that a move costs one label's painting."""
    QApplication.processEvents()
    asked = []

    class Watch(QObject):
        def eventFilter(self, watched, event):  # noqa: N802 (Qt's name)
            if event.type() is QEvent.Type.LayoutRequest:
                asked.append(watched)
            return False

    watch = Watch()
    line.installEventFilter(watch)
    line.show_place(1.0, 2.0)
    line.show_place(12345.67, -12345.67)
    QApplication.processEvents()
    assert not asked
