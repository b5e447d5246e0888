"""Places along the stroke for a hole that can't be where it is."""

from dataclasses import replace

import numpy as np
import pytest
import shapely

from holeplacer.medial_axis import medial_axis
from holeplacer.outline.outline import Outline
from holeplacer.placement import elsewhere
from holeplacer.plan import edit
from holeplacer.plan.hole import Hole
from holeplacer.rules import edge_distance, neighbours


@pytest.fixture(scope="module")
def bar():
    outline = Outline.from_geometry(shapely.box(0, 0, 800, 60))
    return outline, medial_axis.medial_axis(outline)


def _places(plan, bar, lost, pitch_mm=5.0):
    return elsewhere.places(plan, *bar, lost, pitch_mm=pitch_mm)


def test_places_have_metal_and_room_and_come_nearest_first(plan, bar):
    """Every place keeps edge and neighbours; ways rise; onward tells the side."""
    plan = edit.with_holes(plan, [Hole(1, 100.0, 30.0), Hole(3, 600.0, 30.0)])
    found = _places(plan, bar, Hole(2, 400.0, 30.0))
    assert len(found) > 50
    assert (np.diff(found.way_mm) >= 0).all()
    boundary = bar[0].region.boundary
    edge = shapely.distance(boundary, shapely.points(found.xy))
    assert edge.min() >= edge_distance.limit(plan) - 0.02
    for hole in plan.holes:
        apart = np.hypot(*(found.xy - (hole.x_mm, hole.y_mm)).T)
        assert apart.min() >= neighbours.limit(plan) - 0.02
    right = found.xy[:, 0] > 401.0
    assert len({bool(side) for side in found.onward[right]}) == 1
    assert found.way_mm == pytest.approx(np.abs(found.xy[:, 0] - 400.0), abs=15.0)


def test_none_lie_beyond_one_spacing(plan, bar):
    """What is further off does another hole's work."""
    plan = edit.with_limits(plan, replace(plan.limits, spacing_mm=120.0))
    assert _places(plan, bar, Hole(2, 400.0, 30.0)).way_mm.max() <= 120.0


def test_half_way_lies_between(plan, bar):
    """Half way between two on one side; none across the lost hole."""
    found = _places(plan, bar, Hole(2, 400.0, 30.0))
    side = np.flatnonzero(found.onward)
    one, two = found[side[[1]]], found[side[[3]]]
    middle = one.halfway(two)
    assert middle.way_mm[0] == pytest.approx((one.way_mm[0] + two.way_mm[0]) / 2)
    assert one.halfway(found[np.flatnonzero(~found.onward)[[0]]]) is None


def test_pairs_reach_all_that_was_held(plan, bar):
    """Each pair leaves no stroke between the neighbours further than half the spacing."""
    whole = edit.with_holes(
        plan, [Hole(1, 100.0, 30.0), Hole(2, 400.0, 30.0), Hole(3, 700.0, 30.0)]
    )
    bare = edit.without_hole(whole, 2)
    found = _places(bare, bar, whole.holes[1], 20.0)
    pairs = elsewhere.pairs(whole, bare, *bar, found)
    assert pairs
    for pair in pairs:
        low, high = sorted(found.xy[list(pair), 0])
        assert max(low - 100, high - low, 700 - high) <= 300 + 5.0
    reach = [found.way_mm[list(pair)].sum() for pair in pairs]
    assert reach == sorted(reach)


def test_a_piece_without_axis_gives_none(plan):
    """A dot's axis is a lone point: there is no stroke to go along."""
    outline = Outline.from_geometry(shapely.Point(0, 0).buffer(20))
    dot = outline, medial_axis.medial_axis(outline)
    found = _places(plan, dot, Hole(1, 0.0, 0.0))
    assert len(found) == 0
    assert elsewhere.pairs(plan, plan, *dot, found) == ()
