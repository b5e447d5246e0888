"""Chains of crossings."""

import itertools

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.medial_axis.chains import chains


def graph(*edges):
    before, after = np.array(edges, dtype=np.intp).reshape(-1, 2).T
    return before, after, int(max(before.max(), after.max())) + 1


def triangles_along(found, before, after, chain):
    run = slice(found.first[chain], found.first[chain + 1])
    steps = [
        (before[e], after[e]) if forward else (after[e], before[e])
        for e, forward in zip(found.crossing[run], found.forward[run], strict=True)
    ]
    assert all(one[1] == next_one[0] for one, next_one in itertools.pairwise(steps))
    return [int(steps[0][0]), *(int(step[1]) for step in steps)]


def test_a_path_is_one_chain():
    """Crossings given in any order and direction come out in order."""
    before, after, count = graph((2, 1), (2, 3), (4, 3), (0, 1))
    found = chains(before, after, count)
    assert len(found) == 1
    assert triangles_along(found, before, after, 0) in ([0, 1, 2, 3, 4], [4, 3, 2, 1, 0])
    assert not found.closed[0]


def test_junctions_part_chains():
    """Three arms that meet are three chains."""
    before, after, count = graph((0, 1), (1, 2), (0, 3), (0, 4), (4, 5), (5, 6))
    found = chains(before, after, count)
    ends = sorted(sorted(pair) for pair in zip(found.start, found.end, strict=True))
    assert ends == [[0, 2], [0, 3], [0, 6]]


def test_a_ring_is_closed():
    """A ring without junction is one closed chain; one with a junction is not."""
    before, after, count = graph((0, 1), (1, 2), (2, 3), (0, 3))
    found = chains(before, after, count)
    assert found.closed.tolist() == [True]
    path = triangles_along(found, before, after, 0)
    assert path[0] == path[-1]
    assert sorted(path[:-1]) == [0, 1, 2, 3]
    before, after, count = graph((0, 1), (1, 2), (2, 0), (0, 3))
    assert not chains(before, after, count).closed.any()


@given(st.integers(0, 2**32 - 1), st.integers(2, 60))
@settings(max_examples=30, deadline=None)
def test_every_crossing_is_in_one_chain(seed, count):
    """Random graphs of degree three at most fall into chains that end at no triangle of two."""
    rng = np.random.default_rng(seed)
    degree = np.zeros(count, int)
    edges = []
    for a, b in rng.integers(0, count, (3 * count, 2)):
        if (
            a != b
            and degree[a] < 3
            and degree[b] < 3
            and (a, b) not in edges
            and (b, a) not in edges
        ):
            edges.append((a, b))
            degree[[a, b]] += 1
    before, after = np.array(edges, dtype=np.intp).reshape(-1, 2).T
    found = chains(before, after, count)
    assert sorted(found.crossing) == list(range(len(edges)))
    for number in range(len(found)):
        path = triangles_along(found, before, after, number)
        assert [path[0], path[-1]] == [found.start[number], found.end[number]]
        assert all(degree[triangle] == 2 for triangle in path[1:-1])
        assert found.closed[number] or (degree[[path[0], path[-1]]] != 2).all()


def test_no_crossings_no_chains():
    """An empty graph has no chain."""
    empty = np.empty(0, np.intp)
    assert len(chains(empty, empty, 3)) == 0


@pytest.mark.parametrize("length", [1, 2, 1000])
def test_long_chains(length):
    """Pointer doubling orders chains of any length."""
    order = np.random.default_rng(1).permutation(length)
    found = chains(order, order + 1, length + 1)
    path = triangles_along(found, order, order + 1, 0)
    assert path in (list(range(length + 1)), list(range(length, -1, -1)))
