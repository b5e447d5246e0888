"""Triangles of the metal and the crossings between them."""

import numpy as np
import pytest
import shapely
from shapes import RING, SCRIPT

from holeplacer.medial_axis.boundary import boundary_of
from holeplacer.medial_axis.samples import sampled
from holeplacer.medial_axis.triangulation import TouchingRings, stroke_width, triangulate


def triangles_of(*polygons):
    outline = boundary_of(shapely.MultiPolygon(list(polygons)), np.arange(len(polygons)))
    samples = sampled(outline)
    return samples, triangulate(samples)


@pytest.mark.parametrize("shape", [shapely.box(0, 0, 90, 40), RING, SCRIPT])
def test_triangles_fill_the_metal(shape):
    """Their areas sum up to the sampled outline's, and the dual graph has the metal's loops."""
    samples, found = triangles_of(shape)
    a, b, c = (samples.xy[found.corners[:, k]] for k in range(3))
    area = 0.5 * ((b - a)[:, 0] * (c - a)[:, 1] - (b - a)[:, 1] * (c - a)[:, 0])
    assert (area > 0).all()
    assert area.sum() == pytest.approx(shape.area, rel=0.02)
    loops = len(found.crossings.before) - len(found.corners) + 1
    assert loops == len(shape.interiors)


def test_crossings_see_left_and_right():
    """Going from one triangle to the next, the left sample lies to the left."""
    samples, found = triangles_of(SCRIPT)
    crossings = found.crossings
    middle = samples.xy[found.corners].mean(axis=1)
    go = middle[crossings.after] - middle[crossings.before]
    left = samples.xy[crossings.left] - samples.xy[crossings.right]
    assert (go[:, 0] * left[:, 1] - go[:, 1] * left[:, 0] > 0).all()


def test_seeds_are_as_far_from_left_as_from_right():
    """Each seed lies on the bisector of its two samples."""
    samples, found = triangles_of(SCRIPT)
    crossings = found.crossings
    left = np.hypot(*(crossings.seed - samples.xy[crossings.left]).T)
    right = np.hypot(*(crossings.seed - samples.xy[crossings.right]).T)
    assert left == pytest.approx(right)


def test_width_is_the_shortest_crossing():
    """On a bar the crossings show its width."""
    samples, found = triangles_of(shapely.box(0, 0, 400, 40))
    width = stroke_width(samples, found.crossings)
    middle = np.abs(samples.xy[:, 0]) < 150
    assert width[middle] == pytest.approx(40, rel=0.1)


def test_touching_rings_are_told():
    """Rings that share a vertex can't be triangulated apart."""
    with pytest.raises(TouchingRings):
        triangles_of(shapely.box(0, 0, 50, 50), shapely.box(50, 50, 100, 100))


def test_crossing_rings_are_told():
    """Rings that cross can't be triangulated apart."""
    with pytest.raises(TouchingRings):
        triangles_of(shapely.box(0, 0, 50, 50), shapely.box(41, 43, 107, 109))
