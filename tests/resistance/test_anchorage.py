"""Anchorage."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.errors import InputError
from holeplacer.loads.loading import WallFixing, WoodScrew
from holeplacer.resistance import anchorage


def used(tension, shear, tension_value, shear_value, interaction="straight"):
    return anchorage.check(
        WallFixing(tension_value, shear_value),
        tension_n=tension,
        shear_n=shear,
        interaction=interaction,
    )


def test_shares_are_added():
    """N/Nn + V/Vn <= 1.0."""
    result = used(300.0, 100.0, 1000.0, 500.0)
    assert result.utilisation == pytest.approx(0.5)
    assert result.formula == "N/Nn + V/Vn <= 1"
    assert result.status == "E"


@pytest.mark.parametrize(
    ("tension_value", "shear_value", "said"),
    [
        (None, None, "tension value and shear value not entered: ask the anchor's maker"),
        (None, 500.0, "tension value not entered: ask the anchor's maker"),
        (1000.0, None, "shear value not entered: ask the anchor's maker"),
    ],
)
@pytest.mark.parametrize("interaction", ["straight", "aci-318"])
def test_what_is_not_entered_is_no_pass(tension_value, shear_value, said, interaction):
    """The utilisation is open, and the note says what to ask for."""
    result = used(300.0, 100.0, tension_value, shear_value, interaction)
    assert result.utilisation is None
    assert result.passes is None
    assert result.note == said
    assert result.demand > 0


def test_a_value_that_is_not_needed_is_not_asked_for():
    """Without shear no shear value; but with nothing entered nothing passes."""
    assert used(300.0, 0.0, 1000.0, None).utilisation == pytest.approx(0.3)
    assert used(0.0, 0.0, None, None).utilisation is None


def test_entered_nought_fails():
    """An anchor that carries nothing is infinitely used."""
    assert used(1.0, 0.0, 0.0, 1.0).utilisation == math.inf


@pytest.mark.parametrize(
    ("tension", "shear", "share"),
    [
        (0.199, 1.0, 1.0),
        (0.201, 1.1, 1.1),
        (0.22, 1.0, 1.22 / 1.2),
        (0.21, 0.5, 0.71 / 1.2),
        (0.5, 0.19, 0.5),
        (0.2, 0.9, 0.9),
        (0.9, 0.1, 0.9),
        (0.6, 0.6, 1.0),
        (1.1, 0.3, 7 / 6),
    ],
)
def test_concrete_by_aci_318(tension, shear, share):
    """To 0.2 a share does not reduce the other; beyond, both together may reach 1.2."""
    result = used(tension, shear, 1.0, 1.0, "aci-318")
    assert result.utilisation == pytest.approx(share)
    assert "ACI 318-19 17.8" in result.source


def test_screw_in_wood_goes_by_the_handbook():
    """A fixing with a screw takes its withdrawal, and the entered shear as its lateral value."""
    fixing = WallFixing(tension_n=1.0, shear_n=400.0, screw=WoodScrew())
    result = anchorage.check(fixing, tension_n=200.0, shear_n=50.0)
    assert result.source == "NDS 12.2.1, 12.4"
    assert result.passes is True


def test_forces_are_magnitudes():
    """Negative forces and values are refused."""
    with pytest.raises(InputError, match="the anchor's tension in N is -1"):
        used(-1.0, 0.0, 1.0, 1.0)
    with pytest.raises(InputError, match="the anchor's entered value in N is -5"):
        used(1.0, 0.0, -5.0, 1.0)


@pytest.mark.parametrize("interaction", ["straight", "aci-318"])
@settings(max_examples=40, deadline=None)
@given(st.floats(0, 2), st.floats(0, 2), st.floats(0, 1))
def test_more_force_is_never_less_used(interaction, tension, shear, more):
    """Use never falls with either force."""
    base = used(tension, shear, 1.0, 1.0, interaction).utilisation - 1e-12
    assert used(tension + more, shear, 1.0, 1.0, interaction).utilisation >= base
    assert used(tension, shear + more, 1.0, 1.0, interaction).utilisation >= base
