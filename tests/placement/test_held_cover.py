"""Covers where the base or the distance binds."""

import numpy as np
import pytest
from graphs import NO_XY, NONE, path, star, wanted

from holeplacer.medial_axis import ways
from holeplacer.placement.fewest import fewest
from holeplacer.placement.held_cover import grid, held_cover, possible
from holeplacer.placement.keeping import Owed
from holeplacer.placement.watch import Watch


def solved(axis, half, base, *, apart=20.0, centre=(0.0, 0.0), overhang=1e6):
    found = wanted(axis, half, overhang)
    owed = Owed(axis, NO_XY, apart, centre, base)
    bound = fewest(found, NONE, Watch()).bound
    cover = held_cover(found, NONE, owed, bound, Watch())
    assert cover.tightness <= 1 + 1e-7
    assert owed.kept(cover.holes)
    return cover


def test_one_hole_covers_but_two_hold():
    """A short stroke gets its second hole a base away, around its centre of gravity."""
    cover = solved(path(200.0), 150.0, 200 / 3, centre=(100.0, 0.0))
    assert (len(cover.holes), cover.bound) == (2, 2)


def test_base_needs_a_third():
    """Two holes that cover are too near each other for the base: three, and proven."""
    axis = star(100.0, 100.0, 100.0)
    cover = solved(axis, 101.0, 165.0, centre=(0.0, 0.0), overhang=1e6)
    assert (len(cover.holes), cover.bound) in {(2, 2), (3, 3)}
    spread = solved(axis, 60.0, 165.0)
    assert len(spread.holes) == spread.bound


def test_larger_than_all_pairs():
    """With more than three holes the integer program takes over."""
    cover = solved(path(1000.0), 110.0, 950.0, centre=(500.0, 0.0))
    assert len(cover.holes) == 6
    assert np.ptp(cover.holes.s) >= 950.0 - 1e-6


def test_distance_binds():
    """Overhang asks for holes near two tips that are near each other: one hole must do for both."""
    axis = star(12.0, 12.0, 300.0)
    found = wanted(axis, 150.0, 13.0)
    owed = Owed(axis, NO_XY, 40.0, (0.0, 0.0), None)
    cover = held_cover(found, NONE, owed, 2, Watch())
    assert owed.kept(cover.holes)
    assert cover.tightness <= 1 + 1e-7


def test_impossible():
    """Two demands that no distance-keeping layout serves: none."""
    axis = path(30.0)
    found = wanted(axis, 7.0)
    owed = Owed(axis, NO_XY, 40.0, (15.0, 0.0), None)
    assert held_cover(found, NONE, owed, 3, Watch()) is None


def test_room_for_a_base():
    """Whether any two places hold the piece."""
    found = wanted(path(100.0), 50.0)
    owed = Owed(found.axis, NO_XY, 20.0, (50.0, 0.0), None)
    assert possible(owed, found.room, 100.0)
    assert not possible(owed, found.room, 100.1)
    aside = Owed(found.axis, NO_XY, 20.0, (150.0, 0.0), None)
    assert not possible(aside, found.room, 10.0)


def test_grid():
    """A grid holds all ends and is even."""
    found = wanted(path(100.0), 50.0)
    places = grid(found.room, 50)
    assert isinstance(places, ways.AxisPoints)
    assert np.diff(places.s) == pytest.approx(2.0)
    assert places.s[[0, -1]].tolist() == [0.0, 100.0]
