"""The fewest holes from block to block, against plain solvers."""

import numpy as np
import plain_cover
import pytest
from graphs import NONE, graph, path, wanted
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.medial_axis.ways import AxisPoints
from holeplacer.placement import refinement
from holeplacer.placement.block_cover import block_cover
from holeplacer.placement.refinement import Holes


def covered(axis, half_mm, overhang_mm=1e6, tightness=1.0, least_mm=5.0, stays=NONE):
    """Count and bound, after seeing that everything is served by holes that may be there."""
    demand = wanted(axis, half_mm, overhang_mm, least_mm, stays)
    found = block_cover(demand, stays, tightness)
    at = found.places
    stretch = demand.room.holding(at.branch, at.s)
    assert (stretch >= 0).all()
    peaks = refinement.peaks(demand, Holes(demand.room, stretch, at.s, stays))
    assert (peaks.way <= peaks.radius(tightness) + 1e-6).all()
    assert found.bound <= len(at)
    return len(at), found.bound


@st.composite
def chains(draw):
    """Rings and thetas in a chain, with strokes between and at the sides, some of them thin."""
    length = st.integers(3, 14)
    nodes, edges = 1, []
    for _ in range(draw(st.integers(1, 4))):
        kind = draw(st.sampled_from(["stroke", "ring", "theta", "loop", "side"]))
        here = nodes - 1
        if kind == "loop":
            edges.append((here, here, 10.0 * draw(length)))
            continue
        count = {"stroke": 1, "side": 1, "ring": 2, "theta": 3}[kind]
        start = 0 if kind == "side" else here
        edges += [(start, nodes, 10.0 * draw(length)) for _ in range(count)]
        if kind == "theta" and draw(st.booleans()):
            a, b, long = edges.pop()
            edges += [(a, nodes + 1, long / 2), (nodes + 1, b, long / 2)]
            nodes += 1
        nodes += 1
    steps = 30
    middle = (np.arange(steps) > 9) & (np.arange(steps) < 20)
    neck = st.booleans() if draw(st.booleans()) else st.just(False)
    thin = [np.where(draw(neck) & middle, 3.0, 10.0) for _ in edges]
    places = [(60.0 * n, 25.0 * (n % 3)) for n in range(nodes)]
    return graph(places, edges, clearance=thin, steps=steps)


@settings(max_examples=40, deadline=None)
@given(
    chains(),
    st.sampled_from([22.0, 35.0, 60.0, 110.0]),
    st.sampled_from([12.0, 30.0, 1e6]),
)
def test_between_two_plain_programs(axis, half_mm, overhang_mm):
    """A dense grid with radii a little larger never needs more, a little smaller never fewer.

    The latter where metal is nowhere thin: with smaller radii less of thin metal can be served.
    """
    pitch = 2.0
    count, bound = covered(axis, half_mm, overhang_mm)
    assert plain_cover.fewest(axis, half_mm, overhang_mm, pitch, give_mm=pitch / 2) <= count
    if min(branch.clearance.min() for branch in axis.branches) >= 5.0:
        assert bound <= plain_cover.fewest(axis, half_mm, overhang_mm, pitch, give_mm=-pitch / 2)


@pytest.mark.parametrize("tightness", [0.4, 0.8, 1.3])
def test_other_tightness(tightness):
    """Tighter and looser limits on a taper with two necks."""
    clear = 8 + 6 * np.cos(np.linspace(0, 5 * np.pi, 30))
    axis = graph([(0, 0), (700, 0), (350, 200)], [(0, 1), (0, 2), (1, 2)], clearance=[clear] * 3)
    count, bound = covered(axis, 90.0, tightness=tightness, least_mm=6.0)
    assert count == bound > 0


def test_holes_that_stay():
    """What they serve needs no new hole."""
    stays = AxisPoints.on_branches([0, 0], [0.0, 450.0])
    assert covered(path(600.0), 150.0, stays=stays) == (1, 1)


def test_rings_in_a_chain():
    """Proven where a search over the whole at once is not; a dense program agrees."""
    edges = []
    for n in range(6):
        edges += [(2 * n, 2 * n + 1, 190.0 + 7 * n), (2 * n, 2 * n + 1, 260.0 - 9 * n)]
        edges += [(2 * n + 1, 2 * n + 2, 83.0 + n)]
    nodes = [(90.0 * n, 30.0 * (n % 2)) for n in range(13)]
    axis = graph(nodes, edges)
    count, bound = covered(axis, 74.0)
    assert count == bound
    assert plain_cover.fewest(axis, 74.0, 1e6, 8.0, give_mm=4.0) <= count


def test_rings_that_no_cut_opens():
    """Four nodes joined each to each are left to another method."""
    nodes = [(0, 0), (100, 0), (50, 90), (50, 30)]
    edges = [(a, b, 120.0) for a in range(4) for b in range(a)]
    assert block_cover(wanted(graph(nodes, edges), 50.0), NONE, 1.0) is None
