"""What else than holes stands on the ribbon, as the ribbon asks for it."""

import pytest
from PySide6.QtCore import QObject, QPoint, Qt, Signal


class Recorder(QObject):
    """Wants every key, has nothing under any pixel, and remembers what it was asked."""

    held_changed = Signal(int)

    def __init__(self, parent):
        super().__init__(parent)
        self.asked = []

    def paint(self, painter, base_px, colours, exposed):
        self.asked.append("paint")

    def tick_at(self, px):
        return None

    def gesture_at(self, at):
        return None

    def lines(self, gesture):
        return ()

    def hover_at(self, px):
        self.asked.append("hover" if px is not None else "gone")
        return False

    def select_at(self, px):
        return False

    def add_at(self, px):
        self.asked.append("add")
        return True

    def slide(self, by, *, fine):
        self.asked.append(("slide", by, fine))
        return True

    def step(self, by):
        self.asked.append(("step", by))
        return True


@pytest.fixture
def others(view):
    view.seams = Recorder(view)
    return view.seams


def test_they_are_painted_with_the_ribbon(view, others):
    """On every picture of it."""
    view.grab()
    assert "paint" in others.asked


def test_keys_are_theirs_while_no_hole_is_selected(view, others, session, qtbot):
    """Arrows and Tab; a selected hole goes before them."""
    session.select_holes(())
    qtbot.keyClick(view, Qt.Key.Key_Right)
    assert ("slide", 1, False) in others.asked
    view.focusNextPrevChild(True)
    assert ("step", 1) in others.asked
    others.asked.clear()
    session.select_holes({1})
    qtbot.keyClick(view, Qt.Key.Key_Right)
    assert not others.asked


def test_the_pointer_is_told_of_between_holes(view, others, qtbot):
    """A double click beside every tick is offered to them first."""
    qtbot.mouseDClick(view.viewport(), Qt.MouseButton.LeftButton, pos=QPoint(400, 60))
    assert "add" in others.asked
