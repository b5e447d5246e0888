"""Caps and tips."""

import numpy as np
import pytest
import shapely
from shapes import outline, stroke

from holeplacer.medial_axis import bisector
from holeplacer.medial_axis.boundary import boundary_of
from holeplacer.medial_axis.caps import caps
from holeplacer.medial_axis.medial_axis import medial_axis
from holeplacer.medial_axis.rows import Rows


def tips(shape):
    return sorted(medial_axis(outline(shape)).tips, key=lambda tip: tip.xy)


def test_square_cuts_end_on_the_axis():
    """Of a whole edge equally far out, the point on the axis' own line is the tip."""
    first, last = tips(shapely.box(0, 0, 400, 40))
    assert (first.xy, last.xy) == (pytest.approx((0, 20)), pytest.approx((400, 20)))
    assert first.reach_mm == pytest.approx(20)


@pytest.mark.parametrize("quad_segs", [3, 8, 50, 300])
def test_round_caps_end_on_the_axis(quad_segs):
    """A round cap's tip lies straight ahead, however it is flattened."""
    first, last = tips(stroke([(0, 0), (90, 0)], 10, quad_segs))
    assert first.xy == pytest.approx((-10, 0), abs=0.5)
    assert last.xy == pytest.approx((100, 0), abs=0.5)


def test_points_are_their_own_tips():
    """A stroke that runs out in a point has it for its tip, though the axis stops short of it."""
    first, last = tips(shapely.Polygon([(0, 0), (100, -10), (200, -10), (200, 10), (100, 10)]))
    assert first.xy == pytest.approx((0, 0), abs=1e-3)
    assert last.xy == pytest.approx((200, 0), abs=0.5)


def test_slanted_cuts_end_in_the_further_corner():
    """The corner that reaches further is the tip."""
    bar = shapely.Polygon([(0, 0), (215, 0), (200, 20), (0, 20)])
    assert tips(bar)[-1].xy == pytest.approx((215, 0), abs=0.3)


def test_caps_run_from_right_to_left_contact():
    """The cap lies beyond the end, whichever way the rows run."""
    bar = boundary_of(shapely.MultiPolygon([shapely.box(0, 0, 400, 40)]), np.arange(1))
    low, high = bar.tree.nearest(shapely.points(np.array([(200, 0), (200, 40)]) - bar.origin))
    at = np.array([(100.0, 20.0), (200.0, 20.0), (300.0, 20.0)]) - bar.origin
    rows = Rows(bisector.touch(bar, at, np.array([[high, low]] * 3)), np.zeros(3, np.intp))
    found = caps(bar, rows, np.array([0, 2]), np.array([False, True]))
    assert found.tip + bar.origin == pytest.approx(np.array([(0, 20), (400, 20)]))
    assert found.reach == pytest.approx([100, 100])


def test_no_ends_no_caps():
    """Nothing asked, nothing found."""
    bar = boundary_of(shapely.MultiPolygon([shapely.box(0, 0, 4, 1)]), np.arange(1))
    empty = np.empty(0, np.intp)
    none = Rows(bisector.touch(bar, np.empty((0, 2)), np.empty((0, 2), np.intp)), empty)
    assert caps(bar, none, empty, np.empty(0, bool)).reach.tolist() == []
