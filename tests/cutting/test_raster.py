"""Cells that an area may touch."""

import math

import numpy as np
import shapely
from hypothesis import example, given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString, Point, Polygon, box

from holeplacer.cutting import raster


def centres(rows, columns, cell):
    y, x = np.mgrid[:rows, :columns] + 0.5
    return x * cell, y * cell


@settings(max_examples=40, deadline=None)
@example([(14.0, 8.0), (15.0, 2.0), (2.0, 2.0), (8.0, 18.0)], 4.0, 0.7)
@given(
    st.lists(st.tuples(st.floats(2, 38), st.floats(2, 28)), min_size=2, max_size=6),
    st.floats(0.01, 6.0),
    st.sampled_from([0.7, 1.0, 2.5]),
)
def test_every_cell_that_a_stroke_touches_is_marked(way, half_width, cell):
    """No cell that shares a point with the area stays unmarked, and none far off is marked.

    An inlet that closes when the area grows by a cell is area, as a counter is.
    """
    stroke = LineString(way).buffer(half_width)
    rows, columns = math.ceil(50 / cell), math.ceil(60 / cell)
    ring = raster.reach_of(stroke, cell) + 10.0
    marked = raster.cells_within(ring, cell, rows, columns)
    x, y = centres(rows, columns, cell)
    half = cell / 2
    cells = shapely.box(x - half - 10, y - half - 10, x + half - 10, y + half - 10)
    filled = Polygon(stroke.exterior)
    assert not np.any(shapely.intersects(cells, filled) & ~marked)
    closed = Polygon(filled.buffer(1.1 * cell).exterior).buffer(-1.1 * cell).union(filled)
    assert not np.any(marked & (shapely.distance(cells, closed) > 0.6 * cell))


def test_a_distance_is_marked_all_round():
    """Every cell within the distance of an area is marked."""
    area = box(20, 20, 30, 24)
    marked = raster.cells_within(raster.reach_of(area, 1.0, 5.0), 1.0, 50, 50)
    x, y = centres(50, 50, 1.0)
    cells = shapely.box(x - 0.5, y - 0.5, x + 0.5, y + 0.5)
    assert not np.any((shapely.distance(cells, area) < 5.0) & ~marked)
    assert not np.any(marked & (shapely.distance(cells, area) > 5.6))


def test_a_counter_counts_as_area():
    """Nothing may be laid into a counter."""
    ring = Point(20, 20).buffer(15).difference(Point(20, 20).buffer(10))
    marked = raster.cells_within(raster.reach_of(ring, 1.0), 1.0, 40, 40)
    assert marked[20, 20]


def test_what_lies_off_the_grid_is_left_out():
    """A ring that reaches past the grid marks only cells of the grid."""
    ring = np.array([(-5.0, -5.0), (3.0, -5.0), (3.0, 20.0), (-5.0, 20.0), (-5.0, -5.0)])
    marked = raster.cells_within(ring, 1.0, 4, 6)
    assert marked.tolist() == [[True] * 3 + [False] * 3] * 4


def test_points_turn_anticlockwise():
    """A quarter turn brings x to y."""
    assert np.allclose(raster.turned(np.array([[1.0, 0.0]]), math.pi / 2), [[0.0, 1.0]])


def test_the_hull_has_the_outermost_corners():
    """Corners inside the hull are not among them."""
    bent = Polygon([(0, 0), (4, 0), (4, 4), (3, 1)])
    assert sorted(map(tuple, raster.hull_of(bent).tolist())) == [(0, 0), (4, 0), (4, 4)]
