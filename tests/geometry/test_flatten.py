"""Flattening within a tolerance."""

import math

import numpy as np
import pytest
from curves import EXAMPLES, curves, distance_to_chain
from hypothesis import example, given, settings
from hypothesis import strategies as st

from holeplacer.errors import ArtworkError
from holeplacer.geometry.curve import CircularArc, EllipticArc, Polyline, Spline, cubic
from holeplacer.geometry.evaluate import domain, is_closed, points_at
from holeplacer.geometry.flatten import flatten, flatten_all

TIP = EllipticArc((0, 0), (100, 0), 0.01, -0.2, 1.6)
"""A thin ellipse around its tip, where a chord could cut off the furthest point."""
CUSP = cubic(np.array([0, 0]), np.array([100, 50]), np.array([0, 50]), np.array([100, 0]))
OVERSHOOT = cubic(np.array([0, 0]), np.array([300, 0]), np.array([-200, 0]), np.array([100, 0]))


@given(curves, st.sampled_from([2.0, 0.1, 0.02]))
@example(TIP, 0.02)
@example(CUSP, 0.02)
@example(OVERSHOOT, 0.02)
@settings(**EXAMPLES)
def test_no_point_of_the_curve_is_further_than_the_tolerance(curve, tolerance):
    """Every stretch of curve stays within the tolerance of its own chord, and ends on it."""
    t, xy = flatten(curve, tolerance)
    step = np.linspace(0, 1, 9)
    dense = (t[:-1, None] * (1 - step) + t[1:, None] * step).ravel()
    there = points_at(curve, dense).reshape(len(t) - 1, 9, 2)
    for stretch, start, end in zip(there[:400], xy[:-1], xy[1:], strict=False):
        away = distance_to_chain(stretch, np.array([start, end]))
        assert away.max() <= tolerance * (1 + 1e-6) + 1e-7


@given(curves)
@settings(**EXAMPLES)
def test_points_lie_on_the_curve_at_their_parameters(curve):
    """Each point is the curve at its parameter; the first and last are the domain's ends."""
    t, xy = flatten(curve, 0.1)
    assert np.allclose(points_at(curve, t), xy, atol=1e-6)
    assert t[0] == domain(curve)[0]
    assert t[-1] == domain(curve)[1]
    assert (np.diff(t) > 0).all() or (np.diff(t) < 0).all()


@given(curves)
@settings(**EXAMPLES)
def test_closed_curves_repeat_their_start(curve):
    """The last point of a closed curve is its first, bit for bit."""
    xy = flatten(curve, 0.1)[1]
    if is_closed(curve):
        assert np.array_equal(xy[0], xy[-1])


@given(st.lists(curves, max_size=4))
@settings(**EXAMPLES)
def test_many_at_once_equal_one_by_one(many):
    """`flatten_all` gives each curve the points that `flatten` gives it."""
    flat = flatten_all(many, 0.1)
    assert len(flat.first) == len(many) + 1
    for index, curve in enumerate(many):
        rows = slice(flat.first[index], flat.first[index + 1])
        t, xy = flatten(curve, 0.1)
        assert (flat.curve[rows] == index).all()
        assert np.array_equal(flat.t[rows], t)
        assert np.allclose(flat.xy[rows], xy, atol=1e-9)


def test_circle_takes_the_fewest_points():
    """A whole circle of radius 100 within 0.1204 needs 64 equal steps and no more."""
    t, _ = flatten(CircularArc((0, 0), 100, 0, math.tau), 0.12046)
    assert len(t) == 65
    assert len(flatten(CircularArc((0, 0), 100, 0, math.tau), 0.1204)[0]) == 66


def test_steps_are_not_needlessly_short():
    """A quarter circle drawn as a cubic takes at most twice the points of the true arc."""
    k = 0.5522847498
    corners = np.array([[100, 0], [100, 100 * k], [100 * k, 100], [0, 100]], float)
    spline = flatten(cubic(*corners), 0.02)[0]
    arc = flatten(CircularArc((0, 0), 100, 0, math.pi / 2), 0.02)[0]
    assert len(spline) <= 2 * len(arc)


def test_corners_of_polylines_are_kept():
    """Straight steps add nothing; their vertices come out unchanged."""
    xy = np.array([[0.0, 0.0], [10.0, 0.0], [10.0, 5.0]])
    t, flat = flatten(Polyline(xy), 0.02)
    assert t.tolist() == [0, 1, 2]
    assert np.array_equal(flat, xy)


def test_tiny_circles_keep_four_corners():
    """A circle smaller than the tolerance does not collapse to a point or a line."""
    assert len(flatten(CircularArc((0, 0), 0.001, 0, math.tau), 0.02)[0]) == 5


def test_knots_of_full_multiplicity_are_corners():
    """A corner inside a spline is one of the points."""
    control = np.array([[0.0, 0], [5, 0], [10, 0], [10, 5], [10, 10]])
    spline = Spline(2, control, np.array([0.0, 0, 0, 1, 1, 2, 2, 2]))
    assert [10.0, 0.0] in flatten(spline, 0.02)[1].tolist()


@pytest.mark.parametrize(
    "curve",
    [
        CircularArc((0, 0), 1e20, 0, math.tau),
        EllipticArc((0, 0), (1e20, 0), 0.5, 0, math.tau),
        Polyline(np.array([[0, 0], [1e20, 0]]), np.array([1.0, 0.0])),
        Spline(
            2,
            np.random.default_rng(1).uniform(-1e15, 1e15, (300, 2)),
            np.concatenate([[0, 0], np.arange(299), [298, 298]]).astype(float),
        ),
    ],
    ids=["circle", "ellipse", "bulge", "spline"],
)
def test_impossible_sizes_are_refused(curve):
    """A curve that would take millions of points is an error that says so."""
    with pytest.raises(ArtworkError, match="points to follow"):
        flatten(curve, 0.02)


def test_nothing_gives_nothing():
    """No curves give empty arrays."""
    flat = flatten_all([], 0.02)
    assert flat.xy.shape == (0, 2)
    assert flat.first.tolist() == [0]
