"""Movement by temperature."""

import pytest

from holeplacer.loads.loading import Temperature
from holeplacer.loads.temperature import cooling_k, growth_mm, movement, warming_k

YEAR = Temperature(lowest_c=-20.0, highest_c=60.0, installation_c=10.0)


@pytest.mark.parametrize(
    ("alpha", "length_mm", "change_k", "mm"),
    [
        (11.7e-6, 3000.0, 60.0, 2.11),
        (17.2e-6, 3000.0, 60.0, 3.10),
        (23.6e-6, 3000.0, 60.0, 4.25),
        (6.5e-6 * 1.8, 3048.0, 100 / 1.8, 0.078 * 25.4),
        (13.1e-6 * 1.8, 3048.0, 100 / 1.8, 0.157 * 25.4),
    ],
)
def test_worked_growth(alpha, length_mm, change_k, mm):
    """Steel, 304 and 6061 over 3 m and 60 K; steel and aluminium over 10 ft and 100 °F."""
    assert growth_mm(alpha, length_mm, change_k) == pytest.approx(mm, abs=0.013)


def test_both_ways_from_installation():
    """It shrinks by 30 K and grows by 50 K; the hole needs the greater on either side."""
    assert (cooling_k(YEAR), warming_k(YEAR)) == (30.0, 50.0)
    moved = movement(12e-6, 1000.0, YEAR)
    assert moved.inward_mm == pytest.approx(0.36)
    assert moved.outward_mm == pytest.approx(0.60)
    assert moved.each_way_mm == moved.outward_mm


def test_slot_for_aluminium():
    """1.5 m from the fixed point, 6061, 30 K either way: 1.06 mm."""
    even = Temperature(lowest_c=-10.0, highest_c=50.0, installation_c=20.0)
    moved = movement(23.6e-6, 1500.0, even)
    assert (moved.inward_mm, moved.outward_mm) == pytest.approx((1.062, 1.062))


def test_the_fixed_point_stays():
    """At no distance there is no movement."""
    assert movement(12e-6, 0.0, YEAR).each_way_mm == 0.0
