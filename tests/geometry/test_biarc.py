"""Lines and arcs along a chain, judged by dense points on both."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.geometry import biarc, flatten
from holeplacer.geometry.curve import cubic


def furthest(one, other):
    """Distance of two lines both ways, measured at dense points: the slow way."""
    lines = [shapely.segmentize(shapely.LineString(xy), 0.25) for xy in (one, other)]
    return max(
        shapely.distance(shapely.points(shapely.get_coordinates(a)), b).max()
        for a, b in (lines, lines[::-1])
    )


def kinks_of(fit):
    """Angle between neighbouring steps at each inner vertex."""
    xy, bulges = fit.polyline.xy, fit.polyline.bulges
    bulges = np.zeros(len(xy)) if bulges is None else bulges
    if fit.polyline.closed:
        xy, bulges = np.vstack([xy, xy[:2]]), np.append(bulges, bulges[0])
    else:
        bulges = bulges[:-1]
    course = np.arctan2(*np.diff(xy, axis=0).T[::-1])
    half = 2 * np.arctan(bulges)
    leaves, arrives = course - half, course + half
    return np.abs((leaves[1:] - arrives[:-1] + math.pi) % (2 * math.pi) - math.pi)


coordinate = st.floats(-100.0, 100.0)
point = st.tuples(coordinate, coordinate)


@settings(max_examples=40, deadline=None)
@given(
    points=st.lists(point, min_size=4, max_size=4, unique=True),
    tolerance=st.sampled_from([0.02, 0.05]),
)
def test_the_fit_strays_no_further_than_the_tolerance(points, tolerance):
    """Any cubic, loops and cusps among them: both ways within the tolerance, ends kept."""
    chain = flatten.flatten(cubic(*np.array(points)), 0.02)[1]
    chain = chain[np.append(True, np.any(np.diff(chain, axis=0) != 0, axis=1))]
    fit = biarc.fitted(chain, tolerance)
    back = flatten.flatten(fit.polyline, 0.001)[1]
    assert np.array_equal(back[[0, -1]], chain[[0, -1]])
    assert furthest(back, chain) <= tolerance + 0.002
    assert fit.deviation_mm <= tolerance


@settings(max_examples=30, deadline=None)
@given(st.floats(5.0, 300.0), st.floats(0.2, 1.0), st.floats(0.0, 6.0))
def test_a_smooth_contour_becomes_smooth_arcs(radius, ratio, turn):
    """An ellipse goes round without a kink, its steps tangent where they meet."""
    t = np.linspace(0, 2 * math.pi, 240, endpoint=False)
    xy = np.column_stack([radius * np.cos(t), ratio * radius * np.sin(t)])
    xy = xy @ np.array([[math.cos(turn), -math.sin(turn)], [math.sin(turn), math.cos(turn)]])
    fit = biarc.fitted(xy, 0.05, closed=True)
    assert not fit.kinks.any()
    assert kinks_of(fit).max() < 0.01
    assert fit.entities < 80


def test_corners_are_kept():
    """A rectangle is four lines with four kinks at its own corners."""
    xy = shapely.get_coordinates(shapely.segmentize(shapely.box(0, 0, 100, 40), 3.0))[:-1]
    fit = biarc.fitted(xy, 0.05, closed=True)
    places = {tuple(place) for place in np.round(fit.polyline.xy[fit.kinks], 9).tolist()}
    assert places == {(0, 0), (100, 0), (100, 40), (0, 40)}
    assert fit.polyline.bulges is None
    assert fit.deviation_mm == pytest.approx(0.0, abs=1e-9)


def test_a_circle_takes_few_arcs():
    """Hundreds of chords become a handful of arcs of its own radius."""
    t = np.linspace(0, 2 * math.pi, 400, endpoint=False)
    fit = biarc.fitted(50 * np.column_stack([np.cos(t), np.sin(t)]), 0.05, closed=True)
    assert fit.entities <= 12
    length = np.hypot(*(np.roll(fit.polyline.xy, -1, axis=0) - fit.polyline.xy).T)
    bulge = fit.polyline.bulges
    assert length * (1 + bulge**2) / (4 * bulge) == pytest.approx(50.0, rel=1e-3)


def test_two_points_are_a_line():
    """The shortest chain there is."""
    fit = biarc.fitted(np.array([[0.0, 0], [10, 5]]), 0.05)
    assert fit.polyline.bulges is None
    assert fit.polyline.xy[[0, -1]].tolist() == [[0, 0], [10, 5]]
