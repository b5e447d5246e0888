"""Turning: two holes hold a piece if they are far apart and around its centre of gravity."""

from dataclasses import replace

import numpy as np
import pytest

from holeplacer.plan import edit
from holeplacer.plan.hole import Hole
from holeplacer.rules import turning
from holeplacer.rules.finding import PlaceKind


def with_holes(plan, *xy):
    return replace(plan, holes=tuple(Hole(n, x, y) for n, (x, y) in enumerate(xy, 1)))


def test_held_at_the_limit(plan, bar, axis):
    """A third of the 400 mm path apart, the centre of gravity exactly at one of them: held."""
    third = 400 / 3
    assert turning.limit(plan, 400.0) == pytest.approx(third)
    assert turning.check(with_holes(plan, (200, 0), (200 + third, 0)), bar, axis) == ()


def test_base_too_short(plan, bar, axis):
    """A shorter base is found, with both figures."""
    (found,) = turning.check(with_holes(plan, (150, 0), (250, 0)), bar, axis)
    assert (found.rule, found.place.kind, found.place.index) == ("turning", PlaceKind.PIECE, 1)
    assert (found.value, found.limit) == (pytest.approx(100), pytest.approx(400 / 3))
    assert found.way_out
    assert "100.0 mm apart" in found.message


def test_centre_of_gravity_outside(plan, bar, axis):
    """Far apart but both on one side of the centre of gravity: not held."""
    (found,) = turning.check(with_holes(plan, (20, 0), (180, 0)), bar, axis)
    assert (found.value, found.limit) == (0.0, pytest.approx(400 / 3))
    assert "centre of gravity" in found.message
    assert found.way_out


@pytest.mark.parametrize("count", [0, 1])
def test_fewer_than_two(plan, bar, axis, count):
    """One hole, or none, holds nothing."""
    (found,) = turning.check(with_holes(plan, *[(200, 0)] * count), bar, axis)
    assert (found.value, found.limit, found.unit) == (count, 2.0, "")
    assert found.way_out


def test_any_two_will_do():
    """Of several holes the widest pair around the centre of gravity counts."""
    xy = np.array([(0, 0), (10, 0), (100, 0), (100, 50)], float)
    held, widest = turning.holding(xy, (5.0, 3.0))
    assert held == pytest.approx(np.hypot(100, 50))
    assert widest == pytest.approx(np.hypot(100, 50))
    held, widest = turning.holding(xy[1:], (5.0, -3.0))
    assert held == 0.0
    assert widest > 0


def test_same_place_twice():
    """Two holes in one place are no base."""
    assert turning.holding(np.zeros((2, 2)), (0.0, 0.0)) == (0.0, 0.0)


def test_a_glued_standoff_holds_no_piece(plan, bar, axis):
    """One fastened and one glued are one hole only."""
    for x in (40.0, 360.0):
        plan = edit.with_hole_added(plan, x, 0.0)
    assert turning.check(plan, bar, axis) == ()
    (found,) = turning.check(edit.with_hole_fastened(plan, 2, False), bar, axis)
    assert "one hole only" in found.message
