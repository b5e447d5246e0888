"""Steps that need no held pointer."""

import pytest

from holeplacer.gui.canvas import hole_commands
from holeplacer.gui.canvas.hole_commands import HoleCommands
from holeplacer.units import LengthUnit


@pytest.fixture
def commands(session):
    return HoleCommands(session, session)


def place(session, number):
    return next((h.x_mm, h.y_mm) for h in session.plan.holes if h.number == number)


def test_a_hole_is_added_on_the_axis_beside_the_place(session, commands):
    """It gets the next number and is selected."""
    assert commands.add((200.0, 113.0), free=False) == 6
    assert place(session, 6) == pytest.approx((200.0, 100.0))
    assert session.selected_holes == {6}
    assert session.undo_stack.undoText() == "Add hole 6"


def test_a_free_hole_is_added_exactly_there(session, commands):
    """Off the axis, even off the metal: a finding then, not a correction."""
    commands.add((200.0, 113.0), free=True)
    assert place(session, 6) == (200.0, 113.0)
    commands.add((200.0, 300.0), free=True)
    assert place(session, 7) == (200.0, 300.0)


def test_without_metal_nothing_is_added_and_it_says_why(session, commands, qtbot):
    """One line for the status bar."""
    with qtbot.waitSignal(session.notice) as told:
        assert commands.add((200.0, 300.0), free=False) is None
    assert "no metal" in told.args[0]
    assert len(session.plan.holes) == 5


def test_deleting_is_one_step_and_says_so(session, commands, qtbot):
    """Undo, not a question, protects it."""
    session.select_holes({1, 4})
    with qtbot.waitSignal(session.notice):
        commands.delete()
    assert [hole.number for hole in session.plan.holes] == [2, 3, 5]
    assert session.undo_stack.undoText() == "Delete 2 holes"
    session.undo_stack.undo()
    assert len(session.plan.holes) == 5


def test_fixing_turns_to_freeing_once_all_are_fixed(session, commands):
    """Mixed selections are fixed first."""
    session.select_holes({1, 2})
    commands.toggle_fixed()
    assert commands.all_fixed
    assert session.undo_stack.undoText() == "Fix 2 holes"
    commands.toggle_fixed()
    assert not any(hole.fixed for hole in session.plan.holes)
    assert session.undo_stack.undoText() == "Free 2 holes"


@pytest.mark.parametrize(
    ("unit", "fine", "step"),
    [
        (LengthUnit.MM, False, 1.0), (LengthUnit.MM, True, 0.1),
        (LengthUnit.INCH, False, 25.4 / 16), (LengthUnit.INCH, True, 25.4 / 64),
    ],
)  # fmt: skip
def test_a_nudge_is_one_step_of_the_unit_shown(session, commands, unit, fine, step):
    """1 mm or 1/16 in; fine 0.1 mm or 1/64 in, exactly level and upright."""
    session.set_unit(unit)
    session.select_holes({1})
    commands.nudge(1, 0, fine=fine)
    commands.nudge(0, -1, fine=fine)
    assert place(session, 1) == pytest.approx((100.0 + step, 100.0 - step), abs=1e-12)


def test_a_run_of_nudges_is_one_step(session, commands):
    """Ten presses, one undo."""
    session.select_holes({1})
    for _ in range(10):
        commands.nudge(1, 0, fine=False)
    assert session.undo_stack.count() == 1
    session.undo_stack.undo()
    assert place(session, 1) == (100.0, 100.0)


def test_other_holes_another_step_or_a_pause_end_a_run(session, commands, monkeypatch):
    """Each begins a step of its own."""
    session.select_holes({1})
    commands.nudge(1, 0, fine=False)
    session.select_holes({2})
    commands.nudge(1, 0, fine=False)
    assert session.undo_stack.count() == 2
    commands.toggle_fixed()
    commands.nudge(1, 0, fine=False)
    assert session.undo_stack.count() == 4
    now = hole_commands.time.monotonic()
    monkeypatch.setattr(hole_commands.time, "monotonic", lambda: now + 60.0)
    commands.nudge(1, 0, fine=False)
    assert session.undo_stack.count() == 5


def test_stepping_goes_by_number_and_ends(session, commands, qtbot):
    """From none to the first, through all, past the last False; each is brought into view."""
    with qtbot.waitSignal(session.place_shown) as shown:
        assert commands.step(1)
    assert shown.args == [100.0, 100.0]
    for number in (2, 3, 4, 5):
        assert commands.step(1)
        assert session.selected_holes == {number}
    assert not commands.step(1)
    assert commands.step(-1)
    assert session.selected_holes == {4}


def test_renumbering_goes_from_left_to_right(session, commands):
    """Hole 4 of x 395 becomes 3."""
    commands.renumber()
    xs = [hole.x_mm for hole in session.plan.holes]
    assert xs == sorted(xs)
    assert session.undo_stack.undoText() == "Number holes from left to right"


def test_with_nothing_selected_nothing_happens(session, commands):
    """No empty steps."""
    commands.delete()
    commands.toggle_fixed()
    commands.nudge(1, 0, fine=False)
    assert session.undo_stack.count() == 0
    assert not commands.all_fixed


def test_all_can_be_selected(session, commands):
    """Every number."""
    commands.select_all()
    assert session.selected_holes == {1, 2, 3, 4, 5}
