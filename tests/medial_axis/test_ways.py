"""Ways along the axis, against shortest ways on a finely divided graph."""

import itertools

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.sparse import coo_array
from scipy.sparse.csgraph import dijkstra

from holeplacer.medial_axis import ways
from holeplacer.medial_axis.axis import Axis, Branch, Tip


def straight(nodes, edges):
    """Axis with straight branches, 10 mm clearance at starts and 20 mm at ends."""
    nodes = np.asarray(nodes, float)
    share = np.linspace(0, 1, 7)
    branches = []
    for start, end in edges:
        xy = nodes[start] + share[:, None] * (nodes[end] - nodes[start])
        s = share * float(np.hypot(*(nodes[end] - nodes[start])))
        branches.append(Branch(start, end, 0, xy, 10 + 10 * share, s, np.stack([xy, xy], 1)))
    tips = (Tip(len(nodes) - 1, (0.0, 0.0), 5.0),)
    return Axis(
        tuple(branches), nodes, np.full(len(nodes), 10.0), np.zeros(len(nodes), np.intp), tips
    )


@st.composite
def graphs_with_sites(draw):
    size = draw(st.integers(2, 6))
    place = st.integers(0, 20)
    nodes = [(30.0 * n + draw(place), 13.0 * draw(place)) for n in range(size)]
    edges = [(draw(st.integers(0, n - 1)), n) for n in range(1, size)]
    for _ in range(draw(st.integers(0, 2))):
        one, two = draw(st.integers(0, size - 1)), draw(st.integers(0, size - 1))
        if one != two:
            edges.append((one, two))
    axis = straight(nodes, edges)
    sites = draw(
        st.lists(st.tuples(st.integers(0, len(edges) - 1), st.floats(0, 1)), min_size=1, max_size=5)
    )
    length = ways.network(axis).length
    branch = [b for b, _ in sites]
    return axis, ways.AxisPoints.on_branches(branch, [length[b] * share for b, share in sites])


def slow_ways(axis, sites, branch, s):
    """Way from each point to the nearest site, by cutting every branch at all of them."""
    net = ways.network(axis)
    count = net.nodes
    edges = {}
    points = list(zip(sites.branch, sites.s, strict=True)) + list(zip(branch, s, strict=True))
    number = {}
    for b in range(len(net.start)):
        chain = [(0.0, int(net.start[b]))]
        for index, (of, at) in enumerate(points):
            if of == b:
                number[index] = count
                chain.append((float(at), count))
                count += 1
        chain.append((float(net.length[b]), int(net.end[b])))
        chain.sort(key=lambda item: item[0])
        for (low, one), (high, two) in itertools.pairwise(chain):
            key = (min(one, two), max(one, two))
            edges[key] = min(edges.get(key, np.inf), max(high - low, 1e-12))
    ends = np.array([k for k in edges if k[0] != k[1]])
    values = np.array([edges[tuple(k)] for k in ends.tolist()])
    graph = coo_array((values, (ends[:, 0], ends[:, 1])), shape=(count, count)).tocsr()
    start = [number[i] for i in range(len(sites))]
    way = dijkstra(graph, directed=False, indices=start, min_only=True)
    return way[[number[i + len(sites)] for i in range(len(branch))]]


@settings(max_examples=60, deadline=None)
@given(graphs_with_sites(), st.randoms(use_true_random=False))
def test_way_at_any_point(case, random):
    """The way from any point to its nearest site is that of a finely divided graph."""
    axis, sites = case
    net = ways.network(axis)
    branch = np.array([random.randrange(len(net.start)) for _ in range(15)])
    s = net.length[branch] * np.array([random.random() for _ in range(15)])
    found = ways.reach(axis, sites).way_at(branch, s)
    np.testing.assert_allclose(found, slow_ways(axis, sites, branch, s), atol=1e-6)


@settings(max_examples=40, deadline=None)
@given(graphs_with_sites())
def test_peaks_are_greatest(case):
    """No point of a gap is further than its peak, and the peak is where it says."""
    axis, sites = case
    reach = ways.reach(axis, sites)
    at_peak = slow_ways(axis, sites, reach.branch, reach.peak_s)
    np.testing.assert_allclose(np.minimum(at_peak, reach.peak_way), at_peak, atol=1e-6)
    share = np.linspace(0, 1, 9)
    s = (reach.low[:, None] + share * (reach.high - reach.low)[:, None]).ravel()
    sampled = slow_ways(axis, sites, np.repeat(reach.branch, 9), s).reshape(-1, 9)
    assert (sampled.max(axis=1) <= reach.peak_way + 1e-6).all()


@settings(max_examples=40, deadline=None)
@given(graphs_with_sites(), st.floats(5, 120))
def test_beyond_is_all_that_is_further(case, radius):
    """Points are in an uncovered part if and only if their way is longer than the radius."""
    axis, sites = case
    net = ways.network(axis)
    reach = ways.reach(axis, sites)
    branch = np.repeat(np.arange(len(net.start)), 25)
    s = (net.length[:, None] * np.linspace(0.01, 0.99, 25)).ravel()
    gap, low, high = reach.beyond(radius)
    inside = [
        bool(((reach.branch[gap] == b) & (low < at) & (at < high)).any())
        for b, at in zip(branch, s, strict=True)
    ]
    way = reach.way_at(branch, s)
    clear = np.abs(way - radius) > 1e-6
    np.testing.assert_array_equal(np.array(inside)[clear], (way > radius)[clear])
    whole = np.minimum(reach.left_way, reach.right_way)[gap] > radius
    assert np.array_equal(low[whole], reach.low[gap][whole])
    assert np.array_equal(high[whole], reach.high[gap][whole])


def test_spans_along_a_stroke():
    """Each side of a hole knows the next hole and the way to it; outermost sides know none."""
    axis = straight([(0, 0), (100, 0)], [(0, 1)])
    spans, nexts = ways.reach(axis, ways.AxisPoints.on_branches([0, 0], [80.0, 20.0])).spans()
    np.testing.assert_allclose(spans, [[60, np.inf], [np.inf, 60]])
    np.testing.assert_array_equal(nexts, [[1, -1], [-1, 0]])


def test_spans_through_a_junction():
    """Through a junction the next hole is the nearest on any other arm."""
    axis = straight([(0, 0), (100, 0), (-50, 0), (0, 70)], [(0, 1), (0, 2), (0, 3)])
    sites = ways.AxisPoints.on_branches([0, 1, 2], [30.0, 40.0, 10.0])
    spans, nexts = ways.reach(axis, sites).spans()
    np.testing.assert_allclose(spans[:, 0], [40, 50, 40])
    np.testing.assert_array_equal(nexts[:, 0], [2, 2, 0])


def test_one_hole_on_a_ring():
    """On a closed loop the only hole is its own neighbour, once round."""
    axis = straight([(0, 0), (100, 0)], [(0, 1), (0, 1)])
    spans, nexts = ways.reach(axis, ways.AxisPoints.on_branches([0], [30.0])).spans()
    np.testing.assert_allclose(spans, [[200, 200]])
    np.testing.assert_array_equal(nexts, [[0, 0]])


def test_no_site():
    """Without a site everything is infinitely far."""
    axis = straight([(0, 0), (100, 0)], [(0, 1)])
    reach = ways.reach(axis, ways.AxisPoints.on_branches([], []))
    gap, low, high = reach.beyond(50.0)
    assert (gap.tolist(), low.tolist(), high.tolist()) == ([0], [0.0], [100.0])
    assert np.isinf(reach.node_way).all()


def test_foot_of_a_point():
    """The foot is the nearest axis point, with its distance; places and clearances agree."""
    axis = straight([(0, 0), (100, 0), (100, 50)], [(0, 1), (1, 2)])
    point, distance = ways.foot(axis, (40.0, 7.0))
    assert (point.branch, point.s_mm, distance) == (0, pytest.approx(40.0), pytest.approx(7.0))
    points = ways.AxisPoints.on_branches([0, 1], [40.0, 50.0])
    np.testing.assert_allclose(ways.places(axis, points), [[40, 0], [100, 50]])
    np.testing.assert_allclose(ways.clearances(axis, points), [14.0, 20.0])


def test_blob():
    """A lone node is a foot, and is served by a hole there and by no other."""
    axis = straight([(0, 0), (100, 0), (50, 80)], [(0, 1)])
    point, distance = ways.foot(axis, (50.0, 75.0))
    assert (point.branch, point.node, distance) == (ways.LONE, 2, 5.0)
    feet = ways.feet(axis, [(50.0, 75.0)]).points
    way = ways.reach(axis, feet).node_way
    assert way[2] == 0
    assert np.isinf(way[:2]).all()


def test_straight_extents():
    """The two axis points furthest apart, straight: of bends, rings and trees; zero for a blob."""
    tree = straight([(0, 0), (60, 0), (-40, 0), (0, 30)], [(0, 1), (0, 2), (0, 3)])
    assert ways.straight_extents(tree) == (pytest.approx(100.0),)
    bend = straight([(0, 0), (30, 0), (30, 40)], [(0, 1), (1, 2)])
    assert ways.straight_extents(bend) == (pytest.approx(50.0),)
    assert ways.straight_extents(straight([(0, 0)], [])) == (0.0,)


def test_route():
    """The shortest way between two nodes along allowed branches only."""
    axis = straight([(0, 0), (100, 0), (50, 80)], [(0, 1), (1, 2), (2, 0)])
    assert ways.route(axis, 0, 1, np.array([True, True, True])) == (0,)
    assert sorted(ways.route(axis, 0, 1, np.array([False, True, True]))) == [1, 2]
    assert ways.route(axis, 0, 1, np.array([False, True, False])) == ()
