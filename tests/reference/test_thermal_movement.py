"""Movement by temperature against worked figures.

Source: alpha L dT with the metals' usual coefficients (steel 11.7, 304 17.2, 6061 23.6 millionths
per kelvin; steel 6.5, aluminium 13.1 per degree Fahrenheit), read on public pages (P), products
recomputed (R).
"""

import pytest

from holeplacer.standoffs import thermal_fit
from holeplacer.standoffs.thermal_fit import Change

IN = 25.4
PER_F = 9 / 5


def out_mm(change, length_mm):
    """How far a hole moves away from the fixed point."""
    xy = [(0.0, 0.0), (length_mm, 0.0)]
    about = thermal_fit.fixed_points(xy, [0, 0], [(0.0, 0.0)])
    return thermal_fit.movements(xy, [0, 0], about, change)[1].out_mm


@pytest.mark.parametrize(("alpha", "mm"), [(11.7e-6, 2.11), (17.2e-6, 3.10), (23.6e-6, 4.25)])
def test_three_metres_over_sixty_kelvin(alpha, mm):
    """Steel 2.11, stainless 304 3.10, aluminium 6061 4.25 mm."""
    change = Change(alpha, lowest_c=0.0, highest_c=60.0, installation_c=0.0)
    assert out_mm(change, 3000.0) == pytest.approx(mm, abs=5e-3)


@pytest.mark.parametrize(("alpha_per_f", "inches"), [(6.5e-6, 0.078), (13.1e-6, 0.157)])
def test_ten_feet_over_a_hundred_degrees_fahrenheit(alpha_per_f, inches):
    """Steel 0.078, aluminium 0.157 in."""
    change = Change(alpha_per_f * PER_F, lowest_c=0.0, highest_c=100 / PER_F, installation_c=0.0)
    assert out_mm(change, 120 * IN) / IN == pytest.approx(inches, abs=5e-4)
