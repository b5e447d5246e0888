"""Strength: what is found in a plan whose loads are reckoned."""

from dataclasses import replace

import pytest

from holeplacer.loads.loading import Loading
from holeplacer.plan.hole import Hole
from holeplacer.rules import strength

HOLES = tuple(Hole(n, x, y) for n, (x, y) in enumerate([(40, 3), (200, -3), (360, 3)], 1))


def windy(plan, pascal, holes=HOLES):
    return replace(plan, loading=Loading("entered", pressure_out_pa=pascal), holes=holes)


def test_name_and_limit(plan):
    """The rule is named as its file; no utilisation may pass 1."""
    assert (strength.NAME, strength.limit(plan)) == ("strength", 1.0)


def test_silent_without_wind(plan, bar, axis):
    """Without a chosen wind nothing is reckoned and nothing said."""
    plain = replace(plan, holes=HOLES)
    assert strength.strength(plain, bar, axis) is None
    assert strength.check(plain, bar, axis) == ()


def test_light_wind_passes(plan, bar, axis):
    """A light wind breaks nothing."""
    assert not [f for f in strength.check(windy(plan, 100.0), bar, axis) if f.broken]


def test_storm_fails(plan, bar, axis):
    """A wind that bends the sheet too far is found, with figure, place and way out."""
    found = [f for f in strength.check(windy(plan, 50_000.0), bar, axis) if f.broken]
    assert found
    assert all(f.rule == "strength" and f.value > f.limit == 1.0 and f.way_out for f in found)
    assert [f.value for f in found] == sorted((f.value for f in found), reverse=True)
    assert "utilisation" in found[0].message


def test_worst_is_the_greatest(plan, bar, axis):
    """The governing limit state is the one with the greatest utilisation."""
    result = strength.strength(windy(plan, 50_000.0), bar, axis)
    shares = [s.utilisation.utilisation for s in result.states if s.utilisation.utilisation]
    assert result.worst.utilisation.utilisation == max(shares)


def test_states_of_one_hole(plan, bar, axis):
    """All that concerns one hole can be asked for."""
    result = strength.strength(windy(plan, 1000.0), bar, axis)
    assert {state.hole for state in result.of_hole(2)} == {2}
    assert len(result.of_hole(2)) >= 3


@pytest.mark.parametrize(("count", "broken"), [(0, True), (1, True), (2, False)])
def test_pieces_that_can_turn(plan, bar, axis, count, broken):
    """On no hole or one a piece fails; two in a line are named, and steadied by their caps."""
    found = strength.check(windy(plan, 10.0, HOLES[:count]), bar, axis)
    (first, *_) = [f for f in found if f.message.startswith("Piece 1")]
    assert first.broken is broken
    assert first.way_out


def test_missing_figure_is_a_finding(plan, bar, axis):
    """While the wind is still being entered, what is missing is asked for in one sentence."""
    asking = replace(plan, loading=Loading("entered"), holes=HOLES)
    assert strength.judged(asking, bar, axis)[0] is None
    (found,) = strength.check(asking, bar, axis)
    assert found.broken
    assert "pressure" in found.message
    assert found.way_out


def test_floppy_sheet_is_a_note(plan, bar, axis):
    """A sheet that two hands would bend for good is told, with how else to carry it."""
    foil = replace(plan.sheet, gauge=None, thickness_mm=0.011)
    calm = replace(windy(plan, 0.1), sheet=foil)
    (note,) = [f for f in strength.check(calm, bar, axis) if "two hands" in f.message]
    assert not note.broken
    assert "upright" in note.way_out
