"""Chord residual: contour minus chord."""

import math

import numpy as np
import pytest
import shapely
from shapes import RING

from holeplacer.medial_axis import residual
from holeplacer.medial_axis.boundary import boundary_of
from holeplacer.medial_axis.samples import sampled
from holeplacer.medial_axis.triangulation import triangulate


def all_of(shape):
    outline = boundary_of(shapely.MultiPolygon([shape]), np.arange(1))
    samples = sampled(outline)
    return outline, samples, triangulate(samples).crossings


def test_square_corner():
    """Between contacts at r from a square corner it is (2 - sqrt 2) r."""
    outline, samples, crossings = all_of(shapely.box(0, 0, 100, 100))
    found = residual.chord_residual(outline, samples, crossings)
    left, right = samples.xy[crossings.left] + 50, samples.xy[crossings.right] + 50
    at_corner = (np.abs(left.sum(axis=1) - right.sum(axis=1)) < 1e-6) & (
        left.sum(axis=1) < 100 - 1e-6
    )
    r = left[at_corner].sum(axis=1)
    assert len(r)
    assert found[at_corner] == pytest.approx((2 - math.sqrt(2)) * r)


def test_between_rings_it_is_infinite():
    """A crossing from the outer contour to a counter always belongs to the axis."""
    outline, samples, crossings = all_of(RING)
    found = residual.chord_residual(outline, samples, crossings)
    ring = outline.ring[samples.segment]
    assert np.isinf(found[ring[crossings.left] != ring[crossings.right]]).all()
    assert np.isfinite(found[ring[crossings.left] == ring[crossings.right]]).all()


@pytest.mark.parametrize(("size", "least"), [(400.0, 0.3), (0.4, 0.05 * 0.1)])
def test_least_residual_suits_small_pieces(size, least):
    """0.3 mm, but a share of the width where that would be much."""
    outline, samples, crossings = all_of(shapely.box(0, 0, size, size))
    assert residual.least_residual(outline, samples, crossings) == pytest.approx(least)
