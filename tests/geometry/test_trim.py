"""Stretches of curves."""

import math

import numpy as np
import pytest
from curves import EXAMPLES, curves, splines
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from holeplacer.geometry.curve import CircularArc, EllipticArc, Polyline, Spline
from holeplacer.geometry.evaluate import domain, is_closed, points_at
from holeplacer.geometry.trim import reversed_curve, trimmed

shares = st.floats(0, 1)


@given(curves, shares, shares)
@settings(**EXAMPLES)
def test_stretch_runs_between_its_two_points(curve, one, other):
    """A stretch starts at t0 and ends at t1, in either direction."""
    start, end = domain(curve)
    t0, t1 = start + one * (end - start), start + other * (end - start)
    stretch = trimmed(curve, t0, t1)
    found = points_at(stretch, domain(stretch))
    assert np.allclose(found, points_at(curve, [t0, t1]), atol=1e-6)


@given(splines(), shares, shares)
@settings(**EXAMPLES)
def test_stretch_of_a_spline_is_the_same_points(spline, one, other):
    """Between t0 and t1 the trimmed spline equals the whole one at every parameter."""
    assume(abs(one - other) > 1e-3)
    start, end = domain(spline)
    t0, t1 = (start + share * (end - start) for share in sorted((one, other)))
    stretch = trimmed(spline, t0, t1)
    t = np.linspace(t0, t1, 57)
    assert stretch.degree == spline.degree
    assert (stretch.weights is None) == (spline.weights is None)
    assert domain(stretch) == (t0, t1)
    assert np.allclose(points_at(stretch, t), points_at(spline, t), atol=1e-6)


@given(splines())
@settings(**EXAMPLES)
def test_whole_spline_comes_back_clamped(spline):
    """Trimming to the whole domain keeps the points and puts the ends into control points."""
    start, end = domain(spline)
    stretch = trimmed(spline, start, end)
    assert np.allclose(stretch.control[[0, -1]], points_at(spline, [start, end]), atol=1e-8)


@given(curves)
@settings(**EXAMPLES)
def test_reversing_twice_is_nothing(curve):
    """A curve reversed runs from its end to its start; reversed again it is itself."""
    back = reversed_curve(curve)
    ends = points_at(curve, domain(curve))
    assert np.allclose(points_at(back, domain(back))[::-1], ends, atol=1e-9)
    again = reversed_curve(back)
    t = np.linspace(*domain(curve), 33)
    assert np.allclose(
        points_at(again, np.linspace(*domain(again), 33)), points_at(curve, t), atol=1e-6
    )


@given(st.integers(3, 9), shares, shares)
@settings(**EXAMPLES)
def test_stretch_through_the_seam_of_a_polyline(count, one, other):
    """Beyond the last vertex of a closed polyline the stretch goes on from the first."""
    angle = np.arange(count) * math.tau / count
    xy = np.column_stack([np.cos(angle), np.sin(angle)])
    ring = Polyline(xy, np.full(count, math.tan(math.tau / count / 4)), closed=True)
    t0 = one * count
    t1 = t0 + other * count * 0.99
    stretch = trimmed(ring, t0, t1)
    end = points_at(ring, [t1 - count if t1 > count else t1])
    assert np.allclose(points_at(stretch, domain(stretch)[1]), end, atol=1e-9)
    dense = points_at(stretch, np.linspace(*domain(stretch), 100))
    assert np.allclose(np.hypot(*dense.T), 1, atol=1e-9)


def test_stretch_through_the_seam_of_a_rational_circle():
    """Two parts of a closed rational spline join to one spline on the same circle."""
    control = np.array(
        [[1, 0], [1, 1], [0, 1], [-1, 1], [-1, 0], [-1, -1], [0, -1], [1, -1], [1, 0]]
    )
    weights = np.where(np.arange(9) % 2, math.sqrt(0.5), 1.0)
    knots = np.array([0, 0, 0, 1, 1, 2, 2, 3, 3, 4, 4, 4.0])
    circle = Spline(2, control.astype(float), knots, weights)
    assert is_closed(circle)
    stretch = trimmed(circle, 3.3, 4.6)
    assert np.allclose(points_at(stretch, domain(stretch)), points_at(circle, [3.3, 0.6]))
    assert np.allclose(np.hypot(*points_at(stretch, np.linspace(3.3, 4.6, 50)).T), 1, atol=1e-12)


def test_whole_round_of_a_ring_stays_closed():
    """A full round from any vertex is the same ring started there."""
    ring = Polyline(np.array([[0.0, 0], [4, 0], [4, 3]]), np.array([0.1, 0.2, 0.3]), closed=True)
    turned = trimmed(ring, 1, 4)
    assert turned.closed
    assert turned.xy.tolist() == [[4, 0], [4, 3], [0, 0]]
    assert turned.bulges.tolist() == [0.2, 0.3, 0.1]


@pytest.mark.parametrize(
    "arc", [CircularArc((0, 0), 2, 0, 3), EllipticArc((0, 0), (2, 0), 0.5, 0, 3)]
)
def test_arcs_trim_to_arcs(arc):
    """Trimming an arc changes its start and sweep only."""
    stretch = trimmed(arc, 2.0, 0.5)
    assert type(stretch) is type(arc)
    assert (stretch.start, stretch.sweep) == (2.0, -1.5)
