"""What a pointer near something means."""

import math

import pytest

from holeplacer.gui.canvas.snapping import SnapKind, axis_foot, snap
from holeplacer.medial_axis.axis import Axis


def kind_at(strokes, place, reach=6.0):
    return snap(place, reach, strokes, strokes.plan.holes)


def test_a_hole_comes_first(strokes):
    """Its exact centre, though the axis is nearer."""
    found = kind_at(strokes, (103.0, 100.0))
    assert (found.kind, found.place) == (SnapKind.HOLE, (100.0, 100.0))


def test_an_axis_end_comes_before_axis_and_edge(strokes):
    """The thin end's node."""
    found = kind_at(strokes, (1196.0, 101.0))
    assert found.kind is SnapKind.AXIS_NODE
    assert found.place == pytest.approx((1193.0, 100.0))


def test_the_nearer_of_edge_and_axis(strokes):
    """Beside the edge the edge, in the middle the axis, exactly on them."""
    edge = kind_at(strokes, (200.0, 117.0))
    assert (edge.kind, edge.place) == (SnapKind.EDGE, pytest.approx((200.0, 120.0)))
    axis = kind_at(strokes, (200.0, 103.0))
    assert axis.kind is SnapKind.AXIS
    assert axis.place == pytest.approx((200.0, 100.0))


def test_far_from_everything_it_is_free(strokes):
    """The place itself."""
    found = kind_at(strokes, (200.0, 300.0))
    assert (found.kind, found.place) == (SnapKind.FREE, (200.0, 300.0))


def test_the_foot_is_the_nearest_axis_point(strokes):
    """Judged against every axis point there is."""
    for place in ((250.0, 160.0), (500.0, 20.0), (610.0, 390.0), (950.0, 250.0)):
        foot = axis_foot(strokes.axis, place)
        points = [p for b in strokes.axis.branches for p in b.xy.tolist()]
        points += strokes.axis.node_xy.tolist()
        assert math.dist(foot, place) <= min(math.dist(p, place) for p in points) + 1e-9


def test_a_blob_has_its_node_as_foot(strokes):
    """The dot's middle."""
    assert axis_foot(strokes.axis, (605.0, 385.0)) == pytest.approx((600.0, 380.0))


def test_without_an_axis_a_place_is_its_own_foot(strokes):
    """Nothing to slide along."""
    empty = strokes.axis
    bare = Axis((), empty.node_xy[:0], empty.node_clearance[:0], empty.node_piece[:0], ())
    assert axis_foot(bare, (1.0, 2.0)) == (1.0, 2.0)
