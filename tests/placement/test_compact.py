"""Dots."""

import numpy as np
import pytest
import shapely

from holeplacer.medial_axis.medial_axis import medial_axis
from holeplacer.outline.outline import Outline
from holeplacer.placement import compact


def dot(radius, stretch=1.0):
    region = shapely.affinity.scale(shapely.Point(0, 0).buffer(radius, quad_segs=64), 1.0, stretch)
    sign = Outline.from_geometry(region)
    return sign, medial_axis(sign)


def test_two_beside_the_centre():
    """A round dot with room gets two, level, just as far apart as asked, the left one first."""
    sign, axis = dot(20.0)
    pair = compact.pair(sign, axis, (0.0, 0.0), 19.0, 9.5)
    np.testing.assert_allclose(pair, [[-9.51, 0], [9.51, 0]], atol=1e-9)
    assert sign.edge_distance(pair).min() >= 9.5


def test_turned_to_where_metal_is_widest():
    """In an upright oval the two stand above each other."""
    sign, axis = dot(17.0, stretch=1.5)
    pair = compact.pair(sign, axis, (0.0, 0.0), 19.0, 9.5)
    np.testing.assert_allclose(pair[:, 0], 0.0, atol=1e-9)


@pytest.mark.parametrize("radius", [15.0, 18.9])
def test_no_room(radius):
    """A dot too small for two gets no pair."""
    sign, axis = dot(radius)
    assert compact.pair(sign, axis, (0.0, 0.0), 19.0, 9.5) is None
