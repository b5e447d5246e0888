"""Bending."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.errors import InputError
from holeplacer.resistance import bending
from holeplacer.resistance.sheet_grade import SheetGrade

STEEL = SheetGrade("steel", "asd", 1.5, 228.0, 359.0)


@pytest.mark.parametrize(
    ("family", "method", "allowed", "memory"),
    [
        ("steel", "asd", 228 / 1.67, True),
        ("steel", "lrfd", 0.9 * 228, True),
        ("steel", "en", 228.0, True),
        ("stainless", "asd", 228 / 1.85, True),
        ("stainless", "en", 228 / 1.1, True),
        ("aluminium", "asd", 228 / 1.65, False),
        ("aluminium", "en", 228 / 1.1, True),
        ("copper", "asd", 228 / 1.67, True),
    ],
)
def test_allowable_by_rules(family, method, allowed, memory):
    """Each family and method has its share of yield, and says whether from memory."""
    sheet = SheetGrade(family, method, 1.5, 228.0, 359.0)
    result = bending.check(sheet, 100.0)
    assert result.resistance == pytest.approx(allowed)
    assert result.utilisation == pytest.approx(100 / allowed)
    assert result.resistance == bending.allowable_mpa(sheet)
    assert result.caveat == ("from memory, verify" if memory else "")


def test_bending_and_torsion_together():
    """sqrt(σ^2 + 3 τ^2)."""
    result = bending.check(STEEL, 30.0, 40.0 / math.sqrt(3))
    assert result.demand == pytest.approx(50.0)
    assert result.formula == "sqrt(fb^2 + 3 fv^2) <= Fy/Ωb"
    assert [item.symbol for item in result.inputs] == ["fb", "fv", "Fy", "Ωb"]


def test_strip_in_bending():
    """6 M/b t^2."""
    assert bending.strip_bending_mpa(-1000.0, 40.0, 3.0) == pytest.approx(6000 / 360)


def torsion_by_series(width, thickness):
    """Saint-Venant's series for a rectangle, stress for unit torque."""
    q = width / thickness
    odd = [2 * n + 1 for n in range(60)]
    stress = 1 - 8 / math.pi**2 * sum(
        1 / (n * n * math.cosh(min(n * math.pi * q / 2, 700))) for n in odd
    )
    stiff = (
        1 / 3 * (1 - 192 / math.pi**5 / q * sum(math.tanh(n * math.pi * q / 2) / n**5 for n in odd))
    )
    return stress / (stiff * width * thickness**2)


@pytest.mark.parametrize("ratio", [1.0, 1.5, 2.0, 3.0, 5.0, 10.0, 30.0])
def test_strip_in_torsion_against_the_series(ratio):
    """Roark's polynomial is within 0.5 % of the exact series, whichever side is the longer."""
    exact = torsion_by_series(ratio * 1.5, 1.5)
    assert bending.strip_torsion_mpa(1.0, ratio * 1.5, 1.5) == pytest.approx(exact, rel=5e-3)
    assert bending.strip_torsion_mpa(-1.0, 1.5, ratio * 1.5) == pytest.approx(exact, rel=5e-3)


@pytest.mark.parametrize("stress", [-1.0, math.nan])
def test_no_stress_that_cannot_be(stress):
    """Negative stresses are refused by name."""
    with pytest.raises(InputError, match="the bending stress in MPa"):
        bending.check(STEEL, stress)
    with pytest.raises(InputError, match="the torsion stress in MPa"):
        bending.check(STEEL, 0.0, stress)


@settings(max_examples=40, deadline=None)
@given(
    st.floats(1, 1e5), st.floats(0, 1e5), st.floats(5, 80), st.floats(0.5, 5), st.floats(1.01, 2)
)
def test_thicker_or_wider_is_never_weaker(moment, torque, width, thickness, more):
    """The same moments stress a thicker or wider stroke less."""

    def used(b, t):
        return bending.combined_mpa(
            bending.strip_bending_mpa(moment, b, t), bending.strip_torsion_mpa(torque, b, t)
        )

    assert used(width, thickness * more) <= used(width, thickness) * (1 + 1e-12)
    assert used(width * more, thickness) <= used(width, thickness) * (1 + 1e-12)
