"""Thermal fit."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.errors import InputError
from holeplacer.loads.loading import Temperature
from holeplacer.resistance import thermal_fit

YEAR = Temperature(lowest_c=-10.0, highest_c=50.0, installation_c=20.0)
ALUMINIUM = 23.6e-6


def fit(distance, hole=7.144, stud=6.35, slot=None, tolerance=0.0, temperature=YEAR):
    return thermal_fit.check(
        expansion_per_k=ALUMINIUM,
        distance_mm=distance,
        temperature=temperature,
        stud_mm=stud,
        hole_mm=hole,
        slot_mm=slot,
        tolerance_mm=tolerance,
    )


@pytest.mark.parametrize(("alpha", "movement"), [(11.7e-6, 2.11), (17.2e-6, 3.10), (23.6e-6, 4.25)])
def test_free_growth(alpha, movement):
    """3000 mm by 60 K: steel 2.11, stainless 3.10, 6061 4.25 mm."""
    hot = Temperature(lowest_c=0.0, highest_c=60.0, installation_c=0.0)
    move = thermal_fit.movement(alpha, 3000.0, hot)
    assert move.hot_mm == pytest.approx(movement, abs=5e-3)
    assert move.cold_mm == 0


def test_ten_feet_by_a_hundred_fahrenheit():
    """Aluminium of 13.1e-6/F grows 0.157 in, steel of 6.5e-6/F 0.078 in."""
    hot = Temperature(lowest_c=0.0, highest_c=100 / 1.8, installation_c=0.0)
    for per_f, inches in ((13.1e-6, 0.157), (6.5e-6, 0.078)):
        move = thermal_fit.movement(per_f * 1.8, 120 * 25.4, hot)
        assert move.hot_mm / 25.4 == pytest.approx(inches, abs=5e-4)


def test_slots_either_way():
    """1.5 m from the fixed point, 6061, 30 K each way: 1.06 mm each way."""
    move = thermal_fit.movement(ALUMINIUM, 1500.0, YEAR)
    assert move.hot_mm == pytest.approx(1.06, abs=5e-3)
    assert move.cold_mm == pytest.approx(1.06, abs=5e-3)
    assert thermal_fit.slot_length_mm(6.35, 7.144, move) == pytest.approx(6.35 + 2 * 1.062)


def test_room_needed_and_had():
    """0.40 mm of play round a 1/4 in stud in a 9/32 in hole."""
    result = fit(1500.0)
    assert result.resistance == pytest.approx(0.397)
    assert result.demand == pytest.approx(1.062)
    assert result.passes is False
    assert result.note == "needs a hole of 8.5 mm, or a slot 8.5 mm long towards the fixed point"


def test_near_the_fixed_point_nothing_is_needed():
    """At it no room, beside it little: no advice."""
    assert fit(0.0).utilisation == 0
    assert fit(0.0, hole=6.35).passes is True
    assert fit(300.0).note == ""


def test_slot_gives_room():
    """A slot of 9 mm passes where the round hole did not."""
    assert fit(1500.0, slot=9.0).passes is True


def test_tight_hole_away_from_the_fixed_point_fails():
    """No play at all is infinitely used, not divided by."""
    assert fit(100.0, hole=6.35).utilisation == math.inf
    assert fit(100.0, hole=6.0).utilisation == math.inf


def test_the_advised_hole_passes():
    """What is advised is enough, tolerance and all."""
    move = thermal_fit.movement(ALUMINIUM, 900.0, YEAR)
    advised = thermal_fit.round_hole_mm(6.35, move, 0.5)
    assert fit(900.0, hole=advised + 1e-9, tolerance=0.5).passes is True
    assert fit(900.0, hole=advised - 0.01, tolerance=0.5).passes is False


def test_temperatures_out_of_order_are_refused():
    """Installation hotter than the highest is no summer."""
    with pytest.raises(InputError, match="the warming after installation in K is -10"):
        fit(1.0, temperature=Temperature(highest_c=10.0))
    with pytest.raises(InputError, match="the cooling after installation in K is -5"):
        fit(1.0, temperature=Temperature(lowest_c=25.0))
    with pytest.raises(InputError, match="the distance from the fixed point in mm is -1"):
        fit(-1.0)


@settings(max_examples=30, deadline=None)
@given(st.floats(0, 3000), st.floats(0, 3), st.floats(1.0, 1.5))
def test_farther_or_tighter_is_never_better(distance, play, more):
    """Room needed grows with the distance, room had with the hole."""
    here = fit(distance, hole=6.35 + play)
    assert fit(distance * more, hole=6.35 + play).demand >= here.demand
    assert fit(distance, hole=(6.35 + play) * more).resistance >= here.resistance
