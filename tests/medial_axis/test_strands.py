"""Strands: merging of near junctions, and pruning by end reach."""

import numpy as np
import pytest

from holeplacer.medial_axis.strands import Network, Strand, merge_close_junctions, prune_short_ends


def network(*strands):
    """A network of (start, end, length) strands, one chain each."""
    found = Network()
    for number, (start, end, length) in enumerate(strands):
        found.add(number, Strand((start, end), [(number, False)], length))
    return found


def pruned(found, radius=10.0, reach=None):
    """Prune with the same radius everywhere; caps reach 10 unless said otherwise."""
    reach = reach or {}
    nodes = 1 + max(found.at)
    prune_short_ends(
        found, np.full(nodes, radius), lambda ends: np.array([reach.get(c, 10.0) for c, _ in ends])
    )
    return sorted((sorted(s.nodes), s.length) for s in found.strands.values())


def test_side_spurs_fall_and_strokes_stay():
    """On a through stroke, an end that reaches less than half a disc falls, a longer one stays."""
    bare = [([0, 2], 200.0)]
    assert pruned(network((0, 1, 100.0), (1, 2, 100.0), (1, 3, 4.9))) == bare
    assert len(pruned(network((0, 1, 100.0), (1, 2, 100.0), (1, 3, 5.1)))) == 3


def test_corners_of_a_square_cut_fall_together():
    """Both corners of a square cut reach 0.41 and fall; the stroke ends where they met."""
    found = network((0, 1, 100.0), (1, 2, 4.1), (1, 3, 4.1))
    assert pruned(found) == [([0, 1], 100.0)]
    assert found.free_end(0) is None
    assert found.at[1] == [0]


def test_the_furthest_of_unlike_ends_goes_on():
    """Where a stroke ends in two unlike short ends, the further one is the stroke's own end."""
    found = network((0, 1, 100.0), (1, 2, 4.0), (1, 3, 0.1))
    assert pruned(found) == [([0, 2], 104.0)]
    (strand,) = found.strands.values()
    assert [chain for chain, _ in strand.parts] in ([0, 1], [1, 0])


def test_a_square_is_a_blob():
    """A junction that loses all its ends stays as a lone node."""
    found = network(*((0, node, 4.1) for node in (1, 2, 3, 4)))
    assert pruned(found) == []
    assert found.at == {0: []}


def test_rounds_follow_each_other():
    """What was a junction's link is an end once the junction's corners have fallen."""
    found = network((0, 1, 100.0), (1, 2, 50.0), (1, 3, 2.0), (3, 4, 1.0), (3, 5, 1.0))
    assert pruned(found) == [([0, 2], 150.0)]


def test_reach_counts_the_cap():
    """An end's own length and what its cap reaches count together."""
    found = network((0, 1, 100.0), (1, 2, 100.0), (1, 3, 1.0))
    assert len(pruned(found, reach={2: 14.5})) == 3


def test_loops_never_fall():
    """A loop stays whatever its size, also when its stem falls."""
    found = network((0, 0, 0.1), (0, 1, 1.0))
    assert pruned(found) == [([0, 0], 0.1)]


def test_near_junctions_are_one():
    """Junctions closer than the nearness become one node with all their strands."""
    found = network((0, 2, 50.0), (0, 3, 50.0), (0, 1, 0.001), (1, 4, 50.0), (1, 5, 50.0))
    radius = np.array([10.0, 9.0, 1, 1, 1, 1])
    assert merge_close_junctions(found, radius, np.full(6, 0.01)) == {1: 0}
    assert sorted(found.at[0]) == [0, 1, 3, 4]
    assert 1 not in found.at


def test_merging_keeps_loops():
    """Of two short strands between the same junctions one becomes a loop."""
    found = network((0, 2, 50.0), (0, 1, 0.001), (0, 1, 0.002), (1, 3, 50.0))
    merge_close_junctions(found, np.array([10.0, 9, 1, 1]), np.full(4, 0.01))
    assert [s.nodes for s in found.strands.values() if s.nodes[0] == s.nodes[1]] == [(0, 0)]


def test_distant_junctions_and_ends_are_left_alone():
    """Neither long links nor short ends are contracted."""
    found = network((0, 2, 50.0), (0, 3, 0.001), (0, 1, 1.0), (1, 4, 50.0), (1, 5, 50.0))
    assert merge_close_junctions(found, np.full(6, 10.0), np.full(6, 0.01)) == {}
    assert len(found.strands) == 5


@pytest.mark.parametrize("at_end", [False, True])
def test_chain_ends(at_end):
    """A strand knows which end of which chain lies at its nodes, passed either way."""
    strand = Strand((0, 1), [(7, False), (8, True)], 3.0)
    strand = strand.turned().turned() if at_end else strand
    assert strand.chain_end(0) == (7, False)
    assert strand.chain_end(1) == (8, False)
    assert strand.turned().chain_end(1) == (8, False)
    assert strand.turned().parts == [(8, False), (7, True)]
