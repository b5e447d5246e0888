"""Points of curves at parameters."""

import math

import numpy as np
import pytest
from curves import EXAMPLES, curves, de_boor, points, splines
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from holeplacer.geometry.curve import CircularArc, EllipticArc, Polyline, Spline
from holeplacer.geometry.evaluate import domain, is_closed, on_steps, points_at


@given(points, points, st.floats(-50, 50), st.floats(0, 1))
@settings(**EXAMPLES)
def test_arc_steps_lie_on_their_circle_at_their_angle(start, end, bulge, share):
    """A bulged step is the circle of radius c (1 + b^2) / (4 |b|), run evenly by angle."""
    chord = math.dist(start, end)
    assume(chord > 0.1 and abs(bulge) > 1e-3)
    a, b = np.array(start), np.array(end)
    radius = chord * (1 + bulge**2) / (4 * abs(bulge))
    normal = np.array([-(b - a)[1], (b - a)[0]]) / chord
    centre = (a + b) / 2 + normal * chord * (1 - bulge**2) / (4 * bulge)
    point = on_steps(a[None], b[None], np.array([bulge]), np.array([share]))[0]
    turned = 4 * math.atan(bulge) * share
    cos, sin = math.cos(turned), math.sin(turned)
    expected = centre + np.array([[cos, -sin], [sin, cos]]) @ (a - centre)
    assert np.allclose(point, expected, atol=1e-9 * (1 + radius))


def test_steps_hit_their_ends_bit_for_bit():
    """Whole parameters of a polyline give its vertices unchanged."""
    rng = np.random.default_rng(1)
    polyline = Polyline(rng.uniform(-1e4, 1e4, (50, 2)), rng.uniform(-2, 2, 50), closed=True)
    found = points_at(polyline, np.arange(51))
    assert np.array_equal(found[:50], polyline.xy)
    assert np.array_equal(found[50], polyline.xy[0])


@pytest.mark.parametrize("bulge", [1e-13, 1e-9, 1e-6])
def test_nearly_straight_steps_do_not_lose_precision(bulge):
    """A bulge close to zero leaves the chord by its sagitta b c / 2, not by rounding."""
    ends = np.array([[0.0, 0.0]]), np.array([[1000.0, 0.0]])
    middle = on_steps(*ends, np.array([bulge]), np.array([0.5]))[0]
    assert middle[0] == pytest.approx(500, abs=1e-9)
    assert middle[1] == pytest.approx(-bulge * 500, abs=1e-10)


def test_arcs_follow_their_equations():
    """Circles and ellipses are centre + axes times cosine and sine."""
    circle = CircularArc((1, 2), 3, 0.0, math.pi)
    assert np.allclose(points_at(circle, [0, math.pi / 2]), [[4, 2], [1, 5]])
    ellipse = EllipticArc((0, 0), (0, 4), 0.5, 0.0, math.tau)
    assert np.allclose(points_at(ellipse, [0, math.pi / 2]), [[0, 4], [-2, 0]])


@given(splines(), st.floats(0, 1))
@settings(**EXAMPLES)
def test_splines_agree_with_the_cox_de_boor_recursion(spline, share):
    """Points equal the sum of basis functions times control points."""
    start, end = domain(spline)
    t = start + share * (end - start)
    assert np.allclose(points_at(spline, t)[0], de_boor(spline, t), atol=1e-7)


def test_quarter_circle_as_rational_spline():
    """Weights 1, sqrt(1/2), 1 over three control points give the exact circle."""
    control = np.array([[1.0, 0.0], [1.0, 1.0], [0.0, 1.0]])
    arc = Spline(2, control, np.array([0.0, 0, 0, 1, 1, 1]), np.array([1, math.sqrt(0.5), 1]))
    assert np.allclose(np.hypot(*points_at(arc, np.linspace(0, 1, 33)).T), 1.0, atol=1e-14)


@given(curves)
@settings(**EXAMPLES)
def test_closed_means_ends_meet(curve):
    """`is_closed` agrees with the distance between the two ends of the domain."""
    first, last = points_at(curve, domain(curve))
    gap = np.linalg.norm(last - first)
    if is_closed(curve):
        assert gap < 1e-5
    elif not isinstance(curve, CircularArc | EllipticArc):
        assert gap > 0 or isinstance(curve, Polyline)


def test_beyond_the_domain_polylines_and_splines_stay_at_their_ends():
    """Parameters outside are taken to the nearer end."""
    line = Polyline(np.array([[0.0, 0.0], [2.0, 0.0]]))
    assert points_at(line, [-1, 9]).tolist() == [[0, 0], [2, 0]]
    spline = Spline(1, line.xy, np.array([0.0, 0, 1, 1]))
    assert points_at(spline, [-1, 9]).tolist() == [[0, 0], [2, 0]]
