"""Finish: from the table or entered, and what it takes from a hole."""

from holeplacer.units import LengthUnit


def test_a_finish_brings_its_thickness(sheet_stage, session, refresh):
    """Name and thickness in one step; the source and what it takes stand below."""
    group = sheet_stage.finish
    group.choice.chosen.emit("powder")
    assert (session.plan.sheet.finish, session.plan.sheet.finish_mm) == ("powder", 0.075)
    assert session.undo_stack.undoText() == "Finish with powder coat"
    refresh(sheet_stage)
    assert group.thickness.text() == "75 µm"
    assert group._thickness_row.note.text() == "takes 0.15 mm from every hole"
    assert "from memory, verify" in group._row.note.text()


def test_an_entered_thickness_is_ones_own(sheet_stage, session, type_in, refresh):
    """In mils or micrometres, as painters measure it."""
    group = sheet_stage.finish
    type_in(group.thickness, "4 mil")
    assert (session.plan.sheet.finish, session.plan.sheet.finish_mm) == ("entered", 0.1016)
    session.set_unit(LengthUnit.INCH)
    refresh(sheet_stage)
    assert group.thickness.text() == "4 mil"
    assert "measure" in group._row.note.text()


def test_an_impossible_thickness_is_refused_in_place(sheet_stage, session, type_in):
    """Ten millimetres is no finish."""
    type_in(sheet_stage.finish.thickness, "10 mm")
    assert session.plan.sheet.finish == "bare"
    assert "not possible" in sheet_stage.finish._thickness_row.error.text()
