"""Thermal rooms."""

from dataclasses import replace

import pytest

from holeplacer.loads.loading import Loading
from holeplacer.plan.hole import Hole
from holeplacer.rules import strength, thermal_rooms

HOLES = (Hole(1, 40.0, 0.0), Hole(2, 200.0, 0.0), Hole(3, 360.0, 0.0))


@pytest.fixture
def hung(plan):
    return replace(plan, loading=Loading("entered", pressure_out_pa=100.0), holes=HOLES)


def test_movement_over_room(hung, bar):
    """Expansion by distance and 40 K over half of what stud and finish leave of the hole."""
    found = thermal_rooms.rooms(hung, bar)
    moves = hung.sheet.material.expansion_per_k * 160.0 * 40.0
    room = (hung.standoff.hole_mm - 2 * hung.sheet.finish_mm - hung.standoff.stud_mm) / 2
    assert [state.share for state in found] == pytest.approx([moves / room, 0.0, moves / room])
    for state in found:
        assert state.share == pytest.approx(state.utilisation.utilisation, rel=1e-12)
        assert state.utilisation.check == "movement by temperature"


def test_colder_than_hot_is_said(hung, bar):
    """The case is the one that moves it further."""
    loading = replace(hung.loading, temperature=replace(hung.loading.temperature, lowest_c=-40.0))
    cases = [state.case for state in thermal_rooms.rooms(replace(hung, loading=loading), bar)]
    assert cases[0] == "weight, coldest"
    assert thermal_rooms.rooms(hung, bar)[0].case == "weight, hottest"


def test_a_hole_outside_the_metal_moves_with_nothing(hung, bar):
    """It has no room to be judged; without holes there is none at all."""
    astray = replace(hung, holes=(*HOLES, Hole(4, 200.0, 900.0)))
    assert [state.hole for state in thermal_rooms.rooms(astray, bar)] == [1, 2, 3]
    assert thermal_rooms.rooms(replace(hung, holes=()), bar) == ()


def test_a_tight_hole_is_a_note_with_its_cure(hung, bar, axis):
    """A hole no wider than its stud is pressed on it: said, not failed; its force is reckoned."""
    tight = replace(hung, standoff=replace(hung.standoff, hole_mm=hung.standoff.stud_mm + 0.1))
    (note,) = [f for f in strength.check(tight, bar, axis) if "Heat and cold" in f.message]
    assert not note.broken
    assert "2 holes" in note.message
    assert "slot" in note.way_out
    assert not [f for f in strength.check(hung, bar, axis) if "Heat and cold" in f.message]


def test_places_are_compared_without(hung, bar, axis):
    """Where only the wind is asked for, temperature moves nothing."""
    assert strength.strength(hung, bar, axis, wind_only=True).rooms == ()
    found = strength.strength(hung, bar, axis)
    assert found.every == (*found.states, *found.rooms)
