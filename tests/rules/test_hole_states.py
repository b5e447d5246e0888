"""Hole states."""

from dataclasses import replace

import pytest

from holeplacer.loads.loading import Loading, WallFixing
from holeplacer.plan.hole import Hole
from holeplacer.rules import hole_states, limit_states, load_effects, spacing

HOLES = (Hole(1, 40.0, 3.0), Hole(2, 200.0, -3.0), Hole(3, 360.0, 3.0), Hole(4, 200.0, 300.0))
ROUND = ["pull-over at the", "pull-over at the barrel", "bearing", "bearing, hole stretched"]
STANDOFF = ["stud in bending", "stud in shear and tension", "anchor in the wall"]
ACROSS = ["net section in bending", "net section in tension"]


@pytest.fixture
def states(plan, bar, axis):
    loading = Loading("entered", pressure_out_pa=1000.0, fixing=WallFixing(400.0, 300.0))
    windy = replace(plan, loading=loading, holes=HOLES)
    return hole_states.hole_states(
        windy,
        bar,
        axis,
        spacing.spans(windy, bar, axis),
        load_effects.load_effects(windy, bar, axis),
        limit_states.grade(windy.sheet, loading),
    )


def test_sheet_then_standoff_then_stroke(states):
    """In the order a force goes: into the sheet, the stud, the wall; last what the hole leaves."""
    checks = [reckoned().check for _, reckoned in states.found(1)]
    wanted = [*ROUND, "tear-out", "shear and pull-over", *STANDOFF, *ACROSS]
    assert len(checks) == len(wanted)
    assert all(check.startswith(word) for check, word in zip(checks, wanted, strict=True))


def test_shares_are_in_the_same_order(states):
    """The share of each is that of what it is worked out from."""
    for index in range(len(HOLES)):
        reckoned = [work().utilisation for _, work in states.found(index)]
        assert states.shares[index] == pytest.approx(reckoned, rel=1e-9)


def test_outside_the_metal_only_the_standoff_is_left(states):
    """No sheet, no stroke: stud and anchor."""
    assert [reckoned().check for _, reckoned in states.found(3)] == STANDOFF
    assert len(states.shares[3]) == len(STANDOFF)
