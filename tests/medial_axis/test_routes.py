"""Routes along the axis, judged by a slow shortest-way search of their own."""

import heapq
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from holeplacer.medial_axis import ways
from holeplacer.medial_axis.axis import Axis, Branch
from holeplacer.medial_axis.routes import Part, Routes, midpoint, place_at, polylines
from holeplacer.medial_axis.routes import routes as kept_routes

NODES = ((0.0, 0.0), (100.0, 0.0), (200.0, 0.0), (100.0, 80.0), (300.0, 0.0))
EDGES = ((0, 1), (1, 2), (1, 3), (3, 2), (2, 4))
"""A line of three steps with a triangle over its middle: two tips, one loop."""


def straight(start, end):
    xy = np.linspace(NODES[start], NODES[end], 9)
    s = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(xy, axis=0).T))])
    return Branch(start, end, 0, xy, np.full(9, 10.0), s, np.zeros((9, 2, 2)))


AXIS = Axis(
    branches=tuple(straight(*edge) for edge in EDGES),
    node_xy=np.array(NODES),
    node_clearance=np.full(5, 10.0),
    node_piece=np.zeros(5, np.intp),
    tips=(),
)


def routes(*sites):
    """Routes of sites given as branch and share of its length."""
    branch = [index for index, _ in sites]
    s = [AXIS.branches[index].length_mm * share for index, share in sites]
    return Routes(AXIS, ways.reach(AXIS, ways.AxisPoints.on_branches(branch, s)))


def nearest_ways(sites):
    """Way from each node to its nearest site, by a plain search over nodes and sites."""
    links = {}
    for index, branch in enumerate(AXIS.branches):
        stops = sorted(
            (share * branch.length_mm, ("site", n))
            for n, (b, share) in enumerate(sites)
            if b == index
        )
        chain = [(0.0, branch.start), *stops, (branch.length_mm, branch.end)]
        for (s1, one), (s2, two) in pairwise(chain):
            links.setdefault(one, []).append((two, s2 - s1))
            links.setdefault(two, []).append((one, s2 - s1))
    way = {}
    heap = [(0.0, str(("site", n)), ("site", n)) for n in range(len(sites))]
    while heap:
        far, _, here = heapq.heappop(heap)
        if here in way:
            continue
        way[here] = far
        for there, step in links.get(here, ()):
            heapq.heappush(heap, (far + step, str(there), there))
    return way


SITES = st.lists(
    st.tuples(st.integers(0, len(EDGES) - 1), st.floats(0.05, 0.95)), min_size=1, max_size=6,
    unique_by=lambda site: (site[0], round(site[1], 3)),
)  # fmt: skip


@settings(max_examples=150, deadline=None)
@given(SITES)
def test_a_nodes_route_is_as_long_as_its_way_and_unbroken(sites):
    """For every node as long as the search finds, each part beginning where the last ended."""
    found, true = routes(*sites), nearest_ways(sites)
    for node in range(len(NODES)):
        parts = found.from_node(node)
        assert sum(part.length_mm for part in parts) == pytest.approx(true[node], abs=1e-6)
        places = [NODES[node]]
        for line in polylines(AXIS, parts):
            assert np.allclose(line[0], places[-1], atol=1e-6)
            places.append(line[-1])
        ends = [place_at(AXIS, b, share * AXIS.branches[b].length_mm) for b, share in sites]
        assert any(np.allclose(places[-1], end, atol=1e-6) for end in ends)


@settings(max_examples=150, deadline=None)
@given(SITES)
@example([(1, 0.05), (4, 0.95)])  # node 2 lies halfway between both
@example([(0, 0.5), (1, 0.5)])  # and so does node 1
def test_a_spans_route_is_as_long_as_the_span_and_joins_its_sites(sites):
    """Every measured span is found, unbroken from one site to the other."""
    found = routes(*sites)
    lengths = found.reach.spans()[0]
    spans = found.spans()
    measured = {round(way, 4) for way in lengths[np.isfinite(lengths)].tolist()}
    assert {round(span.length_mm, 4) for span in spans} == measured
    ends = [place_at(AXIS, b, share * AXIS.branches[b].length_mm) for b, share in sites]
    for span in spans:
        lines = polylines(AXIS, span.parts)
        assert np.allclose(lines[0][0], ends[span.sites[0]], atol=1e-6)
        assert np.allclose(lines[-1][-1], ends[span.sites[1]], atol=1e-6)
        for one, two in pairwise(lines):
            assert np.allclose(one[-1], two[0], atol=1e-6)


def test_short_spans_and_other_sites_can_be_left_out():
    """Three holes on the line: two spans; only the longer, only those of the last."""
    found = routes((0, 0.5), (4, 0.1), (4, 0.9))
    assert len(found.spans()) >= 2
    assert {span.sites for span in found.spans(longer_mm=100.0)} == {(0, 1)}
    assert all(2 in span.sites for span in found.spans(site=2))


def test_without_sites_there_is_no_route():
    """Nothing to walk to."""
    empty = Routes(AXIS, ways.reach(AXIS, ways.AxisPoints.on_branches([], [])))
    assert empty.spans() == ()
    assert empty.from_node(0) == ()


def test_a_hole_on_a_node_is_reached_at_once():
    """The route is empty or has no length."""
    found = routes((0, 1.0))
    assert sum(part.length_mm for part in found.from_node(1)) == pytest.approx(0.0, abs=1e-9)


def test_a_part_is_walked_either_way():
    """Backwards gives the same points backwards, both ends exact."""
    there, back = polylines(AXIS, (Part(1, 10.0, 63.0), Part(1, 63.0, 10.0)))
    assert there[0].tolist() == [110.0, 0.0]
    assert there[-1].tolist() == [163.0, 0.0]
    assert np.array_equal(there, back[::-1])
    assert Part(1, 10.0, 63.0).backwards == Part(1, 63.0, 10.0)


def test_the_midpoint_lies_halfway_along_the_route():
    """Over parts of several branches, walked either way."""
    parts = (Part(1, 50.0, 0.0), Part(2, 0.0, 80.0))
    assert midpoint(AXIS, parts) == pytest.approx((100.0, 15.0))
    assert midpoint(AXIS, (Part(0, 20.0, 80.0),)) == pytest.approx((50.0, 0.0))


def test_a_place_is_kept_within_its_branch():
    """Ways beyond the ends give the ends."""
    assert place_at(AXIS, 0, -5.0) == (0.0, 0.0)
    assert place_at(AXIS, 0, 500.0) == (100.0, 0.0)


def test_routes_are_kept_for_the_same_ways():
    """Whoever asks for the routes of one evaluation is given the same ones."""
    reach = ways.reach(AXIS, ways.AxisPoints.on_branches([0], [50.0]))
    assert kept_routes(AXIS, reach) is kept_routes(AXIS, reach)
    other = ways.reach(AXIS, ways.AxisPoints.on_branches([0], [50.0]))
    assert kept_routes(AXIS, other) is not kept_routes(AXIS, reach)
