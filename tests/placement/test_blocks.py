"""Blocks of a graph, against cutting every node away in turn."""

import itertools

from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.sparse import coo_array
from scipy.sparse.csgraph import connected_components

from holeplacer.placement.blocks import blocks


@st.composite
def graphs(draw):
    """Connected, with loops and parallel edges."""
    nodes = draw(st.integers(1, 7))
    edges = [(draw(st.integers(0, n - 1)), n) for n in range(1, nodes)]
    node = st.integers(0, nodes - 1)
    edges += [(draw(node), draw(node)) for _ in range(draw(st.integers(0, 5)))]
    return nodes, draw(st.permutations(edges))


def parted(nodes, edges, node, one, two):
    """Whether two edges hang together by this node only."""
    ends, count = {}, nodes
    for number in (one, two, *range(len(edges))):
        pair = []
        for end in edges[number]:
            if end == node:
                end, count = count, count + 1
            pair.append(end)
        ends.setdefault(number, pair)
    rows, columns = zip(*ends.values(), strict=True)
    links = coo_array(([1] * len(rows), (rows, columns)), shape=(count, count))
    _, part = connected_components(links, directed=False)
    return part[ends[one][0]] != part[ends[two][0]]


@settings(max_examples=60, deadline=None)
@given(graphs())
def test_together_unless_a_node_parts_them(given_graph):
    """Two edges are in one block unless some node parts them, or one of them is a loop."""
    nodes, edges = given_graph
    found = blocks([e[0] for e in edges], [e[1] for e in edges], nodes)
    of_edge = {edge: index for index, block in enumerate(found) for edge in block.edges}
    assert sorted(of_edge) == list(range(len(edges)))
    for one, two in itertools.combinations(range(len(edges)), 2):
        loop = any(edges[e][0] == edges[e][1] for e in (one, two))
        apart = loop or any(parted(nodes, edges, node, one, two) for node in range(nodes))
        assert (of_edge[one] != of_edge[two]) == apart


@settings(max_examples=60, deadline=None)
@given(graphs())
def test_outer_ones_first(given_graph):
    """When a block comes, all that hangs on its other nodes has come before."""
    nodes, edges = given_graph
    seen = set()
    for block in blocks([e[0] for e in edges], [e[1] for e in edges], nodes):
        inner = {node for edge in block.edges for node in edges[edge]}
        assert block.parent in inner
        assert not (inner - {block.parent}) & seen
        seen |= inner - {block.parent}
    assert seen == set(range(1, nodes))
