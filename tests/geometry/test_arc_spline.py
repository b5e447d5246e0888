"""Lines and arcs along a chain, judged by dense points on both."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer import resources
from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.artwork.options import ReadOptions
from holeplacer.artwork.read import read_artwork
from holeplacer.geometry import arc_spline, flatten
from holeplacer.geometry.curve import cubic


def furthest(one, other):
    """Distance of two lines both ways, measured at dense points: the slow way."""
    lines = [shapely.segmentize(shapely.LineString(xy), 0.25) for xy in (one, other)]
    return max(
        shapely.distance(shapely.points(shapely.get_coordinates(a)), b).max()
        for a, b in (lines, lines[::-1])
    )


def dense(fit):
    return flatten.flatten(fit.polyline, 0.0005)[1]


def chords_of(control, tolerance):
    chain = flatten.flatten(cubic(*np.array(control, float)), tolerance)[1]
    return chain[np.append(True, np.any(np.diff(chain, axis=0) != 0, axis=1))]


def ellipse(count, long, short):
    t = np.linspace(0, 2 * math.pi, count, endpoint=False)
    return np.column_stack([long * np.cos(t), short * np.sin(t)])


coordinate = st.floats(-100.0, 100.0)
point = st.tuples(coordinate, coordinate)
points_of_a_cubic = st.lists(point, min_size=4, max_size=4, unique=True)


@settings(max_examples=30, deadline=None)
@given(points=points_of_a_cubic, tolerance=st.sampled_from([0.02, 0.05]))
def test_chords_that_stand_for_themselves_are_kept_to(points, tolerance):
    """Any cubic, loops and cusps among them: both ways within the tolerance, ends kept."""
    chain = chords_of(points, 0.02)
    fit = arc_spline.fitted(chain, tolerance)
    back = dense(fit)
    assert np.array_equal(back[[0, -1]], chain[[0, -1]])
    assert furthest(back, chain) <= tolerance + 0.001
    assert fit.deviation_mm <= tolerance
    assert fit.entities <= len(chain) - 1


@settings(max_examples=30, deadline=None)
@given(points=points_of_a_cubic)
def test_chords_of_a_curve_are_left_by_little_more_than_the_curve(points):
    """As much further as they themselves may stray, and no vertex by more than the tolerance."""
    chain = chords_of(points, 0.02)
    fit = arc_spline.fitted(chain, 0.05, 0.02)
    back = dense(fit)
    assert furthest(back, chain) <= 0.05 + 1.25 * 0.02 + 0.001
    line = shapely.LineString(back)
    assert shapely.distance(line, shapely.points(chain)).max() <= 0.05 + 0.001


def test_a_chain_backwards_is_fitted_as_well():
    """The other way along, the arcs are as near, and as many or one more."""
    chain = chords_of([(0, 0), (100, 200), (200, -200), (300, 0)], 0.02)
    there = arc_spline.fitted(chain, 0.05, 0.02)
    back = arc_spline.fitted(chain[::-1], 0.05, 0.02)
    assert furthest(dense(back), chain) <= 0.076
    assert abs(there.entities - back.entities) <= 1


@settings(max_examples=30, deadline=None)
@given(
    radius=st.floats(1.0, 500.0),
    start=st.floats(0, 7),
    sweep=st.floats(0.3, 2.0),
    way=st.sampled_from([-1, 1]),
)
def test_chords_of_an_arc_become_the_arc(radius, start, sweep, way):
    """Sixty chords of one circular arc are one step with about the arc's own bulge."""
    angle = start + way * sweep * np.linspace(0, 1, 61)
    chain = radius * np.column_stack([np.cos(angle), np.sin(angle)])
    fit = arc_spline.fitted(chain, 0.001 * radius)
    assert fit.entities == 1
    assert fit.polyline.bulges[0] == pytest.approx(way * math.tan(sweep / 4), rel=0.05, abs=0.004)


def test_tight_curves_take_far_fewer_arcs_than_chords():
    """A wave 300 mm long, flattened as finely as it is fitted: a fifth; more finely, a tenth."""
    control = [(0, 0), (100, 200), (200, -200), (300, 0)]
    fit = arc_spline.fitted(chords_of(control, 0.005), 0.05, 0.005)
    assert fit.entities * 4 < len(chords_of(control, 0.05))
    assert fit.entities * 10 < len(chords_of(control, 0.005))
    assert math.degrees(fit.kink_rad) < 3.0


@pytest.mark.parametrize("count", [12, 96, 400])
@pytest.mark.parametrize("way", [1, -1])
def test_a_circle_is_two_half_circles(count, way):
    """Whatever it was flattened to, it gets its centre and radius back, and its direction."""
    ring = ellipse(count, 50.0, 50.0)[::way] + np.array([700.0, -300.0])
    sagitta = 50.0 * (1 - math.cos(math.pi / count))
    fit = arc_spline.fitted(ring, 0.05, sagitta * 1.001, closed=True)
    assert fit.polyline.closed
    assert fit.polyline.bulges.tolist() == [way, way]
    assert fit.polyline.xy.mean(axis=0) == pytest.approx((700.0, -300.0), abs=1e-6)
    assert math.dist(*fit.polyline.xy) == pytest.approx(100.0, abs=1e-6)
    assert np.array_equal(fit.polyline.xy[0], ring[0])
    assert fit.deviation_mm < 1e-6
    assert fit.kink_rad < 1e-6


def test_an_ellipse_is_no_circle():
    """It takes as many arcs as it needs, closed and simple, hardly kinked."""
    ring = ellipse(240, 80.0, 40.0)
    fit = arc_spline.fitted(ring, 0.05, 0.02, closed=True)
    back = dense(fit)
    assert 8 <= fit.entities <= 24
    assert shapely.LinearRing(back).is_simple
    assert shapely.LinearRing(back).is_ccw
    assert furthest(np.vstack([back, back[:1]]), np.vstack([ring, ring[:1]])) <= 0.076
    assert math.degrees(fit.kink_rad) < 3.0


def test_corners_are_kept():
    """A rectangle of many chords is four lines between its own corners."""
    xy = shapely.get_coordinates(shapely.segmentize(shapely.box(0, 0, 100, 40), 3.0))[:-1]
    fit = arc_spline.fitted(xy, 0.05, closed=True)
    places = {tuple(place) for place in np.round(fit.polyline.xy[fit.corners], 9).tolist()}
    assert places == {(0, 0), (100, 0), (100, 40), (0, 40)}
    assert fit.polyline.bulges is None
    assert fit.deviation_mm == pytest.approx(0.0, abs=1e-9)


def test_straight_lines_between_arcs_stay_exact():
    """A slot is two lines that end where its round ends begin, to the bit, and some arcs."""
    slot = shapely.LineString([(0, 0), (120, 0)]).buffer(8, quad_segs=16)
    xy = shapely.get_coordinates(slot.exterior)[:-1]
    fit = arc_spline.fitted(xy, 0.05, 0.02, closed=True)
    bulges = fit.polyline.bulges
    lines = np.flatnonzero(bulges == 0.0)
    assert len(lines) == 2
    ends = fit.polyline.xy[np.concatenate([lines, (lines + 1) % len(bulges)])]
    assert {tuple(end) for end in ends.tolist()} <= {tuple(place) for place in xy.tolist()}
    assert fit.entities <= 10


def test_the_sides_of_a_cusp_do_not_cross():
    """Two curves that leave a point with almost one tangent stay apart."""
    upper = chords_of([(0, 0), (60, 0.1), (120, 6), (180, 20)], 0.02)
    lower = chords_of([(180, 20), (130, -2), (60, -0.1), (0, 0)], 0.02)
    fit = arc_spline.fitted(np.vstack([upper, lower[1:-1]]), 0.05, 0.02, closed=True)
    assert shapely.LinearRing(dense(fit)).is_simple


@pytest.mark.parametrize(
    "xy",
    [
        [(0, 0), (10, 5)],
        [(0, 0), (10, 5), (20, 10), (30, 15)],
        [(0, 0), (0.01, 0), (0.01, 0.01)],
    ],
    ids=["two points", "a row", "a crumb"],
)
def test_the_least_chains_keep_their_ends(xy):
    """Two points, points in a row and what is smaller than the tolerance."""
    chain = np.array(xy, float)
    fit = arc_spline.fitted(chain, 0.05)
    assert np.array_equal(fit.polyline.xy[[0, -1]], chain[[0, -1]])
    assert furthest(dense(fit), chain) <= 0.05
    if len(chain) != 3:
        assert fit.polyline.bulges is None
        assert fit.entities == 1


def test_a_tiny_ring_stays_a_ring():
    """A ring smaller than the tolerance keeps an area and its direction."""
    ring = ellipse(12, 0.03, 0.02)
    fit = arc_spline.fitted(ring, 0.05, 0.02, closed=True)
    back = shapely.Polygon(dense(fit))
    assert back.is_valid
    assert back.exterior.is_ccw
    assert back.area > 0


def test_a_burr_costs_arcs_only_around_it():
    """A splinter thinner than the tolerance keeps its own chords; the rest of the ring is arcs."""
    ring = ellipse(400, 150.0, 90.0)
    x, y = ring[100]
    burr = np.array([(x + 0.341, y - 0.012), (x + 0.427, y - 0.029), (x - 0.174, y - 0.078)])
    marred = np.insert(ring, 101, burr, axis=0)
    assert shapely.LinearRing(marred).is_simple
    fit = arc_spline.fitted(marred, 0.05, 0.02, closed=True)
    assert fit.entities <= arc_spline.fitted(ring, 0.05, 0.02, closed=True).entities + 24
    assert shapely.LinearRing(dense(fit)).is_simple


def rings_of_demo(tolerance):
    data = resources.resource_path("demo", "thistledown.svg").read_bytes()
    file = ArtworkFile("thistledown.svg", data)
    outline = read_artwork(file, ReadOptions(tolerance_mm=tolerance)).outline
    for piece in outline.pieces:
        for ring in (piece.polygon.exterior, *piece.polygon.interiors):
            yield shapely.get_coordinates(ring)[:-1]


def kinks_deg(fit):
    """Angles between neighbours where there is no corner, by the bulges."""
    xy = fit.polyline.xy
    bulges = np.zeros(len(xy)) if fit.polyline.bulges is None else fit.polyline.bulges
    course = np.arctan2(*(np.roll(xy, -1, axis=0) - xy).T[::-1])
    leaves, arrives = course - 2 * np.arctan(bulges), course + 2 * np.arctan(bulges)
    turn = (leaves - np.roll(arrives, 1) + math.pi) % (2 * math.pi) - math.pi
    return np.degrees(np.abs(turn[~fit.corners]))


def are_within(one, other, limit):
    """Whether two long lines are as near both ways, measured at dense points."""
    for line, points_of in ((one, other), (other, one)):
        shapely.prepare(line)
        points = shapely.points(shapely.get_coordinates(shapely.segmentize(points_of, 0.25)))
        if not shapely.dwithin(line, points, limit).all():
            return False
    return True


def test_real_lettering():
    """The demo sign: a fifth of the chords, within the tolerance both ways, hardly kinked."""
    fits = []
    for ring in rings_of_demo(0.02):
        fit = arc_spline.fitted(ring, 0.05, 0.02, closed=True)
        assert are_within(shapely.LinearRing(ring), shapely.LinearRing(dense(fit)), 0.076)
        fits.append(fit)
    chords = sum(len(ring) for ring in rings_of_demo(0.05))
    assert sum(fit.entities for fit in fits) < chords / 5.3
    assert max(fit.deviation_mm for fit in fits) <= 0.05
    kinks = np.concatenate([kinks_deg(fit) for fit in fits])
    assert len(kinks) > 300
    assert kinks.max() < 10.0
    assert np.percentile(kinks, 95) < 3.0
    assert math.radians(kinks.max()) == pytest.approx(max(fit.kink_rad for fit in fits))
