"""Segments of the outline: rings, feet, ways."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapes import SCRIPT

from holeplacer.medial_axis.boundary import boundary_of

FRAME = shapely.MultiPolygon([shapely.box(0, 0, 10, 10).difference(shapely.box(4, 4, 6, 6))])


def boundary(region):
    region = region if region.geom_type == "MultiPolygon" else shapely.MultiPolygon([region])
    return boundary_of(region, np.arange(len(region.geoms)))


def test_rings_are_closed_with_metal_to_the_left():
    """Each ring's segments follow each other; turning left of any leads into the metal."""
    frame = boundary(FRAME)
    assert frame.ring_count.tolist() == [4, 4]
    assert frame.start[frame.following] == pytest.approx(frame.start + frame.step)
    assert (frame.previous[frame.following] == np.arange(8)).all()
    left = np.column_stack((-frame.step[:, 1], frame.step[:, 0])) * 0.01
    inside = frame.start + frame.step / 2 + left + frame.origin
    assert shapely.contains_xy(FRAME, inside).all()
    assert frame.ring_length.tolist() == [40, 8]
    assert frame.part_width == pytest.approx([96 / 48])


def test_repeated_points_are_left_out():
    """Segments of no length do not appear."""
    ring = [(0, 0), (5, 0), (5, 0), (5, 5), (5, 5), (0, 5)]
    assert len(boundary(shapely.Polygon(ring)).start) == 4


@given(st.floats(-100, 300), st.floats(-100, 100))
@settings(max_examples=40, deadline=None)
def test_feet_are_nearest_points(x, y):
    """Of all segments' feet the nearest is the point of the contour nearest by another method."""
    script = boundary(SCRIPT)
    at = np.array([(x, y)]) - script.origin
    every = np.arange(len(script.start))
    foot, distance = script.feet(every, np.repeat(at, len(every), axis=0))
    assert distance.min() == pytest.approx(SCRIPT.boundary.distance(shapely.Point(x, y)), abs=1e-9)
    assert np.hypot(*(foot - at).T) == pytest.approx(distance)


def test_walk_passes_small_corners_but_not_square_ones():
    """A foot slides along a flattened arc, but does not leap round a square corner."""
    disc = boundary(shapely.Point(0, 0).buffer(10, 16))
    near = disc.nearest_by(np.array([0]), np.array([(-4.0, 8.0)]))
    _, walked = disc.feet(near, np.array([(-4.0, 8.0)]))
    assert walked == pytest.approx(disc.feet(np.arange(64), np.tile((-4.0, 8.0), (64, 1)))[1].min())
    square = boundary(shapely.box(0, 0, 10, 10))
    at = np.array([(1.0, -0.5)])
    for side in range(4):
        assert square.nearest_by(np.array([side]), at).tolist() == [side]


def test_places_by_way():
    """Ways along rings lead to segments and back."""
    frame = boundary(FRAME)
    ring, way = np.array([0, 0, 1, 1]), np.array([3.0, 25.0, 0.5, 7.5])
    segment, share = frame.at_way(ring, way)
    assert frame.ring[segment].tolist() == ring.tolist()
    foot = frame.start[segment] + share[:, None] * frame.step[segment]
    assert frame.way_to(segment, foot) == pytest.approx(way)
    pair = np.array([[segment[0], segment[1]], [segment[0], segment[2]]])
    feet = np.array([[foot[0], foot[1]], [foot[0], foot[2]]])
    assert frame.way_between(pair, feet).tolist() == [pytest.approx(18), np.inf]


def test_dense_outlines_are_thinned():
    """Where vertices lie dense, few remain, none of the contour moving by more than told."""
    disc = shapely.Point(0, 0).buffer(50, 2000)
    thin = boundary(disc)
    assert len(thin.start) < 1000
    assert 0 < thin.slack_mm <= 0.005
    at = shapely.points(thin.start + thin.step / 2 + thin.origin)
    assert shapely.distance(disc.exterior, at).max() <= thin.slack_mm + 1e-9
    assert boundary(shapely.Point(0, 0).buffer(50, 16)).slack_mm == 0


def test_tree_finds_the_nearest_segment():
    """The search tree holds one line for each segment, in order."""
    frame = boundary(FRAME)
    middle = shapely.points(frame.start + frame.step / 2)
    assert frame.tree.nearest(middle).tolist() == list(range(8))
    assert frame.piece_of(np.arange(8)).tolist() == [0] * 8
