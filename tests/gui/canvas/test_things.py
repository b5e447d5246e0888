"""What else than holes the canvas asks about."""

from PySide6.QtCore import QPointF, Qt

from holeplacer.gui.canvas.drag import Gesture
from tests.gui.canvas.conftest import Hand


class Recorded(Gesture):
    def __init__(self):
        self.moves, self.ended = 0, ""

    def move(self, at):
        self.moves += 1

    def commit(self, at):
        self.ended = "kept"

    def cancel(self):
        self.ended = "let go"


class Thing:
    """Says it is everywhere, and writes down what it is asked."""

    def __init__(self):
        self.gesture, self.asked = Recorded(), []

    def gesture_at(self, at):
        return self.gesture

    def hover_at(self, at):
        self.asked.append("hover" if at is not None else "gone")
        return True

    def select_at(self, at):
        self.asked.append("select")
        return True

    def add_at(self, at):
        self.asked.append("add")
        return True

    def nudge(self, across, up, *, fine):
        self.asked.append((across, up, fine))
        return True

    def step(self, by):
        self.asked.append(by)
        return True


def test_a_thing_takes_press_key_and_tab_where_no_hole_is(canvas, hand: Hand, session, qtbot):
    """Its gesture is driven to its end; arrows and Tab are its own while no hole is selected."""
    canvas.things = thing = Thing()
    start = hand.px((250.0, 100.0))
    hand.drag(start, start + QPointF(40, 0).toPoint())
    assert thing.gesture.moves >= 1
    assert thing.gesture.ended == "kept"
    qtbot.keyClick(canvas, Qt.Key.Key_Right, Qt.KeyboardModifier.ShiftModifier)
    qtbot.keyClick(canvas, Qt.Key.Key_Tab)
    assert thing.asked[-2:] == [(1, 0, True), 1]
    assert canvas.viewport().cursor().shape() is not Qt.CursorShape.CrossCursor


def test_a_hole_comes_first(canvas, hand: Hand, session):
    """Over a hole the press is the hole's."""
    canvas.things = thing = Thing()
    hand.click(hand.px((100.0, 100.0)))
    assert session.selected_holes == {1}
    assert thing.gesture.ended == ""
