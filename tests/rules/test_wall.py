"""Holes against the wall's zones."""

from dataclasses import replace

import pytest

from holeplacer.plan import edit
from holeplacer.rules import wall, wall_ground
from holeplacer.rules.finding import PlaceKind
from holeplacer.wall.as_found import AsFound
from holeplacer.wall.wall import Elevation, Placing, Wall
from holeplacer.wall.zone import Studs, Zone

HUNG = Wall(Elevation(3000.0, 1000.0), Placing("left", 1000.0, "bottom", 500.0), clear_mm=20.0)
BEAM = Zone("blocked", "beam", "rectangle", ((1100.0, 0.0), (1150.0, 900.0)))
PATCH = Zone("unknown", "patch", "rectangle", ((1300.0, 0.0), (1360.0, 900.0)))
STUDS = Studs(1215.0, 400.0, 38.0)


@pytest.fixture
def drilled(plan):
    """Holes at 60, 110 (in the beam), 200 (on the stud) and 320 (in the patch)."""
    for x in (60.0, 110.0, 200.0, 320.0):
        plan = edit.with_hole_added(plan, x, 0.0)
    return plan


def found(plan, bar, axis, **change):
    return wall.check(edit.with_wall(plan, replace(HUNG, **change)), bar, axis)


def test_without_zones_there_is_no_finding(drilled, bar, axis):
    """A wall's size and the sign's place on it break nothing."""
    assert wall.check(drilled, bar, axis) == ()
    assert found(drilled, bar, axis) == ()


def test_a_hole_in_something_blocked_is_broken(drilled, bar, axis):
    """Named with what it meets, how deep, and the nearest place along the stroke."""
    (broken,) = found(drilled, bar, axis, zones=(BEAM,))
    assert broken.rule == wall.NAME == "wall"
    assert (broken.place.kind, broken.place.index) == (PlaceKind.HOLE, 2)
    assert broken.place.xy_mm == (110.0, 0.0)
    assert broken.value == pytest.approx(-25 - 25.4 * 5 / 32)
    assert broken.limit == 20.0
    assert broken.message == "Hole 2, drilled 7.9 mm, meets beam"
    assert broken.way_out.startswith("move it ")
    assert "mm along the stroke to x " in broken.way_out
    assert broken.broken


def test_a_hole_too_near_is_broken_with_its_figures(drilled, bar, axis):
    """Clear distance is from the drilled hole's edge."""
    near = edit.with_hole_moved(drilled, 1, 70.0, 0.0)
    one, _ = found(near, bar, axis, zones=(BEAM,))
    assert one.value == pytest.approx(15 - 25.4 * 5 / 32)
    assert "comes within 11.0 mm of beam, at least 20.0 mm needed" in one.message
    just = 85 - 20 - 25.4 * 5 / 32
    assert len(found(edit.with_hole_moved(drilled, 1, just, 0.0), bar, axis, zones=(BEAM,))) == 1


def test_unknown_ground_is_a_note(drilled, bar, axis):
    """It breaks nothing unless only good zones will do."""
    (note,) = found(drilled, bar, axis, zones=(PATCH,))
    assert note.place.index == 4
    assert not note.broken
    assert "patch: unknown" in note.message
    findings = found(drilled, bar, axis, zones=(PATCH,), studs=(STUDS,), landing="only")
    assert [item.broken for item in findings] == [True] * 3


def test_landing_on_nothing_is_told_where_good_zones_are_known(drilled, bar, axis):
    """A note if good zones are preferred, broken if they are asked for, nothing if neither."""
    (note,) = found(drilled, bar, axis, studs=(STUDS,))
    assert (note.broken, note.value, note.unit) == (False, 3.0, "")
    assert note.message.endswith("3 of 4 holes land on nothing that is known to hold: 1, 2, 4")
    only = found(drilled, bar, axis, studs=(STUDS,), landing="only")
    assert [item.place.index for item in only] == [1, 2, 4]
    assert all(item.broken for item in only)
    assert "lands on nothing that is known to hold: 71.0 mm outside" in only[1].message
    assert "the nearest good place" in only[1].way_out
    assert only[1].value == pytest.approx(-71.0)
    alone = edit.with_holes(drilled, drilled.holes[1:3])
    (one,) = found(alone, bar, axis, studs=(STUDS,))
    assert (one.place.index, one.broken) == (2, False)
    assert found(drilled, bar, axis, studs=(STUDS,), landing="any") == ()


def test_what_was_found_on_site_is_broken_where_it_was_found(drilled, bar, axis):
    """The hole itself, and others that come near; moved away it is well."""
    steel = AsFound(3, "steel", 200.0, 0.0)
    (here,) = found(drilled, bar, axis, as_found=(steel,))
    assert "Hole 3 was found blocked: steel" in here.message
    near = edit.with_hole_moved(drilled, 4, 220.0, 0.0)
    other = found(near, bar, axis, as_found=(steel,))[1]
    assert "Hole 4 is 20.0 mm from where steel was found (hole 3" in other.message
    away = edit.with_hole_moved(drilled, 3, 240.0, 0.0)
    assert found(away, bar, axis, as_found=(steel,)) == ()


def test_a_glued_standoff_drills_nothing(drilled, bar, axis):
    """It may hang in front of a beam."""
    glued = edit.with_hole_fastened(drilled, 2, False)
    assert found(glued, bar, axis, zones=(BEAM,)) == ()


def test_no_place_at_all_says_what_else_may_be_done(drilled, bar, axis):
    """The ways out are named."""
    everywhere = Zone("blocked", "window", "rectangle", ((0.0, 0.0), (3000.0, 1000.0)))
    findings = found(drilled, bar, axis, zones=(everywhere,))
    assert len(findings) == 4
    assert "glue this standoff on without a fastener" in findings[0].way_out


@pytest.mark.parametrize("landing", ["any", "prefer", "only"])
def test_the_count_is_that_of_the_findings(drilled, bar, axis, landing):
    """Broken holes are counted alike without their sentences."""
    plan = edit.with_wall(
        drilled,
        replace(
            HUNG,
            zones=(BEAM, PATCH),
            studs=(STUDS,),
            landing=landing,
            as_found=(AsFound(1, "", 60.0, 0.0),),
        ),
    )
    findings = wall.check(plan, bar, axis)
    assert wall.broken(plan, bar) == sum(item.broken for item in findings)
    assert wall.limit(plan) == wall_ground.limit_mm(plan)


def test_what_each_hole_meets(drilled, bar):
    """In the plan's order."""
    plan = edit.with_wall(drilled, replace(HUNG, zones=(BEAM, PATCH), studs=(STUDS,)))
    assert [met.ground for met in wall.landings(plan, bar)] == [
        "none",
        "blocked",
        "good",
        "unknown",
    ]
