"""Holes beside seams."""

from dataclasses import replace

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from holeplacer.plan import edit
from holeplacer.plan.seam import Seam
from holeplacer.plan.sections import SectionsChoice
from holeplacer.rules import edge_distance, seam_distance
from holeplacer.rules.finding import PlaceKind

PLACES = st.floats(-50, 50).map(lambda place: round(place, 3))
SEAM = Seam(200.0, -15.0, 200.0, 15.0)


def with_clear(plan, clear):
    return edit.with_sections(plan, SectionsChoice(seam_clear_mm=clear))


def test_the_hole_keeps_the_entered_distance_from_its_edge(plan):
    """Half the hole and what heat, filler and grinding need."""
    assert seam_distance.limit(with_clear(plan, 20.0), 8.0) == pytest.approx(24.0)
    assert "20 mm for heat" in seam_distance.governs(with_clear(plan, 20.0), 8.0)


def test_a_seam_is_a_cut_edge_however_little_is_entered(plan):
    """The edge distance stays."""
    bare = with_clear(plan, 0.0)
    assert seam_distance.limit(bare) == edge_distance.limit(bare)
    assert seam_distance.governs(bare).startswith("as to a cut edge")


def test_every_hole_too_near_is_found_with_all_five_parts(plan, bar, axis):
    """The nearest seam is named; the hole that keeps its distance is not."""
    plan = edit.with_seams(with_clear(plan, 20.0), (Seam(50.0, -15.0, 50.0, 15.0), SEAM))
    for x in (60.0, 120.0, 190.0):
        plan = edit.with_hole_added(plan, x, 3.0)
    one, two = seam_distance.check(plan, bar, axis)
    assert (one.rule, one.place.kind, one.place.index) == ("seam_distance", PlaceKind.HOLE, 1)
    assert (one.value, one.limit) == (pytest.approx(10.0), pytest.approx(23.572))
    assert "Hole 1 is 10.00 mm from seam 1, at least 23.57 mm" in one.message
    assert one.way_out == "move hole or seam 13.57 mm along the stroke"
    assert "seam 2" in two.message
    assert two.place.index == 3


def test_nothing_is_said_without_holes_or_seams(plan, bar, axis):
    """There is nothing to be near to."""
    assert seam_distance.check(edit.with_seams(plan, (SEAM,)), bar, axis) == ()
    assert seam_distance.check(edit.with_hole_added(plan, 200.0, 0.0), bar, axis) == ()


@given(
    st.lists(st.tuples(*[PLACES] * 4), min_size=1, max_size=4),
    st.lists(st.tuples(*[PLACES] * 2), min_size=1, max_size=4),
)
def test_distances_against_another_reckoning(rows, at):
    """The same as of lines and points, also past the ends and of seams without length."""
    found = seam_distance.distances(tuple(Seam(*row) for row in rows), np.array(at))
    lines = shapely.linestrings(np.array(rows).reshape(-1, 2, 2))
    wanted = shapely.distance(shapely.points(np.array(at))[:, None], lines[None])
    np.testing.assert_allclose(found, wanted, atol=1e-6)


def test_the_limit_follows_the_hole_s_own_diameter(plan, bar, axis):
    """A large hole is too near where a small one is not."""
    plan = edit.with_seams(with_clear(plan, 20.0), (SEAM,))
    small = edit.with_hole_added(plan, 225.0, 0.0, diameter_mm=6.0)
    assert seam_distance.check(small, bar, axis) == ()
    large = replace(small, holes=(replace(small.holes[0], diameter_mm=12.0),))
    assert len(seam_distance.check(large, bar, axis)) == 1
