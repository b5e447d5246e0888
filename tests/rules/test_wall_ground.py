"""Where on the sign the wall lets be drilled."""

from dataclasses import replace

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.plan.hole import Hole
from holeplacer.plan.plan import Plan
from holeplacer.rules import wall_ground
from holeplacer.wall.as_found import AsFound
from holeplacer.wall.layer import Layer
from holeplacer.wall.wall import Elevation, Placing, Wall
from holeplacer.wall.zone import Studs, Zone

BAR = (-15.0, -15.0, 415.0, 15.0)
"""Bounds of the bar; on this wall it begins 1000 mm from the left."""

HUNG = Wall(Elevation(3000.0, 1000.0), Placing("left", 1000.0, "bottom", 500.0), clear_mm=20.0)
BEAM = Zone("blocked", "beam", "rectangle", ((1100.0, 0.0), (1150.0, 900.0)))


def with_wall(plan, **change):
    return replace(plan, wall=replace(HUNG, **change))


def test_without_zones_and_marks_nothing_is_asked(plan):
    """A wall of which only the size is known forbids nothing."""
    assert not wall_ground.is_asked(plan)
    assert not wall_ground.is_asked(with_wall(plan))
    assert wall_ground.is_asked(with_wall(plan, zones=(BEAM,)))
    assert wall_ground.is_asked(with_wall(plan, as_found=(AsFound(1, "steel", 0.0, 0.0),)))


def test_the_drill_and_the_margin_make_the_limit(plan, bar):
    """5/16 in over a 1/4 in stud; on foam the hole takes a sleeve and is wider."""
    assert wall_ground.limit_mm(with_wall(plan)) == pytest.approx(20 + 25.4 * 5 / 32)
    foam = with_wall(plan, layers=(Layer("soft", 20.0), Layer("structure", 89.0)))
    assert wall_ground.limit_mm(foam) == pytest.approx(20 + 25.4 * 25 / 128)


def test_forbidden_is_in_sign_coordinates(plan, bar):
    """The wall's beam at 1100 lies at 85 on a sign hung at 1000 with its edge at -15."""
    hung = with_wall(plan, zones=(BEAM,))
    left, _, right, _ = wall_ground.forbidden(hung, bar).bounds
    out = wall_ground.limit_mm(hung)
    assert (left, right) == pytest.approx((85 - out, 135 + out), abs=0.01)
    assert wall_ground.forbidden(with_wall(plan), bar) is None
    assert wall_ground.firm(hung, bar) is None


def test_what_was_found_on_site_forbids_its_surroundings(plan, bar):
    """Both holes' edges are the entered distance apart; the wall's shift does not matter."""
    found = with_wall(plan, as_found=(AsFound(3, "steel", 200.0, 0.0),))
    radius = wall_ground.found_mm(found)
    assert radius == pytest.approx(20 + 2 * wall_ground.drill_radius_mm(found))
    places = np.array([(200 + radius - 0.01, 0.0), (200 + radius + 0.01, 0.0)])
    assert wall_ground.blocked(found, bar, places).tolist() == [True, False]
    area = wall_ground.forbidden(found, bar)
    assert shapely.intersects_xy(area, places).tolist()[0]


def test_firm_ground_is_inside_good_zones_only(plan, bar):
    """So far inside as is asked, clear of what is unknown and blocked."""
    studs = with_wall(plan, studs=(Studs(1100.0, 400.0, 38.0),), inside_mm=9.0)
    area = wall_ground.firm(studs, bar)
    parts = sorted(part.bounds[0::2] for part in shapely.get_parts(area))
    assert parts[0] == pytest.approx((75.0, 95.0))
    patched = with_wall(
        plan,
        studs=(Studs(1100.0, 400.0, 38.0),),
        zones=(Zone("unknown", "a", "rectangle", ((1100.0, 0.0), (1150.0, 1000.0))),),
        inside_mm=9.0,
    )
    first = min(shapely.get_parts(wall_ground.firm(patched, bar)), key=lambda part: part.bounds)
    assert first.bounds[2] == pytest.approx(85 - wall_ground.drill_radius_mm(patched), abs=0.01)


def test_good_only_forbids_all_else(plan, bar):
    """But only where good zones are known at all."""
    studs = with_wall(plan, studs=(Studs(1100.0, 400.0, 38.0),), landing="only")
    places = np.array([(85.0, 0.0), (120.0, 0.0)])
    assert wall_ground.blocked(studs, bar, places).tolist() == [False, True]
    assert not wall_ground.blocked(with_wall(plan, landing="only"), bar, places).any()


def test_the_nearest_place_is_along_the_stroke(plan, bar, axis):
    """On a stud where one is wanted, else just beside what is blocked."""
    hole = Hole(1, 100.0, 0.0)
    beside = wall_ground.nearest_place(with_wall(plan, zones=(BEAM,)), bar, axis, hole)
    assert not beside.good
    assert beside.xy_mm[0] == pytest.approx(60.0, abs=2.1)
    assert beside.way_mm == pytest.approx(100 - beside.xy_mm[0])
    stud = with_wall(plan, zones=(BEAM,), studs=(Studs(1300.0, 400.0, 38.0),))
    held = wall_ground.nearest_place(stud, bar, axis, hole)
    assert held.good
    assert held.xy_mm[0] == pytest.approx(275.5, abs=2.1)


def test_where_all_is_blocked_there_is_no_place(plan, bar, axis):
    """None is made up."""
    everywhere = Zone("blocked", "window", "rectangle", ((0.0, 0.0), (3000.0, 1000.0)))
    shut = with_wall(plan, zones=(everywhere,))
    assert wall_ground.nearest_place(shut, bar, axis, Hole(1, 100.0, 0.0)) is None


corner = st.tuples(st.floats(900, 1500), st.floats(400, 620))


@settings(max_examples=40, deadline=None)
@given(
    st.lists(
        st.tuples(corner, corner, st.sampled_from(["good", "blocked", "unknown"])), max_size=5
    ),
    st.lists(st.tuples(st.floats(-50, 450), st.floats(-60, 60)), min_size=1, max_size=12),
    st.sampled_from(["prefer", "only"]),
)
def test_areas_and_points_agree(zones, places, landing):
    """What a proposal steers by allows nothing that the rule then finds, and little less."""
    bar_outline = _bar()
    shapes = tuple(
        Zone(kind, "a", "rectangle", (one, two))
        for one, two, kind in zones
        if abs(one[0] - two[0]) > 1 and abs(one[1] - two[1]) > 1
    )
    plan = Plan(ArtworkFile("bar.svg", b""), wall=replace(HUNG, zones=shapes, landing=landing))
    xy = np.array(places)
    blocked = wall_ground.blocked(plan, bar_outline, xy)
    stops = wall_ground.forbidden(plan, bar_outline, 0.05)
    steered = np.zeros(len(xy), bool) if stops is None else shapely.intersects_xy(stops, xy)
    if wall_ground.only_good(plan):
        steered |= ~shapely.intersects_xy(wall_ground.firm(plan, bar_outline, 0.05), xy)
    assert not (blocked & ~steered).any()
    wider = replace(plan, wall=replace(plan.wall, clear_mm=20.2, inside_mm=9.7))
    if landing == "prefer":
        assert not (steered & ~wall_ground.blocked(wider, bar_outline, xy)).any()


def _bar():
    from holeplacer.outline.outline import Outline

    return Outline.from_geometry(shapely.box(*BAR))
