"""Strokes too thin for any hole."""

from dataclasses import replace

import numpy as np
import pytest
import shapely

from holeplacer.evaluation import thin_strokes
from holeplacer.medial_axis import medial_axis, ways
from holeplacer.outline.outline import Outline
from holeplacer.plan.limits import Limits
from holeplacer.plan.plan import SheetChoice, StandoffChoice


def limited(plan, edge):
    """The plan with an entered edge distance as its only demand of note."""
    return replace(plan, limits=Limits(edge_distance_mm=edge, ligament_mm=0.0))


def test_a_hair_and_a_dot_take_no_hole(plan, axis):
    """Below 15 mm the hair stroke is thin all along, and the dot of 14 mm radius too."""
    found = thin_strokes.thin_strokes(limited(plan, 14.5), axis)
    assert [item.length_mm for item in found] == pytest.approx([300.0, 0.0], abs=1.0)
    assert found[0].width_mm == pytest.approx(8.0, abs=0.1)
    assert found[1].xy_mm == pytest.approx((300.0, 90.0), abs=0.5)
    assert thin_strokes.needed_width_mm(limited(plan, 14.5)) == 29.0


def test_wide_metal_is_not_listed(plan, axis):
    """Where every place has the metal, nothing is thin."""
    small = replace(
        limited(plan, 3.0),
        standoff=StandoffChoice(stud_mm=1.8, hole_mm=2.0, cap_mm=0.0),
        sheet=SheetChoice(process="laser"),
    )
    assert thin_strokes.thin_strokes(small, axis) == ()


def test_everything_is_thin_for_a_great_demand(plan, axis):
    """Then the stretches are as long as the axis, dots apart, each piece one stretch."""
    found = thin_strokes.thin_strokes(limited(plan, 40.0), axis)
    assert sum(item.length_mm for item in found) == pytest.approx(axis.length_mm)
    assert len(found) == 4


@pytest.mark.parametrize("edge", [6.0, 9.5, 13.0])
def test_a_wedge_is_thin_as_far_as_samples_say(plan, edge):
    """Second way: points a tenth of a millimetre apart along the axis, each asked by itself."""
    wedge = Outline.from_geometry(shapely.Polygon([(0, -4), (400, -16), (400, 16), (0, 4)]))
    axis = medial_axis.medial_axis(wedge)
    found = thin_strokes.thin_strokes(limited(plan, edge), axis)
    net = ways.network(axis)
    thin = 0
    for index in range(len(axis.branches)):
        s = (0.05 + 0.1 * np.arange(int(net.length[index] * 10))).clip(0, net.length[index])
        points = ways.AxisPoints.on_branches(np.full(len(s), index), s)
        thin += int((ways.clearances(axis, points) < edge).sum())
    assert sum(item.length_mm for item in found) == pytest.approx(thin / 10, abs=0.5)
    assert all(item.width_mm <= 2 * edge + 1e-6 for item in found)
