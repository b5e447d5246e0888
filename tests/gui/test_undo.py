"""Steps are named, merged by gesture, and give back the very plan."""

import pytest
from PySide6.QtGui import QUndoStack

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.gui.undo import PlanCommand
from holeplacer.plan import edit
from holeplacer.plan.plan import Plan


class Shown:
    def __init__(self, plan):
        self.plan = plan

    def show_plan(self, plan):
        self.plan = plan


@pytest.fixture
def plan():
    return edit.with_hole_added(Plan(ArtworkFile("a.svg", b"<svg/>")), 10, 20)


def push(stack, shown, plan, text, gesture=None):
    stack.push(PlanCommand(shown, shown.plan, plan, text, gesture))


def test_undo_gives_the_identical_plan(qapp, plan):
    """Undo and redo show the same objects, not copies."""
    stack, shown = QUndoStack(), Shown(plan)
    moved = edit.with_hole_moved(plan, 1, 30, 20)
    push(stack, shown, moved, "Move hole 1")
    assert stack.undoText() == "Move hole 1"
    stack.undo()
    assert shown.plan is plan
    stack.redo()
    assert shown.plan is moved


def test_one_gesture_is_one_step(qapp, plan):
    """Five hundred steps of one drag are undone at once."""
    stack, shown = QUndoStack(), Shown(plan)
    for step in range(1, 501):
        push(stack, shown, edit.with_hole_moved(plan, 1, 10 + step, 20), "Move hole 1", 7)
    assert stack.count() == 1
    stack.undo()
    assert shown.plan is plan


def test_other_gestures_stay_apart(qapp, plan):
    """Steps of another gesture, or of none, are steps of their own."""
    stack, shown = QUndoStack(), Shown(plan)
    for x, gesture in ((11, 1), (12, 1), (13, 2), (14, None), (15, None)):
        push(stack, shown, edit.with_hole_moved(plan, 1, x, 20), "Move hole 1", gesture)
    assert stack.count() == 4


def test_there_and_back_leaves_no_step(qapp, plan):
    """A gesture that ends where it began is no step, and the document stays clean."""
    stack, shown = QUndoStack(), Shown(plan)
    push(stack, shown, edit.with_hole_moved(plan, 1, 11, 20), "Move hole 1", 3)
    push(stack, shown, edit.with_hole_moved(plan, 1, 10, 20), "Move hole 1", 3)
    assert stack.count() == 0
    assert stack.isClean()
    assert shown.plan == plan
