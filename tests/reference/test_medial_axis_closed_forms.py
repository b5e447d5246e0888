"""Closed forms of the medial axis.

The axis is the closure of the points with two or more nearest points of the boundary: H. Blum,
A transformation for extracting new descriptors of shape (1967); for polygons D. T. Lee, Medial axis
transformation of a planar shape, IEEE Trans. PAMI-4 (1982) (both from memory). From that every row
follows by elementary geometry, recomputed for these tests. The cusps of an ellipse's evolute, at
+-(a^2 - b^2) / a, are textbook matter (recomputed); they, not the foci, are the ends of its axis.
Corner strands that this program leaves out on purpose (reach below half a disc) are not asked for.
"""

import math

import numpy as np
import pytest
import shapely

from holeplacer.medial_axis.medial_axis import medial_axis
from holeplacer.outline.outline import Outline


def axis_of(*parts):
    return medial_axis(Outline.from_geometry(shapely.union_all(list(parts))))


def only_branch(*parts):
    (branch,) = axis_of(*parts).branches
    return branch


def radius_at(axis, x, y):
    """Clearance and distance at the axis point nearest to a place."""
    rows = [
        (math.hypot(px - x, py - y), clearance)
        for branch in axis.branches
        for (px, py), clearance in zip(branch.xy, branch.clearance, strict=True)
    ]
    return min(rows)


def test_circle_is_a_point():
    """A circle's axis is its centre, with its radius (but for the sagitta of 256 chords)."""
    axis = axis_of(shapely.Point(7, 3).buffer(10, 64))
    assert axis.branches == ()
    assert axis.node_xy == pytest.approx(np.array([[7, 3]]), abs=1e-6)
    assert axis.node_clearance == pytest.approx([10 * math.cos(math.pi / 256)], abs=1e-6)


def test_stadium_is_a_segment():
    """Length 10, width 2: one segment of length 10, radius 1, no spurs."""
    branch = only_branch(shapely.LineString([(0, 0), (10, 0)]).buffer(1, 32))
    assert branch.length_mm == pytest.approx(10, abs=1e-3)
    assert branch.clearance == pytest.approx(1, abs=2e-3)
    assert branch.xy[:, 1] == pytest.approx(0, abs=1e-6)


def test_rectangle_is_a_segment_of_the_difference():
    """5 x 2: a segment of 3 on the middle line, radius 1; its ends lead on to the corners."""
    axis = axis_of(shapely.box(0, 0, 5, 2))
    (branch,) = axis.branches
    assert branch.length_mm == pytest.approx(3, abs=1e-9)
    assert branch.clearance == pytest.approx(1, abs=1e-9)
    assert sorted(tip.xy for tip in axis.tips) == [pytest.approx((0, 1)), pytest.approx((5, 1))]
    assert [tip.reach_mm for tip in axis.tips] == pytest.approx([1, 1])


def test_ellipse_ends_at_the_evolute_cusps():
    """a 5, b 2: radius b sqrt(1 - x^2 / (a^2 - b^2)), 1.51186 at x 3; the end 4.2 at most."""
    a, b = 5.0, 2.0
    turn = np.linspace(0, 2 * np.pi, 4001)[:-1]
    branch = only_branch(shapely.Polygon(np.column_stack((a * np.cos(turn), b * np.sin(turn)))))
    x = branch.xy[:, 0]
    expected = b * np.sqrt(1 - x**2 / (a**2 - b**2))
    assert branch.clearance == pytest.approx(expected, abs=1e-4)
    assert np.interp(3, *_rising(x, branch.clearance)) == pytest.approx(1.51186, abs=1e-3)
    assert branch.xy[:, 1] == pytest.approx(0, abs=1e-6)
    assert 4.0 < x.max() <= 4.2 + 1e-6
    assert -4.2 - 1e-6 <= x.min() < -4.0


def test_annulus_is_a_circle():
    """Radii 10 and 6: a circle of radius 8, clearance 2."""
    ring = shapely.Point(0, 0).buffer(10, 256).difference(shapely.Point(0, 0).buffer(6, 256))
    branch = only_branch(ring)
    assert branch.start == branch.end
    assert branch.length_mm == pytest.approx(16 * math.pi, abs=0.01)
    assert np.hypot(*branch.xy.T) == pytest.approx(8, abs=1e-3)
    assert branch.clearance == pytest.approx(2, abs=1e-3)


def test_hexagon_centre():
    """Side 1: radius sqrt(3)/2; its six corners reach 0.155 radii beyond and fall: a blob."""
    corners = [(math.cos(k * math.pi / 3), math.sin(k * math.pi / 3)) for k in range(6)]
    axis = axis_of(shapely.Polygon(corners))
    assert axis.branches == ()
    assert axis.node_clearance == pytest.approx([math.sqrt(3) / 2])


def test_equilateral_triangle_has_three_spokes():
    """Side 6: centre radius 1.7321, three spokes whose ends and tips reach the corners."""
    axis = axis_of(shapely.Polygon([(0, 0), (6, 0), (3, 3 * math.sqrt(3))]))
    assert sorted(axis.degree) == [1, 1, 1, 3]
    assert axis.node_clearance.max() == pytest.approx(6 / (2 * math.sqrt(3)))
    total = axis.length_mm + sum(tip.reach_mm for tip in axis.tips)
    assert total == pytest.approx(3 * 6 / math.sqrt(3))


def test_elbow_follows_a_parabola():
    """Arms of width 1, inner corner at (1, 1): y = ((x - 1)^2 + 1) / 2, 2 - sqrt 2 at 45 deg."""
    axis = axis_of(shapely.box(0, 0, 8, 1), shapely.box(0, 0, 1, 8))
    (branch,) = axis.branches
    near = (branch.xy[:, 0] > 2 - math.sqrt(2)) & (branch.xy[:, 0] < 1)
    x, y = branch.xy[near].T
    assert len(x) > 5
    assert y == pytest.approx(((x - 1) ** 2 + 1) / 2, abs=1e-6)
    away, clearance = radius_at(axis, 2 - math.sqrt(2), 2 - math.sqrt(2))
    assert away < 1e-6
    assert clearance == pytest.approx(0.585786, abs=1e-6)
    tips = sorted(tip.xy for tip in axis.tips)
    assert tips == [pytest.approx((0.5, 8)), pytest.approx((8, 0.5))]


def test_tee_junction():
    """Equal widths 1: junction radius 5/8, 3/8 inside the bar's edge that the stem leaves."""
    axis = axis_of(shapely.box(-8, 0, 8, 1), shapely.box(-0.5, -8, 0.5, 1))
    (junction,) = np.flatnonzero(axis.degree == 3)
    assert axis.node_clearance[junction] == pytest.approx(0.625)
    assert axis.node_xy[junction] == pytest.approx([0, 0.375])


def test_crossing_junction():
    """Equal widths 1: one junction of four arms, radius 1 / sqrt 2."""
    axis = axis_of(shapely.box(-8, -0.5, 8, 0.5), shapely.box(-0.5, -8, 0.5, 8))
    (junction,) = np.flatnonzero(axis.degree == 4)
    assert axis.node_clearance[junction] == pytest.approx(1 / math.sqrt(2))
    assert axis.node_xy[junction] == pytest.approx([0, 0], abs=1e-6)


def test_sector():
    """Half angle 30 deg, radius 10: the bisector ends in a disc of 10/3 at 20/3 from the apex."""
    half, radius = math.radians(30), 10.0
    turn = np.linspace(-half, half, 2001)
    rim = radius * np.column_stack((np.cos(turn), np.sin(turn)))
    axis = axis_of(shapely.Polygon([(0.0, 0.0), *rim]))
    centre = np.argmax(axis.node_clearance)
    assert axis.node_clearance[centre] == pytest.approx(10 / 3, abs=1e-3)
    assert axis.node_xy[centre] == pytest.approx([20 / 3, 0], abs=2e-3)
    away, clearance = radius_at(axis, 4, 0)
    assert clearance == pytest.approx((4 + away) * math.sin(half), abs=0.2)


def test_neck_between_inner_corners():
    """Between facing corners 2 apart the radius falls to 1 at the very neck."""
    halves = [shapely.Polygon([(0, 1), (-30, 20), (-30, -20), (0, -1)])]
    halves.append(shapely.affinity.scale(halves[0], -1, 1, origin=(0, 0)))
    axis = axis_of(*halves)
    away, clearance = radius_at(axis, 0, 0)
    assert clearance == pytest.approx(1, abs=0.005)
    assert away < 0.2


def _rising(x, y):
    order = np.argsort(x)
    return x[order], y[order]
