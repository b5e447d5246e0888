"""Thermal room."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.errors import InputError
from holeplacer.resistance import thermal_room
from holeplacer.standoffs import hole_size, thermal_fit
from holeplacer.standoffs.thermal_fit import Change

ALUMINIUM = 23.6e-6
YEAR = Change(ALUMINIUM, lowest_c=-10.0, highest_c=50.0, installation_c=20.0)


def room(distance, hole=7.144, stud=6.35, *, slot=None, finish=0.0, change=YEAR):
    """The check of a hole at a distance from the fixed point."""
    _, move = thermal_fit.movements([(0.0, 0.0), (distance, 0.0)], [0, 0], {0: 0}, change)
    needed = hole_size.needed_hole(
        stud, fit="entered", clearance_mm=0.8, finish_mm=finish, movement_mm=move.greatest_mm
    )
    return thermal_room.check(move, needed, hole, slot_mm=slot)


@pytest.mark.parametrize(("alpha", "movement"), [(11.7e-6, 2.11), (17.2e-6, 3.10), (23.6e-6, 4.25)])
def test_free_growth(alpha, movement):
    """3000 mm by 60 K: steel 2.11, stainless 3.10, 6061 4.25 mm."""
    hot = Change(alpha, lowest_c=0.0, highest_c=60.0, installation_c=0.0)
    assert room(3000.0, change=hot).demand == pytest.approx(movement, abs=5e-3)


@pytest.mark.parametrize(("per_f", "inches"), [(13.1e-6, 0.157), (6.5e-6, 0.078)])
def test_ten_feet_by_a_hundred_fahrenheit(per_f, inches):
    """Aluminium grows 0.157 in, steel 0.078 in."""
    hot = Change(per_f * 1.8, lowest_c=0.0, highest_c=100 / 1.8, installation_c=0.0)
    assert room(120 * 25.4, change=hot).demand / 25.4 == pytest.approx(inches, abs=5e-4)


def test_room_needed_and_had():
    """1.5 m from the fixed point, 6061, 30 K: 1.06 mm each way of 0.40 mm."""
    result = room(1500.0)
    assert result.demand == pytest.approx(1.062)
    assert result.resistance == pytest.approx(0.397)
    assert result.passes is False
    assert "a hole of 9.27 mm, or a slot 7.15 mm wide and 9.27 mm long" in result.note


def test_at_the_fixed_point_nothing_is_needed():
    """Even the tightest hole passes there, without advice."""
    assert room(0.0, hole=6.35).utilisation == 0
    assert room(0.0, hole=6.35).note == ""


def test_slot_gives_room_and_finish_takes_it():
    """A slot of 9 mm passes where the round hole did not; half a millimetre of paint undoes it."""
    assert room(1500.0, slot=9.0).passes is True
    assert room(1500.0, slot=9.0, finish=0.5).passes is False


def test_tight_hole_away_from_the_fixed_point_fails():
    """No play at all is infinitely used, not divided by."""
    assert room(100.0, hole=6.35).utilisation == math.inf
    assert room(100.0, hole=6.0).utilisation == math.inf


@pytest.mark.parametrize(("hole", "slot"), [(0.0, None), (7.0, -1.0)])
def test_no_hole_that_cannot_be(hole, slot):
    """Nought diameters and negative slots are refused."""
    with pytest.raises(InputError, match="give a number above 0"):
        room(1.0, hole=hole, slot=slot)


@settings(max_examples=30, deadline=None)
@given(st.floats(0, 3000), st.floats(0, 3), st.floats(0, 0.3), st.floats(1.0, 1.5))
def test_agrees_with_the_hole_that_is_needed(distance, play, finish, more):
    """It fails just where the needed hole says that the stud binds; farther is never better."""
    hole = 6.35 + play
    result = room(distance, hole=hole, finish=finish)
    _, move = thermal_fit.movements([(0.0, 0.0), (distance, 0.0)], [0, 0], {0: 0}, YEAR)
    needed = hole_size.needed_hole(6.35, finish_mm=finish, movement_mm=move.greatest_mm)
    if move.greatest_mm > 0 and abs(hole - 2 * finish - 6.35 - 2 * move.greatest_mm) > 1e-9:
        assert (result.passes is False) == needed.binds(hole)
    assert room(distance * more, hole=hole, finish=finish).demand >= result.demand
