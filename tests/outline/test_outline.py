"""Outline: pieces, counters, distances to the cut edge."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.outline import outline
from holeplacer.outline.outline import Outline

RING = (
    shapely.Point(0, 0)
    .buffer(10, quad_segs=64)
    .difference(shapely.Point(0, 0).buffer(6, quad_segs=64))
)
BAR = shapely.box(20, -2, 60, 2)
SIGN = Outline.from_geometry(shapely.union_all([BAR, RING]))


def test_pieces_run_from_left_to_right():
    """Pieces are in order of their left edge, contours anticlockwise, counters clockwise."""
    assert [piece.counters for piece in SIGN.pieces] == [1, 0]
    for piece in SIGN.pieces:
        assert piece.polygon.exterior.is_ccw
        assert not any(ring.is_ccw for ring in piece.polygon.interiors)


def test_figures_are_sums_over_pieces():
    """Area, perimeter, bounds and vertices are those of all contours."""
    assert SIGN.area_mm2 == pytest.approx(RING.area + 160)
    assert SIGN.area_mm2 == pytest.approx(sum(piece.area_mm2 for piece in SIGN.pieces))
    assert SIGN.perimeter_mm == pytest.approx(RING.length + 88)
    assert SIGN.bounds_mm == pytest.approx((-10, -10, 60, 10))
    assert SIGN.pieces[1].bounds_mm == (20, -2, 60, 2)
    assert SIGN.vertex_count == 256 + 256 + 4


def test_centre_of_gravity_is_that_of_the_metal():
    """A ring's lies in its counter."""
    assert SIGN.pieces[0].centre_of_gravity_mm == pytest.approx((0, 0), abs=1e-9)
    assert SIGN.pieces[1].centre_of_gravity_mm == pytest.approx((40, 0))


def test_places_are_remembered_and_right():
    """Asked together or again, in any order, each place has its own figures."""
    places = [(40.0, 0.5), (8.5, 0.0), (40.0, 0.5), (0.0, 0.0)]
    found = SIGN.around(places)
    assert found[0] is found[2]
    assert SIGN.around(places[::-1]) == found[::-1]
    assert [edge.piece for edge in found] == [1, 0, 1, -1]
    assert [edge.distance_mm for edge in found] == pytest.approx(SIGN.edge_distance(places))
    nearest = [edge.nearest_mm for edge in found]
    assert np.array(nearest) == pytest.approx(SIGN.nearest_edge(places))
    assert SIGN.around([]) == ()


def test_memory_of_places_is_bounded(monkeypatch):
    """However long a hole is dragged, no more than a limit is kept, and figures stay right."""
    bar = Outline.from_geometry(BAR)
    monkeypatch.setattr(outline, "_MOST_REMEMBERED", 10)
    for step in range(50):
        (edge,) = bar.around([(30.0 + step / 10, 0.5)])
        assert edge.distance_mm == pytest.approx(1.5)
    assert len(bar._known) <= 10


def test_edge_distance_counts_counters_and_is_negative_outside():
    """Distance is to the nearest edge of all, below zero where there is no metal."""
    found = SIGN.edge_distance([(40, 0), (8, 0), (0, 0), (15, 0), (21, 0)])
    assert found == pytest.approx([2, 2, -6, -5, 1], abs=0.01)


def test_nearest_edge_is_where_the_distance_ends():
    """The nearest point lies on an edge, as far away as the distance says."""
    at = np.array([(40.0, 1.0), (8.5, 0.0), (0.0, 0.0), (70.0, 5.0)])
    nearest = SIGN.nearest_edge(at)
    assert np.hypot(*(nearest - at).T) == pytest.approx(np.abs(SIGN.edge_distance(at)))
    assert nearest[0] == pytest.approx((40, 2))


def test_piece_at_knows_counters():
    """A point in a counter or beside the sign lies in no piece."""
    assert SIGN.piece_at([(8, 0), (40, 0), (0, 0), (100, 0)]).tolist() == [0, 1, -1, -1]
    assert SIGN.piece_at((8, 0)).tolist() == [0]


def test_only_areas_count():
    """Lines and points of a mixed geometry are no metal."""
    mixed = shapely.GeometryCollection([BAR, shapely.LineString([(0, 0), (1, 1)])])
    assert len(Outline.from_geometry(mixed).pieces) == 1
    assert Outline.from_geometry(shapely.Polygon()).pieces == ()


@settings(max_examples=60, deadline=None)
@given(st.floats(-15, 65), st.floats(-12, 12))
def test_edge_distance_against_every_edge(x, y):
    """The prepared distance is the least over all edges one by one, with the sign of the side."""
    least = math.inf
    for piece in SIGN.pieces:
        for ring in (piece.polygon.exterior, *piece.polygon.interiors):
            for (x0, y0), (x1, y1) in zip(ring.coords, ring.coords[1:], strict=False):
                square = (x1 - x0) ** 2 + (y1 - y0) ** 2
                along = ((x - x0) * (x1 - x0) + (y - y0) * (y1 - y0)) / square
                share = min(1.0, max(0.0, along))
                least = min(
                    least, math.hypot(x - x0 - share * (x1 - x0), y - y0 - share * (y1 - y0))
                )
    (found,) = SIGN.edge_distance((x, y))
    assert abs(found) == pytest.approx(least, abs=1e-9)
    if least > 1e-9:
        assert (found > 0) == SIGN.region.contains(shapely.Point(x, y))
