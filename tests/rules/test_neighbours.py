"""Holes near each other."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.medial_axis.axis import Axis
from holeplacer.outline.outline import Outline
from holeplacer.plan import edit
from holeplacer.plan.limits import Limits
from holeplacer.plan.plan import Plan, StandoffChoice
from holeplacer.rules import neighbours

NO_AXIS = Axis((), np.empty((0, 2)), np.empty(0), np.empty(0, np.intp), ())
NO_METAL = Outline(())


def two(plan, apart, *diameters):
    plan = edit.with_hole_added(plan, 100, 0, diameter_mm=diameters[0] if diameters else None)
    return edit.with_hole_added(plan, 100 + apart, 0, diameter_mm=(*diameters, None, None)[1])


def test_rule_set_governs_a_new_plan(plan, bar, axis):
    """Three studs of 1/4 in are 3/4 in."""
    assert neighbours.limit(plan) == pytest.approx(19.05)
    assert neighbours.check(two(plan, 19.05), bar, axis) == ()
    (found,) = neighbours.check(two(plan, 19.0), bar, axis)
    assert found.value == pytest.approx(19.0)
    assert "Holes 1 and 2" in found.message
    assert "0.05 mm further apart" in found.way_out


def test_wide_caps_may_not_touch(plan):
    """A cap wider than three studs governs."""
    wide = replace(plan, standoff=StandoffChoice(cap_mm=30.0))
    assert neighbours.limit(wide) == 30.0
    assert "must not touch" in neighbours.governs(wide)


def test_entered_distance_takes_the_rule_sets_place(plan):
    """But metal between the holes and their hardware still count."""
    entered = replace(plan, limits=Limits(neighbour_mm=5.0))
    assert neighbours.limit(entered) == pytest.approx(12.7)
    bare = replace(entered, standoff=StandoffChoice(cap_mm=0.0, barrel_mm=0.0))
    assert neighbours.limit(bare) == pytest.approx(7.144 + 3.0)
    assert neighbours.limit(replace(plan, limits=Limits(neighbour_mm=50.0))) == 50.0


def test_larger_hole_of_a_pair_counts(plan):
    """The limit does not depend on which is named first."""
    assert neighbours.limit(plan, 5.5, 20.0) == neighbours.limit(plan, 20.0, 5.5)
    assert neighbours.limit(plan, 5.5) == pytest.approx(15.0)


def test_two_holes_in_one_place_are_told(plan, bar, axis):
    """A hole put down twice is a finding, not a crash."""
    (found,) = neighbours.check(two(plan, 0.0), bar, axis)
    assert found.value == 0.0


@settings(max_examples=40, deadline=None)
@given(
    st.lists(
        st.tuples(st.floats(0, 120), st.floats(0, 40), st.sampled_from([None, 4.0, 14.0])),
        max_size=9,
    )
)
def test_pairs_against_looking_at_every_pair(places):
    """The same pairs are found as by measuring each against each."""
    plan = Plan(ArtworkFile("a.svg", b""))
    for x, y, diameter in places:
        plan = edit.with_hole_added(plan, x, y, diameter_mm=diameter)
    expected = 0
    for i, one in enumerate(plan.holes):
        for other in plan.holes[i + 1 :]:
            apart = np.hypot(one.x_mm - other.x_mm, one.y_mm - other.y_mm)
            least = neighbours.limit(plan, plan.diameter_of(one), plan.diameter_of(other))
            expected += apart < least - 1e-6
    assert len(neighbours.check(plan, NO_METAL, NO_AXIS)) == expected
