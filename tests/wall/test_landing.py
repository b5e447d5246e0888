"""What a fastener meets at a place of the wall."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.wall import landing
from holeplacer.wall.wall import Elevation, Wall
from holeplacer.wall.zone import Studs, Zone

BEAM = Zone("blocked", "beam", "rectangle", ((1000.0, 800.0), (0.0, 600.0)))
PIPE = Zone("blocked", "conduit", "band", ((1500.0, 0.0), (1500.0, 1000.0)), 12.0)
SKIN = Zone("unknown", "patch", "polygon", ((2000.0, 0.0), (2400.0, 0.0), (2000.0, 400.0)))
WALL = Wall(
    Elevation(3000.0, 1200.0),
    zones=(BEAM, PIPE, SKIN),
    studs=(Studs(100.0, 400.0, 38.0),),
    clear_mm=25.0,
    inside_mm=9.0,
)


def met(x, y, radius=3.0, wall=WALL):
    return landing.landings(wall, radius, [(x, y)])[0]


def test_studs_at_a_spacing_become_bands():
    """As many as the wall is wide enough for, each as wide as a stud, over the wall's height."""
    bands = landing.zones_of(WALL)[3:]
    assert [band.points_mm[0][0] for band in bands] == [100 + 400 * i for i in range(8)]
    assert {band.half_width_mm for band in bands} == {19.0}
    assert {band.points_mm[1][1] for band in bands} == {1200.0}
    counted = Wall(studs=(Studs(0.0, 400.0, count=3, top_mm=900.0),))
    assert len(landing.zones_of(counted)) == 3


@pytest.mark.parametrize(
    ("x", "y", "ground", "what"),
    [
        (100.0, 100.0, "good", "stud"),
        (110.0, 100.0, "good", "stud"),
        (110.5, 100.0, "none", ""),
        (100.0, 700.0, "blocked", "beam"),
        (100.0, 572.5, "blocked", "beam"),
        (100.0, 571.5, "good", "stud"),
        (1500.0, 100.0, "blocked", "conduit"),
        (1540.5, 100.0, "none", ""),
        (1539.5, 100.0, "blocked", "conduit"),
        (2100.0, 100.0, "unknown", "patch"),
        (2400.0 - 2.0, 4.0, "unknown", "patch"),
        (700.0, 100.0, "none", ""),
    ],
)
def test_what_a_place_meets(x, y, ground, what):
    """Blocked reaches out by the clear distance and the drill; good counts well inside only."""
    found = met(x, y)
    assert (found.ground, found.what) == (ground, what)


def test_blocked_goes_before_good_and_unknown():
    """A stud with a conduit in it is a conduit; a stud behind an unknown patch is unknown."""
    stud = Zone("good", "post", "rectangle", ((1400.0, 0.0), (2300.0, 500.0)))
    both = replace(WALL, zones=(*WALL.zones, stud))
    assert met(1500.0, 100.0, wall=both).ground == "blocked"
    assert met(2100.0, 100.0, wall=both).ground == "unknown"
    assert met(1700.0, 100.0, wall=both).ground == "good"


def test_distances_are_told():
    """To the nearest blocked zone by name, negative inside, and how far inside a good one."""
    found = met(100.0, 500.0)
    assert (found.blocked_by, found.blocked_mm) == ("beam", pytest.approx(100.0))
    assert found.inside_mm == pytest.approx(19.0)
    assert met(100.0, 650.0).blocked_mm == pytest.approx(-50.0)
    bare = landing.landings(Wall(), 3.0, [(0.0, 0.0)])[0]
    assert (bare.ground, bare.blocked_mm, bare.inside_mm) == ("none", None, None)
    assert not landing.any_zones(Wall())


def test_a_crossed_polygon_counts_with_all_it_encloses():
    """A bow tie blocks in both of its halves."""
    tie = ((0.0, 0.0), (100.0, 100.0), (100.0, 0.0), (0.0, 100.0))
    wall = Wall(zones=(Zone("blocked", "vent", "polygon", tie),), clear_mm=0.0)
    assert landing.blocks(wall, 1.0, [(10.0, 50.0), (90.0, 50.0)]).all()
    assert not landing.blocks(wall, 1.0, [(50.0, 90.0)]).any()


def by_hand(zone, x, y):
    """Signed distance to a band of one line or a rectangle, negative inside, by closed form."""
    if zone.shape == "rectangle":
        (x1, y1), (x2, y2) = zone.points_mm
        cx, cy, half, high = (x1 + x2) / 2, (y1 + y2) / 2, abs(x2 - x1) / 2, abs(y2 - y1) / 2
        dx, dy = abs(x - cx) - half, abs(y - cy) - high
    else:
        (x1, y1), (x2, y2) = zone.points_mm
        long = math.hypot(x2 - x1, y2 - y1)
        ux, uy = (x2 - x1) / long, (y2 - y1) / long
        along = (x - (x1 + x2) / 2) * ux + (y - (y1 + y2) / 2) * uy
        across = (y - y1) * ux - (x - x1) * uy
        dx, dy = abs(along) - long / 2, abs(across) - zone.half_width_mm
    return math.hypot(max(dx, 0), max(dy, 0)) + min(max(dx, dy), 0)


spot = st.tuples(st.floats(-500, 500), st.floats(-500, 500))
side = st.floats(5, 300)


@settings(max_examples=60, deadline=None)
@given(spot, st.tuples(side, side), st.floats(2, 80), st.booleans(), spot)
def test_clear_distances_agree_with_closed_forms(one, span, half, upright, place):
    """Rectangles and slanted bands, inside and outside."""
    two = (one[0] + span[0], one[1] + span[1])
    zone = (
        Zone("blocked", "a", "rectangle", (one, two))
        if upright
        else Zone("blocked", "a", "band", (one, two), half)
    )
    found = landing.regions(Wall(zones=(zone,))).clear_mm("blocked", [place])
    assert found[0] == pytest.approx(by_hand(zone, *place), abs=1e-6)


@settings(max_examples=40, deadline=None)
@given(st.lists(st.tuples(st.floats(0, 3000), st.floats(0, 1200)), min_size=1, max_size=20))
def test_many_places_at_once_agree_with_one(places):
    """What steers proposals says the same as what is said of single holes."""
    blocked = landing.blocks(WALL, 3.0, places)
    held = landing.holds(WALL, 3.0, places)
    one = [landing.landings(WALL, 3.0, [place])[0].ground for place in places]
    assert np.array_equal(blocked, [ground == "blocked" for ground in one])
    assert np.array_equal(held & ~blocked, [ground == "good" for ground in one])
