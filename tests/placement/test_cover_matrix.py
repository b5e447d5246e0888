"""Cover matrix, against ways on a dense grid."""

import numpy as np
from graphs import graph, path, ring, wanted
from hypothesis import given, settings
from hypothesis import strategies as st
from plain_cover import Grid

from holeplacer.medial_axis import ways
from holeplacer.placement import stretches
from holeplacer.placement.cover_matrix import cover_matrix


@settings(max_examples=25, deadline=None)
@given(st.integers(0, 2**32 - 1), st.floats(15, 120))
def test_no_place_covers_more(seed, radius):
    """Whatever a place anywhere covers, some column covers, and columns cover what they say."""
    rng = np.random.default_rng(seed)
    edges = [(0, 1), (1, 2), (1, 3), (3, 0), (3, 4)]
    axis = graph(rng.uniform(0, 150, (5, 2)), edges)
    net = ways.network(axis)
    branch = rng.integers(0, 5, 12)
    points = ways.AxisPoints.on_branches(branch, rng.uniform(0, 1, 12) * net.length[branch])
    room = wanted(axis, radius).room
    matrix = cover_matrix(axis, room, points, np.full(12, radius))
    covers = matrix.covers.toarray() > 0

    def within(places):
        one = [ways.reach(axis, points[[k]]).way_at(places.branch, places.s) for k in range(12)]
        return np.array(one) <= radius + 1e-6

    np.testing.assert_array_equal(covers, within(matrix.places))
    at = rng.integers(0, 5, 200)
    anywhere = within(ways.AxisPoints.on_branches(at, rng.uniform(0, 1, 200) * net.length[at]))
    for column in anywhere.T:
        assert (covers[column].all(axis=0)).any()


def test_places_only_in_room():
    """Columns lie where holes may be."""
    clear = 8 + 6 * np.cos(np.linspace(0, 5 * np.pi, 30))
    axis = graph([(0, 0), (700, 0)], [(0, 1)], clearance=[clear])
    found = wanted(axis, 100.0, least_mm=7.0)
    asked = found.sampled(10.0)
    matrix = cover_matrix(axis, found.room, asked.points, asked.radius(1.0))
    assert (found.room.holding(matrix.places.branch, matrix.places.s) >= 0).all()


def test_group_row():
    """A group is covered from all places within the radius of any of its points."""
    axis = path(1000.0)
    found = wanted(axis, 50.0)
    group = stretches.joined(np.array([0]), np.array([400.0]), np.array([500.0]))
    asked = found.sampled(25.0)
    room, radius = found.room, asked.radius(1.0)
    matrix = cover_matrix(axis, room, asked.points, radius, groups=(group,), group_radius=50.0)
    row = matrix.covers.toarray()[-1] > 0
    np.testing.assert_array_equal(row, (matrix.places.s >= 350) & (matrix.places.s <= 550))


def test_more_places():
    """Places asked for are columns too."""
    axis = path(1000.0)
    found = wanted(axis, 50.0)
    asked = found.sampled(25.0)
    also = ways.AxisPoints.on_branches([0, 0], [123.4, 567.8])
    matrix = cover_matrix(axis, found.room, asked.points, asked.radius(1.0), also=also)
    assert np.isin([123.4, 567.8], np.round(matrix.places.s, 9)).all()


def test_both_ways_round_a_ring():
    """On a ring a ball goes both ways and past the ring's arbitrary start."""
    axis = ring(100.0)
    found = wanted(axis, 20.0)
    points = ways.AxisPoints.on_branches([0], [5.0])
    also = ways.AxisPoints.on_branches([0, 0, 0], [90.0, 80.0, 30.0])
    matrix = cover_matrix(axis, found.room, points, np.array([20.0]), also=also)
    covered = dict(zip(np.round(matrix.places.s, 6), matrix.covers.toarray()[0], strict=True))
    assert (covered[90.0], covered[80.0], covered[30.0]) == (1, 0, 0)
    assert len(Grid(axis, 10.0).way) == 10
