"""A held seam slides along; one drag is one step."""

import pytest
from PySide6.QtCore import QPoint

from holeplacer.gui.canvas.drag import Pointer
from holeplacer.gui.canvas.seam_commands import SeamCommands
from holeplacer.gui.canvas.seam_drag import SeamDrag


@pytest.fixture
def commands(session):
    made = SeamCommands(session)
    made.add((240.0, 100.0))
    session.select_seams(())
    return made


def drag(session, commands, start=(240.0, 100.0), **keys):
    def carry(seam, press, at):
        x, y = seam.middle_mm
        place = (x + at.place[0] - press.place[0], y + at.place[1] - press.place[1])
        return commands.across(place, fixed=seam.fixed)

    return SeamDrag(session, 0, carry, at(start, **keys))


def at(place, **keys):
    return Pointer(place, QPoint(round(place[0]), round(place[1])), **keys)


def test_one_drag_is_one_step(session, commands):
    """Shown all the way, kept at the end, undone at once."""
    steps = session.undo_stack.count()
    gesture = drag(session, commands)
    assert session.selected_seams == {0}
    for x in (250.0, 280.0, 300.0):
        gesture.move(at((x, 104.0)))
        assert session.plan.seams[0].middle_mm[0] == pytest.approx(x, abs=0.1)
        assert session.committed.seams[0].middle_mm[0] == pytest.approx(240.0, abs=0.1)
    gesture.commit(at((300.0, 104.0)))
    assert session.committed.seams[0].middle_mm[0] == pytest.approx(300.0, abs=0.1)
    assert session.undo_stack.count() == steps + 1
    assert session.undo_stack.undoText() == "Move seam 1"


def test_cancelled_everything_is_as_before(session, commands):
    """No step, no preview."""
    before = session.committed
    gesture = drag(session, commands)
    gesture.move(at((300.0, 100.0)))
    gesture.cancel()
    assert session.plan is before is session.committed


def test_a_press_only_selects(session, commands):
    """Without a move there is no step; with Ctrl it joins or leaves the selection."""
    before = session.committed
    drag(session, commands).commit(at((240.0, 101.0)))
    assert session.committed is before
    assert session.selected_seams == {0}
    drag(session, commands, adds=True)
    assert session.selected_seams == frozenset()


def test_a_step_made_meanwhile_counts(session, commands):
    """A seam deleted by a key while it is held stays deleted."""
    gesture = drag(session, commands)
    gesture.move(at((300.0, 100.0)))
    commands.delete()
    gesture.move(at((320.0, 100.0)))
    gesture.commit(at((320.0, 100.0)))
    assert session.committed.seams == ()
