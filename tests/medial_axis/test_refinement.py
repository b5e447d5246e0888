"""Steps split until straight ones follow the axis."""

import numpy as np
import pytest
import shapely
from shapes import BAR

from holeplacer.medial_axis import bisector
from holeplacer.medial_axis.boundary import boundary_of
from holeplacer.medial_axis.refinement import CLEARANCE_MM, POSITION_MM, refined
from holeplacer.medial_axis.rows import Rows
from holeplacer.outline.outline import Outline


def rows_on(polygon, points, *sides):
    sign = Outline.from_geometry(polygon)
    outline = boundary_of(sign.region, np.arange(1))
    segment = outline.tree.nearest(shapely.points(np.array(sides) - outline.origin))
    at = np.array(points, float) - outline.origin
    discs = bisector.settle(outline, at, np.array([segment] * len(points)))
    return sign, outline, Rows(discs, np.zeros(len(points), np.intp))


def test_straight_axes_stay_as_they_are():
    """On a bar two points will do."""
    sign, bar, rows = rows_on(BAR, [(100, 20), (130, 20)], (200, 40), (200, 0))
    assert len(refined(sign, bar, rows).stretch) == 2


def test_necks_are_found():
    """Between two facing inner corners the least clearance is not stepped over."""
    neck = shapely.Polygon([(-60, -40), (0, -5), (60, -40), (60, 40), (0, 5), (-60, 40)])
    sign, outline, rows = rows_on(neck, [(-2.9, 0), (2.9, 0)], (0, 5), (0, -5))
    found = refined(sign, outline, rows).discs
    assert found.radius.min() == pytest.approx(5, abs=CLEARANCE_MM)
    assert (np.diff(found.xy[:, 0]) > 0).all()


def test_parabolas_are_followed():
    """Steps along a parabola stray no more than the tolerance, its clearance as little."""
    elbow = shapely.union(shapely.box(0, 0, 80, 10), shapely.box(0, 0, 10, 80))
    sign, outline, rows = rows_on(elbow, [(6, 5.8), (9.9, 5)], (10, 10.001), (9, 0))
    found = refined(sign, outline, rows).discs
    assert len(found) > 4
    middle = 0.5 * (found.xy[1:] + found.xy[:-1]) + outline.origin
    curve = ((middle[:, 0] - 10) ** 2 + 100) / 20
    assert np.abs(middle[:, 1] - curve).max() < POSITION_MM
    linear = 0.5 * (found.radius[1:] + found.radius[:-1])
    true = shapely.distance(elbow.boundary, shapely.points(middle))
    assert np.abs(linear - true).max() < 1.5 * CLEARANCE_MM


def test_stretches_are_kept_apart():
    """No point is put between one stretch and the next."""
    sign, bar, rows = rows_on(
        BAR, [(100, 20), (130, 20), (200, 20), (230, 20)], (200, 40), (200, 0)
    )
    apart = Rows(rows.discs, np.array([0, 0, 1, 1]))
    x = refined(sign, bar, apart).discs.xy[:, 0] + bar.origin[0]
    assert not ((x > 131) & (x < 199)).any()


def test_kinks_are_met():
    """Where another corner cuts in, the axis turns at the disc that touches both corners."""
    upper = [(60.1, 60), (60, 20), (59.9, 60), (40.1, 60), (40, 20), (39.9, 60)]
    notched = shapely.Polygon([(0, 0), (100, 0), (100, 60), *upper, (0, 60)])
    sign, outline, rows = rows_on(notched, [(43, 10.2)], (40, 20), (50, 0))
    _, _, beyond = rows_on(notched, [(55, 10.6)], (60, 20), (50, 0))
    both = Rows(rows.discs.joined(beyond.discs), np.zeros(2, np.intp))
    found = refined(sign, outline, both).discs
    true = sign.edge_distance(found.xy + outline.origin)
    assert found.radius == pytest.approx(true, abs=1e-6)
    kink = np.hypot(*(found.xy + outline.origin - (50, 12.5)).T) < 1e-6
    assert np.count_nonzero(kink) == 2
    assert found.foot[kink][:, 0] + outline.origin == pytest.approx(np.array([(40, 20), (60, 20)]))
