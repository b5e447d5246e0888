"""Movement of holes against their studs."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.errors import InputError
from holeplacer.standoffs import thermal_fit
from holeplacer.standoffs.thermal_fit import STILL, Change

ALUMINIUM = Change(23.6e-6, -10.0, 50.0, 20.0)


def moved(xy, pieces, centres, change=ALUMINIUM, wanted=None):
    about = thermal_fit.fixed_points(xy, pieces, centres, wanted)
    return thermal_fit.movements(xy, pieces, about, change)


def test_a_metre_and_a_half_of_aluminium():
    """1.5 m from the fixed point, 30 K either way: 1.06 mm, the hand calculation's figure."""
    found = moved([(0, 0), (1500, 0)], [0, 0], [(100, 0)])
    assert found[0].is_fixed_point
    assert (found[1].out_mm, found[1].in_mm) == pytest.approx((1.062, 1.062), abs=1e-3)
    assert found[1].direction_rad == 0.0


def test_heat_and_cold_are_apart():
    """Installed on a cold day the sheet grows more than it shrinks."""
    found = moved([(0, 0), (0, 1000)], [0, 0], [(0, 0)], Change(12e-6, -20.0, 60.0, 0.0))[1]
    assert (found.out_mm, found.in_mm) == pytest.approx((0.72, 0.24))
    assert found.greatest_mm == found.out_mm
    assert found.direction_rad == pytest.approx(math.pi / 2)


def test_each_piece_has_its_own_fixed_point():
    """Pieces grow apart from each other, each about the hole nearest its own centre."""
    xy = [(0, 0), (100, 0), (500, 0), (800, 0)]
    about = thermal_fit.fixed_points(xy, [0, 0, 1, 1], [(60, 0), (560, 0)])
    assert about == {0: 1, 1: 2}
    found = thermal_fit.movements(xy, [0, 0, 1, 1], about, ALUMINIUM)
    assert [item.distance_mm for item in found] == [100, 0, 0, 300]


def test_the_person_may_choose_the_fixed_point():
    """A chosen hole comes before a nearer one; of two chosen, the nearer counts."""
    xy, pieces = [(0, 0), (100, 0), (400, 0)], [0, 0, 0]
    assert thermal_fit.fixed_points(xy, pieces, [(90, 0)], [False, False, True]) == {0: 2}
    assert thermal_fit.fixed_points(xy, pieces, [(90, 0)], [True, False, True]) == {0: 0}


def test_a_hole_outside_the_metal_stays_out_of_it():
    """It moves with nothing and is nobody's fixed point."""
    found = moved([(10, 0), (200, 0)], [-1, 0], [(0, 0)])
    assert found[0] == STILL
    assert found[1].is_fixed_point


def test_no_holes_no_movement():
    """Nothing in, nothing out."""
    assert moved([], [], [(0, 0)]) == ()


def test_temperatures_out_of_order_are_refused():
    """Installation hotter than the hottest is one clear sentence."""
    with pytest.raises(InputError, match="70 °C at installation"):
        moved([(0, 0)], [0], [(0, 0)], Change(12e-6, -20.0, 60.0, 70.0))


@settings(max_examples=60, deadline=None)
@given(
    st.lists(st.tuples(st.floats(-3e3, 3e3), st.floats(-500, 500)), min_size=1, max_size=12),
    st.floats(-40, 20),
    st.floats(20, 90),
)
def test_movement_is_the_difference_of_two_drawings(places, low, high):
    """Second way: draw the sheet scaled about its fixed point, hot and cold, and measure."""
    change = Change(17e-6, low, high, 20.0)
    pieces, centre = [0] * len(places), np.mean(places, axis=0)
    about = thermal_fit.fixed_points(places, pieces, [centre])[0]
    xy, origin = np.array(places), np.array(places[about])
    hot = origin + (xy - origin) * (1 + 17e-6 * (high - 20))
    cold = origin + (xy - origin) * (1 + 17e-6 * (low - 20))
    found = moved(places, pieces, [centre], change)
    assert [item.out_mm for item in found] == pytest.approx(np.hypot(*(hot - xy).T), abs=1e-9)
    assert [item.in_mm for item in found] == pytest.approx(np.hypot(*(cold - xy).T), abs=1e-9)
    nearest = np.hypot(*(xy - centre).T).min()
    assert math.dist(places[about], centre) == pytest.approx(nearest)
    for item, place in zip(found, hot, strict=True):
        along = np.array([math.cos(item.direction_rad), math.sin(item.direction_rad)])
        assert origin + along * (item.distance_mm + item.out_mm) == pytest.approx(place, abs=1e-6)
