"""Seams straight across a stroke."""

from dataclasses import replace

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.medial_axis.ways import LONE, AxisPoint
from holeplacer.plan.hole import Hole
from holeplacer.seams import crossing, seams, sections
from tests.seams.conftest import SHAPES


@settings(max_examples=40, deadline=None)
@given(share=st.floats(0.05, 0.95), which=st.integers(0, 2))
def test_a_seam_runs_from_edge_to_edge_in_metal(sign, share, which):
    """Anywhere on the fork's strokes both ends lie on the cut edge and all between in metal."""
    made = sign(SHAPES["fork"], 0)
    branch = made.axis.branches[which % len(made.axis.branches)]
    at = AxisPoint(which % len(made.axis.branches), share * branch.length_mm)
    seam = crossing.seam_across(made.outline, made.axis, at)
    line = shapely.LineString([(seam.x1_mm, seam.y1_mm), (seam.x2_mm, seam.y2_mm)])
    assert made.outline.region.boundary.distance(line.boundary) < 1e-6
    assert line.difference(made.outline.region.buffer(1e-6)).length < 1e-6


def test_a_seam_in_the_middle_of_a_stroke_parts_it(sign):
    """It is as long as the stroke is wide, and its foot is where it was asked for."""
    made = sign(SHAPES["bar"], 0)
    at = AxisPoint(0, made.axis.branches[0].length_mm / 2)
    seam = crossing.seam_across(made.outline, made.axis, at, fixed=True)
    assert seam.length_mm == pytest.approx(12, abs=1e-3)
    assert seam.fixed
    assert len(sections.sections(made.outline, (seam,))) == 2
    assert crossing.foot_of(made.axis, seam).s_mm == pytest.approx(at.s_mm, abs=1e-3)


def test_a_dot_has_no_seam(sign):
    """A lone node has no stroke to cross."""
    made = sign(shapely.Point(0, 0).buffer(20), 0)
    assert crossing.seam_across(made.outline, made.axis, AxisPoint(LONE, 0.0, 0)) is None


def test_room_beside_its_limits(sign):
    """Distance to the hole that limits most, the nearest tip and junction, as the rules have it."""
    holes = (Hole(1, 30.0, 0.0), Hole(2, 100.0, 0.0))
    made = sign(SHAPES["fork"], 0, holes=holes)
    foot = crossing.foot_of(made.axis, crossing.Seam(70.0, -7.0, 70.0, 7.0))
    seam = crossing.seam_across(made.outline, made.axis, foot)
    hole, tip, junction = crossing.room(made.plan, made.axis, seam)
    assert (hole.what, hole.value_mm) == ("hole 2", pytest.approx(30.0, abs=0.01))
    assert (tip.what, tip.least_mm) == ("tip", 5.0)
    assert not junction.short
    near = replace(made.plan, sections=replace(made.plan.sections, seam_clear_mm=60.0))
    found = crossing.room(near, made.axis, seam)
    assert [item.short for item in found] == [True, False, True]
    assert len(seams.check(replace(near, seams=(seam,)), made.outline, made.axis)) == 1
