"""Metal between a hole and the cut edge."""

import math
from dataclasses import replace

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.medial_axis.axis import Axis
from holeplacer.outline.outline import Outline
from holeplacer.plan import edit
from holeplacer.plan.limits import Limits
from holeplacer.plan.plan import Plan
from holeplacer.rules import edge_distance

NO_AXIS = Axis((), np.empty((0, 2)), np.empty(0), np.empty(0, np.intp), ())
PLATE = Outline.from_geometry(
    shapely.box(0, 0, 120, 60).difference(shapely.Point(60, 30).buffer(15, quad_segs=32))
)


def test_limit_is_the_greatest_demand(plan):
    """On a new plan that is 1.5 times the 1/4 in stud."""
    assert edge_distance.limit(plan) == pytest.approx(9.525)
    assert edge_distance.governs(plan) == "AISI S100, bolts: 1.5 × 6.35 mm stud"
    assert "ligament" in edge_distance.governs(replace(plan, limits=Limits(ligament_mm=8.0)))


def test_middle_of_the_bar_is_fine(plan, bar, axis):
    """Fifteen millimetres are enough."""
    assert edge_distance.check(edit.with_hole_added(plan, 200, 0), bar, axis) == ()


def test_at_the_limit_is_fine(plan, bar, axis):
    """A hole exactly at its limit breaks nothing; a hundredth nearer does."""
    at_limit = 15 - edge_distance.limit(plan)
    assert edge_distance.check(edit.with_hole_added(plan, 200, at_limit), bar, axis) == ()
    assert edge_distance.check(edit.with_hole_added(plan, 200, at_limit + 0.01), bar, axis)


def test_too_near_is_told_with_figures_and_cures(plan, bar, axis):
    """Value, limit, reason, ligament; where to move it, and what else would do."""
    (found,) = edge_distance.check(edit.with_hole_added(plan, 205, 7), bar, axis)
    assert found.value == pytest.approx(8.0)
    assert found.limit == pytest.approx(9.525)
    assert "AISI S100" in found.message
    assert "ligament 4.43 mm" in found.message
    assert "move it 8.6 mm to x 200.0, y 0.0 mm" in found.way_out
    assert "a boss of 9.6 mm" in found.way_out
    assert "fatter by 1.6 mm" in found.way_out


def test_off_the_metal_is_told(plan, bar, axis):
    """A hole in the air has a negative distance and can only be moved."""
    (found,) = edge_distance.check(edit.with_hole_added(plan, 200, 20), bar, axis)
    assert found.value == pytest.approx(-5.0)
    assert "outside the metal" in found.message
    assert found.way_out == "move it 20.0 mm to x 200.0, y 0.0 mm"


def test_own_diameter_has_its_own_limit(plan, bar, axis):
    """A smaller hole may lie nearer."""
    small = edit.with_hole_added(plan, 200, 7, diameter_mm=5.5)
    assert edge_distance.check(small, bar, axis) == ()


def test_no_holes_no_findings(plan, bar, axis):
    """An empty plan breaks nothing here."""
    assert edge_distance.check(plan, bar, axis) == ()


@settings(max_examples=60, deadline=None)
@given(st.floats(-10, 130), st.floats(-10, 70), st.floats(3, 12))
def test_rule_against_the_disc_in_the_metal(x, y, diameter):
    """A hole breaks the rule just when the disc of its limit leaves the metal, on any side."""
    plan = edit.with_hole_added(Plan(ArtworkFile("a.svg", b"")), x, y, diameter_mm=diameter)
    limit = edge_distance.limit(plan, diameter)
    angle = np.linspace(0, 2 * math.pi, 721)
    rim = shapely.points(x + limit * np.cos(angle), y + limit * np.sin(angle))
    inside = bool(shapely.covers(PLATE.region, rim).all()) and PLATE.region.covers(
        shapely.Point(x, y)
    )
    (distance,) = PLATE.edge_distance((x, y))
    if abs(distance - limit) < 0.02:
        return
    assert (edge_distance.check(plan, PLATE, NO_AXIS) == ()) == inside
