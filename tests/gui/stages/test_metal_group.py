"""A metal's figures: where they come from, and what becomes of changed ones."""

import pytest

from holeplacer.units import LengthUnit


@pytest.fixture
def group(sheet_stage):
    sheet_stage.figures.unfold.setChecked(True)
    return sheet_stage.figures


def test_figures_come_with_their_source(group):
    """Source, shear modulus, and by name which are from memory."""
    said = group._source.text()
    assert "Shear modulus 78000 MPa" in said
    assert "AISI S100" in said
    assert "From memory, verify: density, elastic modulus, Poisson's ratio" in said
    assert "expansion," not in said.split("verify")[1]


def test_a_changed_figure_makes_the_metal_ones_own(group, session, type_in, refresh, sheet_stage):
    """It goes into the plan by value, as one step, under a name of its own."""
    type_in(group._fields["yield_mpa"], "33 ksi")
    own = session.plan.sheet.own_metal
    assert own.name == session.plan.sheet.metal == "own steel"
    assert own.yield_mpa == pytest.approx(227.5, abs=0.1)
    assert session.plan.sheet.gauge == 16
    assert session.undo_stack.undoText() == "Set yield stress to 227.5 MPa"
    refresh(sheet_stage)
    assert sheet_stage._metal.currentText() == "own steel"
    assert "yield stress" not in group._source.text().split("verify")[1]
    session.undo_stack.undo()
    assert session.plan.sheet.own_metal is None


def test_an_impossible_figure_is_told_in_place(group, session, type_in):
    """The plan stays as it was."""
    type_in(group._fields["ultimate_mpa"], "100 MPa")
    assert session.plan.sheet.own_metal is None
    assert session.undo_stack.count() == 0


def test_figures_follow_the_unit(group, session, refresh, sheet_stage):
    """Inches go with ksi, pounds and Fahrenheit."""
    session.set_unit(LengthUnit.INCH)
    refresh(sheet_stage)
    shown = [field.text() for field in group._fields.values()]
    assert shown == ["490.1 lb/ft³", "29442.7 ksi", "0.3", "6.5e-6 /F", "33.1 ksi", "52.1 ksi"]


def test_kept_renamed_and_forgotten(group, session, stock, type_in, refresh, sheet_stage):
    """An own metal is offered in every later job until it is forgotten."""
    type_in(group._fields["density_kg_m3"], "7800")
    refresh(sheet_stage)
    type_in(group.keeping.field, "yard steel")
    assert session.plan.sheet.metal == "yard steel"
    refresh(sheet_stage)
    group.keeping.keep.click()
    assert [item.name for item in stock.metals()] == ["yard steel"]
    refresh(sheet_stage)
    assert group.keeping._row.note.text() == "kept for later jobs"
    group.keeping.forget.click()
    assert stock.metals() == ()


def test_a_name_of_the_table_is_refused(group, session, type_in, refresh, sheet_stage):
    """Two metals of one name would be mixed up."""
    type_in(group._fields["density_kg_m3"], "7800")
    refresh(sheet_stage)
    type_in(group.keeping.field, "brass")
    assert session.plan.sheet.metal == "own steel"
    assert "the table's name" in group.keeping._row.error.text()


def test_zinc_is_told(sheet_stage, group, session, refresh):
    """Of galvanized sheet a part of the thickness carries nothing."""
    from holeplacer.sheet import metal

    sheet_stage._metal.chosen.emit(metal.metal("galvanized"))
    refresh(sheet_stage)
    assert "zinc and carries nothing" in group._source.text()


def test_another_design_family(group, session):
    """Whose strength rules it is held to is a choice like any figure."""
    group._family.chosen.emit("stainless")
    assert session.plan.sheet.own_metal.family == "stainless"
