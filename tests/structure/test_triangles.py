"""Triangles of the metal."""

import numpy as np
import pytest
import shapely
from shapely.geometry import box

from holeplacer.structure import triangles


@pytest.fixture
def holed():
    return box(0, 0, 100, 60).difference(box(20, 20, 40, 40)).difference(box(60, 20, 80, 45))


def test_triangles_tile_the_metal(holed):
    """All triangles turn left, and their areas add up to the polygon's."""
    area = triangles.areas(*triangles.triangles(holed))
    assert (area > 0).all()
    assert area.sum() == pytest.approx(holed.area, rel=1e-12)


def test_inner_corners_are_taken(holed):
    """Points asked for become corners."""
    inner = np.array([[10.0, 30.0], [50.0, 30.0]])
    xy, corners = triangles.triangles(holed, inner)
    for point in inner:
        which = np.flatnonzero((np.abs(xy - point) < 1e-9).all(axis=1))
        assert len(which) == 1
        assert which[0] in corners
    assert triangles.areas(xy, corners).sum() == pytest.approx(holed.area, rel=1e-12)


def test_division_keeps_the_area_and_the_limit(holed):
    """Halved triangles are as small as asked and as large together as before."""
    xy, corners = triangles.triangles(holed)
    parts = triangles.divided(xy[corners], 7.0)
    sides = np.roll(parts, -1, axis=1) - parts
    assert np.hypot(sides[..., 0], sides[..., 1]).max() <= 7.0
    area = shapely.area(shapely.polygons(parts))
    assert area.sum() == pytest.approx(holed.area, rel=1e-12)
