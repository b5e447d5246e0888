"""Proven fewest holes, against plain solvers."""

import numpy as np
import plain_cover
import pytest
from graphs import NONE, graph, path, ring, wanted
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.errors import Cancelled
from holeplacer.medial_axis.ways import AxisPoints
from holeplacer.placement.fewest import fewest
from holeplacer.placement.watch import Watch


def count(axis, half_mm, overhang_mm=1e6, least_mm=5.0):
    cover = fewest(wanted(axis, half_mm, overhang_mm, least_mm), NONE, Watch())
    assert cover.tightness <= 1 + 1e-7
    assert cover.proven
    return len(cover.holes)


@st.composite
def small_graphs(draw):
    """Trees of a few branches, sometimes with one or two more that close rings."""
    size = draw(st.integers(2, 5))
    length = st.integers(2, 9)
    edges = [(draw(st.integers(0, n - 1)), n, 10.0 * draw(length)) for n in range(1, size)]
    for _ in range(draw(st.integers(0, 2))):
        node = st.integers(0, size - 1)
        edges.append((draw(node), draw(node), 10.0 * draw(length)))
    nodes = [(60.0 * n, 25.0 * (n % 3)) for n in range(size)]
    return graph(nodes, edges)


@settings(max_examples=25, deadline=None)
@given(small_graphs(), st.sampled_from([35.0, 60.0, 110.0]))
def test_never_more_than_enumeration(axis, half_mm):
    """On small graphs the count lies between those of trying all sets of two or three places."""
    pitch = max(5.0, axis.length_mm / 30)
    found = count(axis, half_mm)
    assert found <= plain_cover.enumerated(axis, half_mm - pitch / 2, pitch, most=3)
    assert found >= min(plain_cover.enumerated(axis, half_mm + pitch / 2, pitch, most=3), 4)


@settings(max_examples=25, deadline=None)
@given(small_graphs(), st.sampled_from([22.0, 35.0, 60.0]), st.sampled_from([12.0, 30.0, 1e6]))
def test_between_two_plain_programs(axis, half_mm, overhang_mm):
    """A dense grid with radii a little larger never needs more, a little smaller never fewer."""
    found = count(axis, half_mm, overhang_mm)
    pitch = 2.0
    assert plain_cover.fewest(axis, half_mm, overhang_mm, pitch, give_mm=pitch / 2) <= found
    assert found <= plain_cover.fewest(axis, half_mm, overhang_mm, pitch, give_mm=-pitch / 2)


@pytest.mark.parametrize("half_mm", [40.0, 75.0, 150.0])
def test_thin_stretch(half_mm):
    """Where metal is too thin for holes the plain program agrees, on a taper with two necks."""
    clear = 8 + 6 * np.cos(np.linspace(0, 5 * np.pi, 30))
    axis = graph([(0, 0), (700, 0)], [(0, 1)], clearance=[clear])
    found = count(axis, half_mm, least_mm=6.0)
    assert found <= plain_cover.fewest(axis, half_mm, 1e6, 1.0, least_mm=6.0, give_mm=-0.5)
    assert found >= plain_cover.fewest(axis, half_mm, 1e6, 1.0, least_mm=6.0, give_mm=0.5)


def test_ring_a_little_too_long():
    """A ring longer than one hole serves gets two, though its gap could lie anywhere."""
    assert count(ring(301.5), 150.0) == 2
    assert count(ring(299.9), 150.0) == 1


def test_exact_length():
    """A stroke exactly n spans long needs n holes, a hair more needs one more."""
    assert count(path(3000.0), 150.0) == 10
    assert count(path(3000.01), 150.0) == 11


@pytest.mark.parametrize("length", np.linspace(470.0, 505.0, 40))
def test_metal_at_one_end_only(length):
    """What the only metal can't serve is left out to the very end."""
    clear = np.where(np.arange(60) < 22, 10.0, 3.0)
    nodes, edges = [(0, 0), (length, 0), (0, 40)], [(0, 1), (0, 2), (0, 2, 50), (0, 2, 60)]
    axis = graph(nodes, edges, clearance=[clear, *[np.full(60, 3.0)] * 3], steps=60)
    assert count(axis, 150.0, 100.0) == 2


def test_holes_that_stay_count():
    """What a hole that stays serves needs no new one."""
    stays = AxisPoints.on_branches([0], [150.0])
    cover = fewest(wanted(path(600.0), 150.0, stays=stays), stays, Watch())
    assert (len(cover.holes), cover.bound) == (1, 1)
    assert cover.holes.s[0] == pytest.approx(450.0)


def test_gives_up():
    """More holes than allowed: no cover."""
    assert fewest(wanted(path(600.0), 50.0), NONE, Watch(), at_most=5) is None


def test_cancelled():
    """The person stops the search."""
    with pytest.raises(Cancelled):
        fewest(wanted(path(600.0), 50.0), NONE, Watch(cancelled=lambda: True))


def test_out_of_time():
    """Without time for a proof there is still a cover, and the bound says it is not proven."""
    axis = ring(1234.5)
    cover = fewest(wanted(axis, 37.0), NONE, Watch(seconds_a_piece=0.0))
    assert cover.tightness <= 1 + 1e-7
    assert cover.bound <= 17 <= len(cover.holes)


@pytest.mark.parametrize("half_mm", [44.0, 60.0])
def test_never_more_than_greedy(half_mm):
    """On a net of rings, proven or not, greedy cover on 1 mm places needs no fewer holes."""
    nodes = [(90.0 * x, 90.0 * y) for x in range(4) for y in range(3)]
    edges = [(n, n + 3, 97.0 + n) for n in range(9)]
    edges += [(n, n + 1, 93.0 + n) for n in range(11) if n % 3 < 2]
    axis = graph(nodes, edges)
    cover = fewest(wanted(axis, half_mm), NONE, Watch())
    assert cover.tightness <= 1 + 1e-7
    grid = plain_cover.Grid(axis, 1.0)
    left, greedy = grid.way <= half_mm - 0.5, 0
    while left.any():
        left = left[~left[:, left.sum(axis=0).argmax()]]
        greedy += 1
    assert cover.bound <= len(cover.holes) <= greedy
