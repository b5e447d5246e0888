"""Holes on good zones of the wall where that costs none."""

from dataclasses import replace

import numpy as np
import pytest
import shapely
from graphs import strokes

from holeplacer.medial_axis.medial_axis import medial_axis
from holeplacer.outline.outline import Outline
from holeplacer.placement.propose import propose
from holeplacer.rules import edge_distance, neighbours, spacing, turning, wall
from holeplacer.wall.wall import Wall
from holeplacer.wall.zone import Studs, Zone

BAR = strokes([[(0, 0), (1200, 0)]])
AXIS = medial_axis(BAR)
LOOP = [(300 + 120 * np.cos(t), 120 * np.sin(t)) for t in np.linspace(0, 2 * np.pi, 60)]
WORD = Outline.from_geometry(
    shapely.union_all(
        [strokes([[(0, 0), (180, 0)], LOOP, [(420, 0), (700, 60), (900, 300)]]).region]
    )
)
WORD_AXIS = medial_axis(WORD)


def studs(first, spacing=406.4, width=38.0):
    return Studs(first, spacing, width, count=40, bottom_mm=-500.0, top_mm=900.0)


def proposed(plan, sign, axis, **change):
    known = replace(plan, wall=Wall(**change))
    found = propose(known, sign, axis)
    placed = replace(known, holes=found.holes)
    grounds = [met.ground for met in wall.landings(placed, sign)]
    return found, placed, grounds


@pytest.mark.parametrize(("first", "on_studs"), [(40.0, 4), (60.0, 4), (110.0, 5), (120.0, 5)])
def test_holes_are_on_studs_where_as_few_will_do(plan, first, on_studs):
    """Studs 240 mm apart carry all five holes of a bar if they come near enough to both tips."""
    plan = replace(plan, limits=replace(plan.limits, overhang_mm=150.0))
    found, _, grounds = proposed(plan, BAR, AXIS, studs=(studs(first, 240.0),))
    assert (found.count, found.proven) == (5, True)
    assert grounds.count("good") == on_studs


def test_prefer_costs_no_hole_and_keeps_every_rule(plan):
    """The count stays proven; more holes are on studs than without asking."""
    free, _, _ = proposed(plan, WORD, WORD_AXIS)
    zones = {"studs": (studs(45.0, 200.0, 60.0),)}
    _, _, before = proposed(plan, WORD, WORD_AXIS, landing="any", **zones)
    found, placed, grounds = proposed(plan, WORD, WORD_AXIS, **zones)
    assert (found.count, found.lower_bound, found.proven) == (free.count, free.lower_bound, True)
    assert grounds.count("good") > before.count("good")
    for rule in (spacing, edge_distance, neighbours, turning):
        assert rule.check(placed, WORD, WORD_AXIS) == ()


def test_without_good_zones_nothing_changes(plan):
    """Zones elsewhere and no wish leave the proposal as it is, hole for hole."""
    free, _, _ = proposed(plan, WORD, WORD_AXIS)
    far = Zone("blocked", "pipe", "rectangle", ((0.0, 5000.0), (900.0, 5100.0)))
    for change in ({"zones": (far,)}, {"studs": (studs(45.0),), "landing": "any"}):
        found, _, _ = proposed(plan, WORD, WORD_AXIS, **change)
        assert found.holes == free.holes
        assert found.proven


@pytest.mark.parametrize("at", [(700.0, 60.0), (300.0, 120.0), (60.0, 0.0)])
def test_what_is_blocked_takes_no_hole(plan, at):
    """The count is proven for what is left; every rule is kept, the wall's too."""
    x, y = at
    box = Zone("blocked", "box", "rectangle", ((x - 15, y - 15), (x + 15, y + 15)))
    found, placed, _ = proposed(plan, WORD, WORD_AXIS, zones=(box,), clear_mm=10.0)
    assert wall.broken(placed, WORD) == 0
    assert found.proven
    for rule in (spacing, edge_distance, neighbours, turning):
        assert rule.check(placed, WORD, WORD_AXIS) == ()


def test_good_only_leaves_the_rest_unsupported_with_the_reason(plan):
    """Strokes out of reach of any stud are named, and why no hole can be there."""
    found, placed, grounds = proposed(
        plan, WORD, WORD_AXIS, studs=(studs(50.0, 5000.0),), landing="only"
    )
    assert set(grounds) == {"good"}
    assert found.unsupported
    assert any("the wall" in item.reason for item in found.unsupported)
    assert wall.broken(placed, WORD) == 0


def test_a_blocked_dot_has_no_hole(plan):
    """Neither one nor a pair."""
    dot = Outline.from_geometry(shapely.Point(0, 0).buffer(40))
    axis = medial_axis(dot)
    box = Zone("blocked", "box", "rectangle", ((-60.0, -60.0), (60.0, 60.0)))
    found, _, _ = proposed(plan, dot, axis, zones=(box,))
    assert found.holes == ()
    half = Zone("blocked", "box", "rectangle", ((-60.0, 5.0), (60.0, 60.0)))
    _, placed, _ = proposed(plan, dot, axis, zones=(half,), clear_mm=0.0)
    assert wall.broken(placed, dot) == 0
