"""What the sign weighs, both ways, and where it balances."""

from dataclasses import replace

from holeplacer.units import LengthUnit


def test_both_masses_and_the_balance(sheet_stage, session):
    """By density and by gauge, each piece with its place; holes are out of the area."""
    from holeplacer.evaluation import sign_mass

    mass = sign_mass.sign_mass(session.plan, session.layout.outline)
    said = sheet_stage.mass.said.text()
    assert f"{mass.mass_kg:.2f} kg by density" in said
    assert "7850 kg/m³ (from memory, verify)" in said
    assert f"{mass.nominal_kg:.2f} kg by the gauge's nominal weight" in said
    assert f"Balances at x {mass.centre_mm[0]:.1f} mm" in said
    assert "Piece 3:" in said


def test_finish_and_pounds(sheet_stage, session, refresh):
    """Finish is told apart; inches go with pounds."""
    sheet = replace(session.committed.sheet, finish="powder", finish_mm=0.075)
    session.push(replace(session.committed, sheet=sheet), "Finish")
    session.set_unit(LengthUnit.INCH)
    refresh(sheet_stage)
    assert "lb of it is finish on both faces" in sheet_stage.mass.said.text()


def test_without_a_nominal_weight_only_density(sheet_stage, session, refresh):
    """An entered thickness is no gauge."""
    sheet = replace(session.committed.sheet, gauge=None)
    session.push(replace(session.committed, sheet=sheet), "Enter")
    refresh(sheet_stage)
    assert "nominal" not in sheet_stage.mass.said.text()
