"""Where a hole may be, against samples."""

import numpy as np
import shapely
from graphs import NO_XY, graph, path
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.medial_axis import ways
from holeplacer.placement.candidates import candidates, clear_of_seams, wide
from holeplacer.plan.seam import Seam


@settings(max_examples=50, deadline=None)
@given(
    st.lists(st.floats(1, 20), min_size=6, max_size=6),
    st.floats(2, 18),
    st.lists(st.tuples(st.floats(0, 100), st.floats(-20, 20), st.floats(1, 40)), max_size=3),
)
def test_wide_enough_and_far_enough(clearance, least, discs):
    """A point is a candidate if and only if it has the clearance and lies in no disc."""
    axis = graph([(0, 0), (100, 0)], [(0, 1)], clearance=[np.array(clearance)], steps=6)
    centres = np.array([(x, y) for x, y, _ in discs]).reshape(-1, 2)
    radii = np.array([r for _, _, r in discs])
    room = candidates(axis, least, centres, radii)
    s = np.linspace(0.1, 99.9, 301)
    points = ways.AxisPoints.on_branches(np.zeros(301, int), s)
    wide = ways.clearances(axis, points) - least
    away = np.hypot(*(ways.places(axis, points)[:, None] - centres).transpose(2, 0, 1)) - radii
    margin = np.minimum(wide, away.min(axis=1, initial=np.inf))
    sure = np.abs(margin) > 1e-4
    inside = room.holding(points.branch, s) >= 0
    np.testing.assert_array_equal(inside[sure], (margin > 0)[sure])


def test_exactly_wide_enough():
    """A stroke exactly as wide as needed takes holes anywhere."""
    room = candidates(path(100.0, clearance=9.525), 9.525, NO_XY, np.empty(0))
    assert (room.low.tolist(), room.high.tolist()) == ([0.0], [100.0])


@settings(max_examples=50, deadline=None)
@given(
    st.lists(
        st.tuples(*[st.integers(-200, 1200).map(lambda tenths: tenths / 10)] * 4).filter(
            lambda row: row[:2] != row[2:]
        ),
        min_size=1,
        max_size=3,
    ),
    st.floats(1, 30),
)
def test_far_enough_from_every_seam(rows, apart):
    """A point of the axis stays if and only if no seam is nearer, past its ends too."""
    axis = graph([(0, 0), (100, 40)], [(0, 1)], clearance=[np.full(7, 10.0)], steps=7)
    seams = [Seam(*row) for row in rows]
    room = clear_of_seams(axis, wide(axis, 5.0), seams, apart)
    s = np.linspace(0.1, axis.branches[0].length_mm - 0.1, 301)
    points = ways.AxisPoints.on_branches(np.zeros(301, int), s)
    lines = shapely.union_all(shapely.linestrings(np.array(rows).reshape(-1, 2, 2)))
    margin = shapely.distance(lines, shapely.points(ways.places(axis, points))) - apart
    sure = np.abs(margin) > 1e-4
    np.testing.assert_array_equal((room.holding(points.branch, s) >= 0)[sure], (margin > 0)[sure])
