"""Flattened contours: shared vertices at joints, and a table that knows them."""

import math

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.artwork.drawing import DrawnContour, DrawnSegment
from holeplacer.artwork.rings import flattened_rings
from holeplacer.geometry.curve import CircularArc, Curve, Polyline, cubic
from holeplacer.geometry.evaluate import points_at


def contour(*curves: Curve) -> DrawnContour:
    return DrawnContour(tuple(DrawnSegment(curve, "", "") for curve in curves))


def line(*points: tuple[float, float]) -> Polyline:
    return Polyline(np.array(points, float))


def test_joints_become_one_vertex_bit_for_bit() -> None:
    """An arc whose ends miss those of a line by rounding, all round."""
    arc = CircularArc((0.0, 0.0), 5.0, 0.1, math.pi)
    start, end = points_at(arc, [0.1, 0.1 + math.pi]) + 1e-12
    rings = flattened_rings([contour(arc, line(tuple(end), tuple(start)))], 0.02)
    (ring,) = rings.rings
    assert len(np.unique(ring, axis=0)) == len(ring)
    first, last = rings.xy[rings.curve == 0], rings.xy[rings.curve == 1]
    np.testing.assert_array_equal(first[-1], last[0])
    np.testing.assert_array_equal(first[0], last[-1])
    assert len(rings.bridges) == 0


def test_a_gap_is_bridged_by_a_straight_step() -> None:
    """Both ends stay on their curves."""
    rings = flattened_rings([contour(line((0, 0), (5, 0), (5, 5)), line((5, 5.1), (0, 0)))], 0.02)
    (ring,) = rings.rings
    np.testing.assert_array_equal(ring, [[0, 0], [5, 0], [5, 5], [5, 5.1]])
    np.testing.assert_array_equal(rings.bridges, [[[5, 5], [5, 5.1]]])


def test_equal_neighbours_are_one_vertex() -> None:
    """Also where a ring's last vertex equals its first, and next to other rings."""
    twice = Polyline(
        np.array([[0.0, 0], [0, 0], [4, 0], [4, 4], [4, 4], [0, 0]]), None, closed=True
    )
    again = Polyline(np.array([[0.0, 0], [4, 0], [4, 4]]), None, closed=True)
    rings = flattened_rings([contour(twice), contour(again), contour(twice)], 0.02).rings
    for ring in rings:
        assert sorted(map(tuple, ring.tolist())) == [(0, 0), (4, 0), (4, 4)]


def test_a_contour_without_extent_is_an_empty_ring() -> None:
    """And no contours are no rings."""
    point = Polyline(np.array([[3.0, 3], [3, 3]]), None, closed=True)
    (ring,) = flattened_rings([contour(point)], 0.02).rings
    assert len(ring) < 3
    assert flattened_rings([], 0.02).rings == ()


@settings(max_examples=30, deadline=None)
@given(
    # no two points so near each other that they are taken for one
    st.lists(
        st.tuples(st.integers(-50_000, 50_000), st.integers(-50_000, 50_000)).map(
            lambda point: (point[0] / 1000, point[1] / 1000)
        ),
        min_size=3,
        max_size=8,
        unique=True,
    )
)
def test_every_vertex_is_a_row_of_the_table(points: list[tuple[float, float]]) -> None:
    """A closed string of Beziers: each vertex, found bit for bit, on its curve."""
    around = [np.array(point) for point in points]
    curves = [
        cubic(a, a + np.array([3, 9]), b + np.array([-7, 2]), b)
        for a, b in zip(around, around[1:] + around[:1], strict=True)
    ]
    rings = flattened_rings([contour(*curves)], 0.05)
    table = {tuple(row) for row in rings.xy.tolist()}
    assert all(tuple(vertex) in table for vertex in rings.rings[0].tolist())
    for number, curve in enumerate(curves):
        rows = rings.curve == number
        np.testing.assert_allclose(points_at(curve, rings.t[rows]), rings.xy[rows], atol=1e-12)
