"""Pull-over with shear."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.errors import InputError
from holeplacer.resistance import bearing, pull_over, pull_over_with_shear
from holeplacer.resistance.hole_place import HolePlace
from holeplacer.resistance.sheet_grade import SheetGrade

PLACE = HolePlace(6.35, 7.0, 12.0)


def sheet(family="steel", method="asd", thickness=1.0):
    return SheetGrade(family, method, thickness, 228.0, 359.0)


def used(made, shear, tension, pressed=15.0):
    return pull_over_with_shear.check(
        made, PLACE, shear_n=shear, tension_n=tension, pressed_mm=pressed
    )


@pytest.mark.parametrize("family", ["steel", "stainless", "copper"])
def test_aisi_shares(family):
    """Q/Pns + 0.71 T/Pnov <= 1.1/Ω, and 1.1 φ under LRFD."""
    pns, pnov = 2.7 * 6.35 * 359, 1.5 * 15 * 359
    asd = used(sheet(family), 300.0, 500.0)
    assert asd.demand == pytest.approx(300 / pns + 0.71 * 500 / pnov)
    assert asd.resistance == pytest.approx(1.1 / 2.35)
    lrfd = used(sheet(family, "lrfd"), 300.0, 500.0)
    assert lrfd.demand == pytest.approx(asd.demand)
    assert lrfd.resistance == pytest.approx(1.1 * 0.65)


@pytest.mark.parametrize(("family", "method"), [("steel", "en"), ("aluminium", "asd")])
def test_straight_line_elsewhere(family, method):
    """Shares of bearing and pull-over are added up to 1."""
    made = sheet(family, method)
    sideways = min(item.resistance for item in bearing.check(made, PLACE, 0.0))
    upwards = pull_over.check(made, 0.0, pressed_mm=15.0, hole_mm=7.0).resistance
    result = used(made, 0.3 * sideways, 0.5 * upwards)
    assert result.utilisation == pytest.approx(0.8)
    assert result.caveat == "from memory, verify"


@pytest.mark.parametrize(
    ("thickness", "outside"),
    [(0.72, True), (0.73, False), (1.0, False), (1.13, False), (1.14, True)],
)
def test_outside_the_tests_is_said(thickness, outside):
    """0.0285 to 0.0445 in is what was tested."""
    assert ("outside the tests" in used(sheet(thickness=thickness), 1.0, 1.0).note) == outside


@pytest.mark.parametrize("method", ["asd", "en"])
def test_cap_that_passes_through_fails_under_tension_alone(method):
    """A cap no wider than the hole holds nothing; without tension it has nothing to hold."""
    assert used(sheet(method=method), 1.0, 1.0, pressed=7.0).utilisation == math.inf
    assert used(sheet(method=method), 1.0, 0.0, pressed=7.0).passes is True


def test_forces_are_magnitudes():
    """Negative forces are refused by name."""
    with pytest.raises(InputError, match="the force in the sheet's plane in N is -1"):
        used(sheet(), -1.0, 0.0)
    with pytest.raises(InputError, match="the force off the sheet in N is -1"):
        used(sheet(), 0.0, -1.0)


@settings(max_examples=30, deadline=None)
@given(st.floats(0, 1e3), st.floats(0, 1e3), st.floats(0.5, 4), st.floats(1.0, 1.6))
def test_more_force_or_less_metal_is_never_less_used(shear, tension, thickness, more):
    """Both together use no less than either alone, and thicker sheet no more."""
    both = used(sheet(thickness=thickness), shear, tension).utilisation
    assert both >= used(sheet(thickness=thickness), shear, 0.0).utilisation
    assert both >= used(sheet(thickness=thickness), 0.0, tension).utilisation
    assert used(sheet(thickness=thickness * more), shear, tension).utilisation <= both * (1 + 1e-9)
