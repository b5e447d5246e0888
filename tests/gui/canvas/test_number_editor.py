"""A hole's number, typed in place."""

import pytest
from PySide6.QtCore import QPoint, Qt

from holeplacer.gui.canvas.number_editor import NumberEditor


@pytest.fixture
def editor(canvas, session):
    found = canvas.viewport().findChild(NumberEditor)
    session.select_holes({2})
    canvas.edit_number()
    return found


def test_it_opens_at_the_hole_with_its_number_selected(canvas, editor):
    """Ready to be typed over."""
    assert editor.isVisible()
    assert editor.selectedText() == "2"
    hole = canvas.mapFromScene(380.0, 100.0)
    assert (editor.geometry().bottomLeft() - hole).manhattanLength() < 40


def test_enter_takes_the_number_and_swaps(session, editor, qtbot):
    """Hole 2 becomes 5, hole 5 becomes 2, one step; it stays selected."""
    editor.setText("5")
    qtbot.keyClick(editor, Qt.Key.Key_Return)
    assert not editor.isVisible()
    places = {hole.number: hole.x_mm for hole in session.plan.holes}
    assert (places[5], places[2]) == (380.0, 896.0)
    assert session.selected_holes == {5}
    assert session.undo_stack.undoText() == "Number hole 2 as 5"


def test_escape_leaves_it_as_it_was(session, editor, qtbot):
    """No step."""
    editor.setText("9")
    qtbot.keyClick(editor, Qt.Key.Key_Escape)
    assert not editor.isVisible()
    assert session.undo_stack.count() == 0


@pytest.mark.parametrize("typed", ["0", "", "-", "x"])
def test_what_is_no_number_is_not_taken(session, editor, qtbot, typed):
    """Enter does nothing until it is one."""
    editor.clear()
    qtbot.keyClicks(editor, typed)
    qtbot.keyClick(editor, Qt.Key.Key_Return)
    assert session.undo_stack.count() == 0
    assert editor.isVisible()


def test_several_holes_have_no_one_number(canvas, session):
    """It does not open."""
    session.select_holes({1, 2})
    canvas.edit_number()
    assert not canvas.viewport().findChild(NumberEditor).isVisible()


def test_pressing_elsewhere_leaves_it(canvas, editor, hand):
    """The canvas takes the focus; nothing is numbered."""
    editor.setText("9")
    editor.clearFocus()
    hand.click(QPoint(5, 5))
    assert not editor.isVisible()
