"""Stress rise."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.errors import InputError
from holeplacer.resistance import stress_rise


@settings(max_examples=60, deadline=None)
@given(st.floats(0.5, 40), st.floats(0.3, 8), st.floats(0.0, 0.45))
def test_between_the_two_limits(hole, thickness, poisson):
    """Kt in bending lies between (5 + 3 ν)/(3 + ν) and 3, and falls with the hole's width."""
    kt = stress_rise.plate_bending(hole, thickness, poisson)
    assert (5 + 3 * poisson) / (3 + poisson) - 1e-9 <= kt <= 3.0
    assert stress_rise.plate_bending(1.1 * hole, thickness, poisson) <= kt + 1e-12


def test_bending_falls_with_finite_width_as_tension_does():
    """Both factors stand in the product."""
    kt = stress_rise.bending_on_net(7.0, 28.0, 1.5, 0.3)
    wide = stress_rise.plate_bending(7.0, 1.5, 0.3)
    assert kt == pytest.approx(wide * (2 + 0.75**3) / 3)


@pytest.mark.parametrize("hole", [0.0, 20.0, 25.0])
def test_no_hole_that_leaves_nothing(hole):
    """A hole as wide as the stroke has no stress rise, and says so."""
    with pytest.raises(InputError):
        stress_rise.tension_on_net(hole, 20.0)
