"""Net section."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.errors import InputError
from holeplacer.resistance import bending, net_section
from holeplacer.resistance.sheet_grade import SheetGrade

STEEL = SheetGrade("steel", "asd", 1.5, 228.0, 359.0)
STROKE = {"width_mm": 30.0, "hole_mm": 7.0}


def test_bending_by_what_the_hole_leaves():
    """6 M/(W - d0) t^2 and N/(W - d0) t, without Kt, which is shown."""
    result = net_section.check_bending(STEEL, moment_nmm=1000.0, tension_n=-50.0, **STROKE)
    assert result.demand == pytest.approx(6000 / (23 * 2.25) + 50 / (23 * 1.5))
    assert result.resistance == pytest.approx(228 / 1.67)
    (kt,) = [item.value for item in result.inputs if item.symbol == "Kt"]
    assert 1.4 < kt < 1.9
    assert f"Kt = {kt:.2f}" in result.note


def test_torsion_is_shared_by_both_bands():
    """Half the torsion in each, joined to the bending stress as sqrt(σ^2 + 3 τ^2)."""
    result = net_section.check_bending(STEEL, moment_nmm=0.0, torque_nmm=800.0, **STROKE)
    each = bending.strip_torsion_mpa(400.0, 11.5, 1.5)
    assert result.demand == pytest.approx(math.sqrt(3) * each)


def test_a_hole_as_wide_as_the_stroke_fails():
    """Nothing beside the hole: infinitely used under load, no division by zero, and said."""
    result = net_section.check_bending(STEEL, width_mm=7.0, hole_mm=7.0, moment_nmm=1.0)
    assert result.utilisation == math.inf
    assert "no metal is left" in result.note
    idle = net_section.check_bending(STEEL, width_mm=6.0, hole_mm=7.0, moment_nmm=0.0)
    assert idle.utilisation == 0
    pulled = net_section.check_rupture(STEEL, width_mm=6.0, hole_mm=7.0, tension_n=1.0, stud_mm=6.0)
    assert pulled.utilisation == math.inf
    assert "no metal is left" in pulled.note


@pytest.mark.parametrize(
    ("family", "method", "washers", "share"),
    [
        ("steel", "asd", True, (0.1 + 3 * 6 / 30) / 2.22),
        ("steel", "asd", False, 2.5 * 6 / 30 / 2.22),
        ("steel", "lrfd", True, 0.65 * (0.1 + 3 * 6 / 30)),
        ("steel", "en", True, 0.9 / 1.25),
        ("aluminium", "asd", True, 1 / 1.95),
        ("aluminium", "en", True, 0.9 / 1.25),
    ],
)
def test_rupture_by_rules(family, method, washers, share):
    """AISI counts shear lag of a single bolt, EN 0.9, the Aluminum Design Manual all of it."""
    sheet = SheetGrade(family, method, 1.5, 228.0, 359.0)
    result = net_section.check_rupture(
        sheet, tension_n=100.0, stud_mm=6.0, washers=washers, **STROKE
    )
    assert result.resistance == pytest.approx(share * 23 * 1.5 * 359)


def test_rupture_of_thick_steel():
    """AISC counts the whole net section: Fu Ae, Ω 2.00."""
    sheet = SheetGrade("steel", "asd", 6.0, 250.0, 400.0)
    result = net_section.check_rupture(sheet, tension_n=0.0, stud_mm=6.0, **STROKE)
    assert result.resistance == pytest.approx(23 * 6 * 400 / 2)


def test_shear_lag_never_adds_strength():
    """A thick stud in a narrow stroke counts no more than the net section."""
    result = net_section.check_rupture(
        STEEL, width_mm=15.0, hole_mm=7.0, tension_n=0.0, stud_mm=6.0
    )
    assert result.resistance == pytest.approx(8 * 1.5 * 359 / 2.22)


def test_no_stroke_that_cannot_be():
    """Nought widths are refused."""
    with pytest.raises(InputError, match="the stroke's width in mm is 0"):
        net_section.check_bending(STEEL, width_mm=0.0, hole_mm=7.0, moment_nmm=1.0)
    with pytest.raises(InputError, match="the hole's diameter in mm is 0"):
        net_section.check_rupture(STEEL, width_mm=9.0, hole_mm=0.0, tension_n=1.0, stud_mm=6.0)


@settings(max_examples=40, deadline=None)
@given(st.floats(10, 60), st.floats(0.1, 0.9), st.floats(0.5, 5), st.floats(1.0, 1.5))
def test_thicker_or_wider_is_never_weaker(width, share, thickness, more):
    """More metal beside the hole is never used more."""

    def used(w, t):
        sheet = SheetGrade("steel", "asd", t, 228.0, 359.0)
        return net_section.check_bending(
            sheet, width_mm=w, hole_mm=share * width, moment_nmm=500.0, torque_nmm=200.0
        ).utilisation

    now = used(width, thickness)
    assert used(width, thickness * more) <= now * (1 + 1e-9)
    assert used(width * more, thickness) <= now * (1 + 1e-9)
