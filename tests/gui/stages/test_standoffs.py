"""Hardware from the table or one's own, and the hole that fits it."""

import pytest

from holeplacer.standoffs import standoff


@pytest.fixture
def stage(opened, qtbot):
    opened.rail.setCurrentRow(2)
    made = opened.stages[2]
    qtbot.waitUntil(lambda: made._size.count() > 5)
    return made


def test_a_size_enters_all_its_parts(stage, opened):
    """Choosing a row takes stud, hole, barrel, cap, washer and projection."""
    wanted = standoff.standoff("25 mm, M6 stud")
    stage._size.chosen.emit(wanted.name)
    chosen = opened.session.plan.standoff
    for part in ("name", "stud_mm", "hole_mm", "barrel_mm", "cap_mm", "washer_mm"):
        assert getattr(chosen, part) == getattr(wanted, part)
    assert opened.session.undo_stack.undoText() == "Take standoff 25 mm, M6 stud"


def test_a_part_changed_by_hand_is_ones_own(stage, opened, qtbot):
    """Another hole makes the size `own`; the list says so."""
    stage._rows["hole_mm"].entry.stepBy(1)
    assert opened.session.plan.standoff.name == "own"
    assert opened.session.plan.standoff.hole_mm == 7.5
    qtbot.waitUntil(lambda: stage._size.currentText() == "own size")


def test_own_size_keeps_the_parts(stage, opened):
    """Choosing `own` changes the name alone."""
    before = opened.session.plan.standoff
    stage._size.chosen.emit("own")
    after = opened.session.plan.standoff
    assert after.name == "own"
    assert after.hole_mm == before.hole_mm


def test_fits_stand_beside_the_hole(stage, qtbot):
    """Normal fit beside the hole, all three with their source below."""
    assert "7.14 mm" in stage._rows["hole_mm"].note.text()
    assert "ASME B18.2.8" in stage._fits.text()
