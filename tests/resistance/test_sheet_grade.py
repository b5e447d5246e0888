"""Sheet grades."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.errors import InputError
from holeplacer.loads.loading import DESIGN_METHODS
from holeplacer.resistance import (
    bearing,
    net_section,
    pull_over,
    pull_over_with_shear,
    sheet_grade,
    tear_out,
)
from holeplacer.resistance.hole_place import HolePlace
from holeplacer.resistance.sheet_grade import SheetGrade
from holeplacer.sheet.metal import metal


def test_zinc_carries_nothing():
    """A galvanized sheet counts by its steel."""
    made = sheet_grade.of_metal(metal("galvanized"), 1.613, "asd")
    assert 1.4 < made.thickness_mm < 1.6
    assert made.ultimate_mpa == metal("galvanized").ultimate_mpa


def test_a_sheet_that_is_all_zinc_is_refused():
    """Nothing left to carry load is said in one sentence."""
    with pytest.raises(InputError, match="the sheet's thickness in mm is 0; give a number above"):
        sheet_grade.of_metal(metal("galvanized"), 0.01, "asd")


@pytest.mark.parametrize("field", ["thickness_mm", "yield_mpa", "ultimate_mpa"])
def test_no_sheet_without_strength(field):
    """Nought and negative figures are refused."""
    figures = {"thickness_mm": 1.5, "yield_mpa": 228.0, "ultimate_mpa": 359.0, field: 0.0}
    with pytest.raises(InputError, match="is 0; give a number above 0"):
        SheetGrade("steel", "asd", **figures)


def test_unknown_family_is_refused():
    """A family without rules is."""
    with pytest.raises(InputError, match="no rules for 'tin'"):
        SheetGrade("tin", "asd", 1.5, 228.0, 359.0)


def test_strength_from_memory_is_said_beside_it():
    """The metal's own status stands in its figure's meaning."""
    made = sheet_grade.of_metal(metal("steel"), 1.519, "asd")
    assert "yield_mpa" in made.from_memory
    assert made.given_yield("Fy").meaning == "yield stress of the sheet, from memory, verify"
    entered = SheetGrade("steel", "asd", 1.5, 228.0, 359.0)
    assert entered.given_yield("Fy").meaning == "yield stress of the sheet"


def test_thick_steel_goes_by_the_rules_of_thick_steel():
    """From 3/16 in AISC 360 counts for the holes of steel, not for other metals or methods."""
    assert SheetGrade("steel", "asd", 4.76, 228, 359).connection_rules == "aisi-s100"
    assert SheetGrade("steel", "asd", 4.77, 228, 359).connection_rules == "aisc-360"
    assert SheetGrade("aluminium", "asd", 6.0, 228, 359).connection_rules == "adm"
    assert SheetGrade("steel", "en", 6.0, 228, 359).connection_rules == "en-1993-1-3"


def every_limit_state(made, place):
    """All utilisations of a sheet at one hole by kind of check, under the same forces."""
    width, cap = 5 * place.hole_mm, 2 * place.hole_mm
    stroke = {"width_mm": width, "hole_mm": place.hole_mm}
    both = {"shear_n": 90.0, "tension_n": 120.0, "pressed_mm": cap}
    return {
        "bending": net_section.check_bending(made, moment_nmm=900.0, torque_nmm=300.0, **stroke),
        "rupture": net_section.check_rupture(made, tension_n=50.0, stud_mm=place.stud_mm, **stroke),
        "bearing": max(bearing.check(made, place, 90.0), key=lambda item: item.utilisation),
        "tear-out": tear_out.check(made, place, 90.0),
        "pull-over": pull_over.check(made, 120.0, pressed_mm=cap, hole_mm=place.hole_mm),
        "both": pull_over_with_shear.check(made, place, **both),
    }


@pytest.mark.parametrize("thickness", [1.0, 1.5, 4.0, 6.0])
@pytest.mark.parametrize("method", DESIGN_METHODS)
@pytest.mark.parametrize("family", ["steel", "stainless", "aluminium", "copper"])
def test_every_figure_is_told_apart(family, method, thickness):
    """No check gives two figures under one symbol, and each is said in words with its formula."""
    made = SheetGrade(family, method, thickness, 228.0, 359.0)
    for item in every_limit_state(made, HolePlace(6.35, 7.144, 12.0)).values():
        symbols = [figure.symbol for figure in item.inputs]
        assert len(set(symbols)) == len(symbols), item.check
        assert all(figure.meaning for figure in item.inputs)
        assert item.formula
        assert item.source
        assert item.status in {"P", "R", "M"}


@pytest.mark.parametrize("method", DESIGN_METHODS)
@pytest.mark.parametrize("family", ["steel", "stainless", "aluminium", "copper"])
@settings(max_examples=25, deadline=None)
@given(st.floats(0.4, 8), st.floats(1.0, 2.0), st.floats(4, 12), st.floats(1.0, 4.0))
def test_thicker_sheet_is_never_weaker(family, method, thickness, more, stud, edge):
    """Across all clauses and where one takes over from another, no gauge more is a step down."""
    place = HolePlace(stud, 1.1 * stud, edge * stud)
    thin, thick = (
        every_limit_state(SheetGrade(family, method, t, 228.0, 359.0), place)
        for t in (thickness, thickness * more)
    )
    for name, item in thin.items():
        assert thick[name].utilisation <= item.utilisation * (1 + 1e-9), name
