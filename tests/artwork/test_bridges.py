"""Bridges against their definition: edges whose loss parts the graph."""

from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.artwork.bridges import evened, split_bridges

Edges = list[tuple[int, int]]
edge = st.tuples(st.integers(0, 7), st.integers(0, 7)).filter(lambda pair: pair[0] != pair[1])


def parts(edges: Edges) -> int:
    """Number of connected parts, by merging."""
    label = {node: node for pair in edges for node in pair}
    for one, other in edges:
        old, new = label[one], label[other]
        label = {node: new if number == old else number for node, number in label.items()}
    return len(set(label.values()))


@settings(max_examples=150, deadline=None)
@given(st.lists(edge, min_size=1, max_size=14))
def test_an_edge_is_a_bridge_if_its_loss_parts_the_graph(edges: Edges) -> None:
    """And the meshes hold all others, connected ones together."""
    bridges, meshes = split_bridges(edges)
    nodes = len({node for pair in edges for node in pair})
    for number in range(len(edges)):
        rest = edges[:number] + edges[number + 1 :]
        lonely = nodes - len({node for pair in rest for node in pair})
        assert (number in bridges) == (parts(rest) + lonely > parts(edges))
    assert sorted(number for mesh in meshes for number in mesh) == sorted(
        set(range(len(edges))) - set(bridges)
    )
    assert all(parts([edges[number] for number in mesh]) == 1 for mesh in meshes)
    assert split_bridges([]) == ([], [])


@settings(max_examples=150, deadline=None)
@given(st.lists(st.tuples(edge, st.booleans()), min_size=1, max_size=10))
def test_evening_leaves_an_even_number_everywhere_or_says_no(
    edges: list[tuple[tuple[int, int], bool]],
) -> None:
    """It fails only where no choice of spare edges at all would do."""
    pairs, spare = [pair for pair, _ in edges], [can_go for _, can_go in edges]
    kept = evened(pairs, spare)

    def is_even(chosen: list[int]) -> bool:
        ends = [node for number in chosen for node in pairs[number]]
        return all(ends.count(node) % 2 == 0 for node in ends)

    if kept is not None:
        assert is_even(kept)
        assert all(spare[number] for number in set(range(len(pairs))) - set(kept))
        return
    free = [number for number, can_go in enumerate(spare) if can_go]
    for choice in range(2 ** len(free)):
        gone = {number for bit, number in enumerate(free) if choice >> bit & 1}
        assert not is_even([number for number in range(len(pairs)) if number not in gone])
