"""Bits of the metal."""

import numpy as np
import pytest
import shapely

from holeplacer.structure import tributary


@pytest.mark.parametrize("name", ["bar", "ring", "tee", "disc", "drop"])
def test_bits_have_the_area_and_the_centre_of_the_piece(name, request):
    """Area and first moments are exact to rounding."""
    polygon = request.getfixturevalue(name).polygon
    bits = tributary.bits(polygon)
    assert bits.area.sum() == pytest.approx(polygon.area, rel=1e-13)
    centre = bits.area @ bits.xy / bits.area.sum()
    assert np.abs(centre - [polygon.centroid.x, polygon.centroid.y]).max() < 1e-9


def test_dense_contours_lose_nothing():
    """A contour with thousands of vertices is thinned, yet its area and centre stay."""
    wavy = np.linspace(0, 2 * np.pi, 6001)[:-1]
    radius = 200 + 0.01 * np.sin(900 * wavy)
    polygon = shapely.Polygon(np.column_stack([radius * np.cos(wavy), 0.5 * radius * np.sin(wavy)]))
    bits = tributary.bits(polygon)
    assert bits.area.sum() == pytest.approx(polygon.area, rel=1e-13)
    assert (bits.area > 0).all()


def test_bits_are_small(bar):
    """No bit is longer than a share of the stroke's width."""
    bits = tributary.bits(bar.polygon)
    width = 2 * bar.polygon.area / bar.polygon.length
    assert bits.area.max() <= (2 * tributary.FINENESS * width) ** 2 / 2
