"""Hardware part by part, and sizes of one's own."""

import pytest

from holeplacer.standoffs import standoff


@pytest.fixture
def group(standoffs_stage):
    return standoffs_stage.hardware


def test_a_size_enters_all_its_parts(group, session):
    """Choosing a row takes every part of it; the fit stays as decided."""
    wanted = standoff.standoff("25 mm, M6 stud")
    group.size.chosen.emit(wanted.name)
    chosen = session.plan.standoff
    for part in vars(wanted):
        assert getattr(chosen, part) == getattr(wanted, part)
    assert session.undo_stack.undoText() == "Take standoff 25 mm, M6 stud"


def test_a_part_changed_by_hand_is_ones_own(group, session, refresh, standoffs_stage):
    """Another cap makes the size `own`; the list says so."""
    group.rows["cap_mm"].entry.stepBy(1)
    assert (session.plan.standoff.name, session.plan.standoff.cap_mm) == ("own", 13.0)
    refresh(standoffs_stage)
    assert group.size.currentText() == "own size"


def test_what_presses_follows_cap_and_washer_until_entered(
    group, session, refresh, standoffs_stage, type_in
):
    """The empty field shows what would bear; an entered diameter takes its place."""
    field = group.rows["bearing_mm"].entry
    assert field.lineEdit().placeholderText() == "12.7 mm"
    group.rows["washer_mm"].entry.stepBy(30)
    refresh(standoffs_stage)
    assert field.lineEdit().placeholderText() == "15 mm"
    field.stepBy(1)
    assert session.plan.standoff.pressed_mm == 0.5


def test_head_and_material(group, session, refresh, standoffs_stage):
    """Another head brings its usual diameter, and its warning; a material its strength."""
    group.head.chosen.emit("countersunk")
    assert session.plan.standoff.cap_mm == pytest.approx(12.065)
    refresh(standoffs_stage)
    assert "knife edge" in group._head_row.note.text()
    group.material.chosen.emit("stainless-70")
    refresh(standoffs_stage)
    assert "yield 450 MPa, tensile 700 MPa; from memory, verify" in group._material_row.note.text()


def test_the_thread_is_told(group):
    """Root of the stud's coarse thread, beside the stud."""
    assert "root of a 1/4 in coarse thread 4.79 mm" in group.rows["stud_mm"].note.text()


def test_own_sizes_are_kept_offered_and_forgotten(
    group, session, stock, refresh, standoffs_stage, type_in
):
    """Named, kept for later jobs, taken from the list, forgotten."""
    group.rows["projection_mm"].entry.stepBy(40)
    refresh(standoffs_stage)
    type_in(group.keeping.field, "long ones")
    refresh(standoffs_stage)
    group.keeping.keep.click()
    (kept,) = stock.standoffs()
    assert (kept.name, kept.projection_mm) == ("long ones", pytest.approx(65.0, abs=1.0))
    group.size.chosen.emit("1 in, 1/4 stud")
    refresh(standoffs_stage)
    assert not group.keeping.keep.isVisible()
    group.size.chosen.emit("long ones")
    assert session.plan.standoff.projection_mm == kept.projection_mm
    refresh(standoffs_stage)
    assert not group.keeping.keep.isEnabled()
    group.keeping.forget.click()
    assert stock.standoffs() == ()
    assert session.plan.standoff.name == "long ones"


def test_own_size_keeps_the_parts(group, session):
    """Choosing `own` changes the name alone."""
    before = session.plan.standoff
    group.size.chosen.emit("own")
    assert session.plan.standoff.name == "own"
    assert session.plan.standoff.hole_mm == before.hole_mm


def test_an_unnamed_size_is_not_kept(group, session, stock, refresh, standoffs_stage, type_in):
    """It needs a name, and one that is not the table's."""
    group.size.chosen.emit("own")
    refresh(standoffs_stage)
    group.keeping.keep.click()
    assert stock.standoffs() == ()
    assert "another name" in group.keeping._row.error.text()
    type_in(group.keeping.field, "25 mm, M6 stud")
    assert session.plan.standoff.name == "own"
