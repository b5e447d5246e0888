"""Gestures, driven without a view."""

import pytest
from PySide6.QtCore import QPoint

from holeplacer.gui.canvas.drag import BandSelection, HoleDrag, Pan, Pointer, named
from holeplacer.plan import edit


def at(x, y, **held):
    return Pointer((float(x), float(y)), QPoint(round(x), round(y)), **held)


def carried(held, start, now):
    """Freely by the pointer's way."""
    dx, dy = now.place[0] - start.place[0], now.place[1] - start.place[1]
    return {number: (x + dx, y + dy) for number, (x, y) in held.items()}


def dragged(session, number, start, *moves):
    gesture = HoleDrag(session, number, carried, start)
    for move in moves:
        gesture.move(move)
    return gesture


def place(session, number):
    return next((h.x_mm, h.y_mm) for h in session.plan.holes if h.number == number)


def test_a_drag_previews_and_commits_one_step(session):
    """Many moves, one step, named; undo gives back the identical plan."""
    before = session.committed
    gesture = dragged(session, 1, at(100, 100), *(at(100 + k, 100) for k in range(1, 41)))
    assert place(session, 1) == (140.0, 100.0)
    assert session.committed is before
    assert session.undo_stack.count() == 0
    gesture.commit(at(150, 100))
    assert place(session, 1) == (150.0, 100.0)
    assert session.undo_stack.count() == 1
    assert session.undo_stack.undoText() == "Move hole 1"
    session.undo_stack.undo()
    assert session.committed is before


def test_another_step_meanwhile_counts_and_the_drag_does_not(session):
    """Undo by key while the button is held: nothing undone comes back by letting go."""
    session.push(edit.without_hole(session.plan, 5), "Delete hole 5")
    gesture = dragged(session, 1, at(100, 100), at(140, 100))
    session.undo_stack.undo()
    gesture.move(at(150, 100))
    gesture.commit(at(160, 100))
    assert len(session.plan.holes) == 5
    assert place(session, 1) == (100.0, 100.0)
    assert not session.undo_stack.canUndo()


def test_cancelling_leaves_no_trace(session):
    """Plan and stack are as before."""
    before = session.plan
    dragged(session, 1, at(100, 100), at(160, 130)).cancel()
    assert session.plan is before
    assert session.undo_stack.count() == 0


def test_a_drag_back_to_its_start_is_no_step(session):
    """Nothing changed, nothing to undo."""
    dragged(session, 1, at(100, 100), at(160, 130), at(100, 100)).commit(at(100, 100))
    assert session.undo_stack.count() == 0


def test_a_press_that_hardly_moves_is_a_click(session):
    """Two pixels of trembling select the hole and leave it where it is."""
    dragged(session, 2, at(380, 100), at(381, 101)).commit(at(381, 101))
    assert session.selected_holes == {2}
    assert place(session, 2) == (380.0, 100.0)
    assert session.undo_stack.count() == 0


def test_selected_holes_move_together(session):
    """One step for the group."""
    session.select_holes({1, 3})
    dragged(session, 3, at(640, 100), at(650, 104)).commit(at(650, 104))
    assert place(session, 1) == (110.0, 104.0)
    assert place(session, 3) == (650.0, 104.0)
    assert place(session, 2) == (380.0, 100.0)
    assert session.undo_stack.undoText() == "Move 2 holes"


def test_an_unselected_hole_moves_alone(session):
    """Pressing it selects it instead of the others."""
    session.select_holes({1, 3})
    dragged(session, 2, at(380, 100), at(390, 100)).commit(at(390, 100))
    assert session.selected_holes == {2}
    assert place(session, 1) == (100.0, 100.0)


def test_a_click_on_one_of_several_selects_it_alone(session):
    """As lists do; the press itself must keep the group for a drag."""
    session.select_holes({1, 3})
    dragged(session, 3, at(640, 100)).commit(at(640, 100))
    assert session.selected_holes == {3}


def test_control_adds_and_takes_away(session):
    """A click with Ctrl toggles."""
    dragged(session, 1, at(100, 100, adds=True)).commit(at(100, 100, adds=True))
    dragged(session, 2, at(380, 100, adds=True)).commit(at(380, 100, adds=True))
    assert session.selected_holes == {1, 2}
    dragged(session, 1, at(100, 100, adds=True)).commit(at(100, 100, adds=True))
    assert session.selected_holes == {2}


def banded(session, start, end, **held):
    shown = []
    gesture = BandSelection(session, at(*start, **held), lambda a, b: shown.append((a, b)))
    gesture.move(at(*end, **held))
    return gesture, shown


def test_a_band_selects_what_it_encloses(session):
    """While it is drawn, and taken away when it ends."""
    gesture, shown = banded(session, (50, 50), (500, 150))
    assert session.selected_holes == {1, 2}
    assert shown == [((50.0, 50.0), (500.0, 150.0))]
    gesture.commit(at(500, 150))
    assert shown[-1][0] is None
    assert session.selected_holes == {1, 2}


def test_a_band_with_control_adds(session):
    """What was selected stays."""
    session.select_holes({5})
    banded(session, (50, 50), (500, 150), adds=True)
    assert session.selected_holes == {1, 2, 5}


def test_a_cancelled_band_gives_the_selection_back(session):
    """As before the press."""
    session.select_holes({5})
    gesture, _ = banded(session, (50, 50), (500, 150))
    gesture.cancel()
    assert session.selected_holes == {5}


def test_a_click_on_nothing_selects_nothing(session):
    """Unless it was to add."""
    session.select_holes({5})
    BandSelection(session, at(0, 0, adds=True), lambda a, b: None).commit(at(0, 0, adds=True))
    assert session.selected_holes == {5}
    BandSelection(session, at(0, 0), lambda a, b: None).commit(at(0, 0))
    assert session.selected_holes == frozenset()


def test_a_pan_goes_the_pointers_way_and_back(qapp):
    """Cancelled, the view is where it was."""
    went = []
    gesture = Pan(went.append, at(10, 10))
    gesture.move(at(30, 15))
    gesture.move(at(60, 40))
    assert sum(went, QPoint()) == QPoint(50, 30)
    gesture.cancel()
    assert sum(went, QPoint()) == QPoint(0, 0)


@pytest.mark.parametrize(("numbers", "name"), [([7], "Move hole 7"), ([1, 2, 9], "Move 3 holes")])
def test_steps_are_named_in_plain_words(numbers, name):
    """One hole by its number, several by their count."""
    assert named("Move", numbers) == name
