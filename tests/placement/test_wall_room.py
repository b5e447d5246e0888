"""Parts of the axis where the wall lets be drilled."""

from dataclasses import replace

import numpy as np
import pytest
import shapely
from graphs import strokes
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.medial_axis import ways
from holeplacer.medial_axis.medial_axis import medial_axis
from holeplacer.medial_axis.ways import AxisPoints
from holeplacer.placement import candidates, wall_room
from holeplacer.rules import wall_ground
from holeplacer.wall.as_found import AsFound
from holeplacer.wall.wall import Wall
from holeplacer.wall.zone import Zone

CURVE = [(300 + 120 * np.cos(t), 120 * np.sin(t)) for t in np.linspace(0, 5, 60)]
SIGN = strokes([[(0, 0), (180, 0)], CURVE, [(420, 0), (700, 60), (900, 300)]])
AXIS = medial_axis(SIGN)
ROOM = candidates.wide(AXIS, 9.5)


def test_without_zones_the_room_is_untouched(plan):
    """Not even copied."""
    assert wall_room.allowed(plan, SIGN, AXIS, ROOM) is ROOM
    assert wall_room.taken(plan, SIGN) is None


place = st.tuples(st.floats(-50, 950), st.floats(-250, 350))


@settings(max_examples=40, deadline=None)
@given(place, st.floats(5, 300), st.floats(5, 300), st.floats(0, 3))
def test_what_is_within_an_area_against_sampling(corner, width, height, turn):
    """Every sampled point of the axis is in a stretch exactly if it is in the area."""
    x, y = corner
    area = shapely.affinity.rotate(shapely.box(x, y, x + width, y + height), turn, use_radians=True)
    inside = wall_room.within(AXIS, area)
    net = ways.network(AXIS)
    branch = np.repeat(np.arange(len(net.length)), 300)
    s = np.concatenate([np.linspace(0, length, 300) for length in net.length])
    xy = ways.places(AXIS, AxisPoints.on_branches(branch, s))
    clear = shapely.distance(area.boundary, shapely.points(xy)) > 1e-6
    found = inside.holding(branch, s) >= 0
    assert np.array_equal(found[clear], shapely.contains_xy(area, xy)[clear])


def test_no_allowed_place_breaks_the_rule(plan):
    """Ends and middles of what is left; a margin is kept for rounding, and little more."""
    beam = Zone("blocked", "beam", "polygon", ((100.0, -200.0), (260.0, 200.0), (150.0, 260.0)))
    found = AsFound(1, "steel", 700.0, 60.0)
    blocked = replace(plan, wall=Wall(zones=(beam,), as_found=(found,), clear_mm=10.0))
    left = wall_room.allowed(blocked, SIGN, AXIS, ROOM)
    assert 0 < left.length.sum() < ROOM.length.sum()
    xy = np.concatenate(
        [
            ways.places(AXIS, AxisPoints.on_branches(left.branch, left.low + share * left.length))
            for share in (0.0, 0.3, 0.5, 1.0)
        ]
    )
    assert not wall_room.taken(blocked, SIGN)(xy).any()
    stops = wall_ground.forbidden(blocked, SIGN)
    ends = xy[: len(left)]
    near = shapely.distance(stops, shapely.points(ends))
    assert near.min() == pytest.approx(wall_room.MARGIN_MM, abs=0.1)


def test_room_is_split_at_good_zones(plan):
    """Nothing is lost, each part is on good zones or off them; good only keeps the former."""
    post = Zone("good", "post", "rectangle", ((400.0, -300.0), (600.0, 300.0)))
    known = replace(plan, wall=Wall(zones=(post,), inside_mm=10.0))
    parts, is_good = wall_room.split(known, SIGN, AXIS, ROOM)
    assert parts.length.sum() == pytest.approx(ROOM.length.sum())
    middles = AxisPoints.on_branches(parts.branch, (parts.low + parts.high) / 2)
    x = ways.places(AXIS, middles)[:, 0]
    assert np.array_equal(is_good, (x > 410) & (x < 590))
    only = replace(known, wall=replace(known.wall, landing="only"))
    left = wall_room.allowed(only, SIGN, AXIS, ROOM)
    assert left.length.sum() == pytest.approx(parts.length[is_good].sum())
