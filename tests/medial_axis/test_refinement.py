"""Steps split until straight ones follow the axis."""

import numpy as np
import pytest
import shapely
from shapes import BAR

from holeplacer.medial_axis import bisector
from holeplacer.medial_axis.boundary import boundary_of
from holeplacer.medial_axis.refinement import CLEARANCE_MM, POSITION_MM, refined
from holeplacer.medial_axis.rows import Rows


def rows_on(polygon, points, *sides):
    outline = boundary_of(shapely.MultiPolygon([polygon]), np.arange(1))
    segment = outline.tree.nearest(shapely.points(np.array(sides) - outline.origin))
    at = np.array(points, float) - outline.origin
    discs = bisector.settle(outline, at, np.array([segment] * len(points)))
    return outline, Rows(discs, np.zeros(len(points), np.intp))


def test_straight_axes_stay_as_they_are():
    """On a bar two points will do."""
    bar, rows = rows_on(BAR, [(100, 20), (130, 20)], (200, 40), (200, 0))
    assert len(refined(bar, rows).stretch) == 2


def test_necks_are_found():
    """Between two facing inner corners the least clearance is not stepped over."""
    neck = shapely.Polygon([(-60, -40), (0, -5), (60, -40), (60, 40), (0, 5), (-60, 40)])
    outline, rows = rows_on(neck, [(-2.9, 0), (2.9, 0)], (0, 5), (0, -5))
    found = refined(outline, rows).discs
    assert found.radius.min() == pytest.approx(5, abs=CLEARANCE_MM)
    assert (np.diff(found.xy[:, 0]) > 0).all()


def test_parabolas_are_followed():
    """Steps along a parabola stray no more than the tolerance, its clearance as little."""
    elbow = shapely.union(shapely.box(0, 0, 80, 10), shapely.box(0, 0, 10, 80))
    outline, rows = rows_on(elbow, [(6, 5.8), (9.9, 5)], (10, 10.001), (9, 0))
    found = refined(outline, rows).discs
    assert len(found) > 4
    middle = 0.5 * (found.xy[1:] + found.xy[:-1]) + outline.origin
    curve = ((middle[:, 0] - 10) ** 2 + 100) / 20
    assert np.abs(middle[:, 1] - curve).max() < POSITION_MM
    linear = 0.5 * (found.radius[1:] + found.radius[:-1])
    true = shapely.distance(elbow.boundary, shapely.points(middle))
    assert np.abs(linear - true).max() < 1.5 * CLEARANCE_MM


def test_stretches_are_kept_apart():
    """No point is put between one stretch and the next."""
    bar, rows = rows_on(BAR, [(100, 20), (130, 20), (200, 20), (230, 20)], (200, 40), (200, 0))
    apart = Rows(rows.discs, np.array([0, 0, 1, 1]))
    x = refined(bar, apart).discs.xy[:, 0] + bar.origin[0]
    assert not ((x > 131) & (x < 199)).any()
