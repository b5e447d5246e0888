"""Chords as arcs."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.documents import arc_fit
from holeplacer.geometry import flatten
from holeplacer.geometry.curve import Polyline, cubic


def furthest(one, other):
    """Hausdorff distance of two lines, measured at dense points: the slow way."""
    lines = [shapely.segmentize(shapely.LineString(xy), 0.5) for xy in (one, other)]
    return max(
        shapely.distance(shapely.points(shapely.get_coordinates(a)), b).max()
        for a, b in (lines, lines[::-1])
    )


coordinate = st.floats(-100.0, 100.0)
point = st.tuples(coordinate, coordinate)


@settings(max_examples=40, deadline=None)
@given(
    points=st.lists(point, min_size=4, max_size=4, unique=True),
    tolerance=st.sampled_from([0.01, 0.1]),
)
def test_the_fit_strays_no_further_than_the_tolerance(points, tolerance):
    """Any cubic, loops and cusps among them: both ways within the tolerance, ends kept."""
    chain = flatten.flatten(cubic(*np.array(points)), 0.01)[1]
    chain = chain[np.append(True, np.any(np.diff(chain, axis=0) != 0, axis=1))]
    fitted = arc_fit.with_arcs(chain, tolerance)
    back = flatten.flatten(fitted, 0.001)[1]
    assert np.array_equal(back[[0, -1]], chain[[0, -1]])
    assert furthest(back, chain) <= tolerance + 0.002
    assert len(fitted.xy) <= len(chain)


@settings(max_examples=40, deadline=None)
@given(
    radius=st.floats(1.0, 1000.0),
    start=st.floats(0, 7),
    sweep=st.floats(0.3, 3.5),
    way=st.sampled_from([-1, 1]),
)
def test_chords_of_an_arc_become_the_arc(radius, start, sweep, way):
    """Sixty chords of one circular arc are one step with the arc's own bulge."""
    angle = start + way * sweep * np.linspace(0, 1, 61)
    fitted = arc_fit.with_arcs(
        radius * np.column_stack([np.cos(angle), np.sin(angle)]), 0.01 * radius
    )
    assert len(fitted.xy) == 2
    assert fitted.bulges[0] == pytest.approx(way * math.tan(sweep / 4), rel=0.01)


def test_a_straight_chain_is_one_line():
    """Points in a row need no bulge."""
    fitted = arc_fit.with_arcs(np.column_stack([np.arange(9.0), np.arange(9.0)]), 0.01)
    assert (len(fitted.xy), fitted.bulges) == (2, None)


def test_corners_stay_corners():
    """A long-legged corner is no arc."""
    xy = np.array([[0.0, 0], [50, 0], [100, 0], [100, 50], [100, 100]])
    fitted = arc_fit.with_arcs(xy, 0.02)
    assert isinstance(fitted, Polyline)
    assert fitted.xy.tolist() == [[0, 0], [100, 0], [100, 100]]


def test_an_offset_letter_needs_far_fewer_steps():
    """A fattened outline of a thousand chords goes out as a few dozen steps."""
    spine = flatten.flatten(cubic(*np.array([[0.0, 0], [100, 200], [200, -200], [300, 0]])), 0.001)[
        1
    ]
    ring = np.array(shapely.LineString(spine).buffer(12, quad_segs=200).exterior.coords)
    fitted = arc_fit.with_arcs(ring, 0.01)
    assert len(ring) > 800
    assert len(fitted.xy) < 60
