"""Bridges: edges of a graph that lie on no cycle, so that as lines they enclose nothing.

And evening: leaving out edges until every node has an even number, so that the rest is cycles.
"""

from collections import Counter, deque
from collections.abc import Iterable, Sequence

import numpy as np


def split_bridges(edges: Sequence[tuple[int, int]]) -> tuple[list[int], list[list[int]]]:
    """Sort the edges of a graph into bridges and the meshes that remain without them.

    Args:
        edges: Nodes of each edge; two edges may join the same nodes, none joins one to itself.

    Returns:
        Numbers of the edges that are bridges; and for each connected part of the rest the
        numbers of its edges.

    Depth-first search with the lowest node reachable (Tarjan 1974, "A note on finding the bridges
    of a graph"; status M), kept on a stack of its own.
    """
    if not edges:
        return [], []
    # slow to load, and most artwork has no loose ends
    from scipy.sparse import coo_array
    from scipy.sparse.csgraph import connected_components

    bridges = _bridges(edges)
    rest = [number for number in range(len(edges)) if number not in bridges]
    pairs = np.array([edges[number] for number in rest], dtype=np.intp).reshape(-1, 2)
    count = int(np.array(edges).max()) + 1
    graph = coo_array((np.ones(len(pairs)), (pairs[:, 0], pairs[:, 1])), shape=(count, count))
    _, label = connected_components(graph, directed=False)
    meshes: dict[int, list[int]] = {}
    for number in rest:
        meshes.setdefault(int(label[edges[number][0]]), []).append(number)
    return sorted(bridges), list(meshes.values())


def _bridges(edges: Sequence[tuple[int, int]]) -> set[int]:
    ways = _ways((number, *edge) for number, edge in enumerate(edges))
    found: dict[int, int] = {}
    lowest: dict[int, int] = {}
    bridges: set[int] = set()
    for root in ways:
        if root in found:
            continue
        found[root] = lowest[root] = len(found)
        stack = [(root, -1, iter(ways[root]))]
        while stack:
            node, arrived_by, remaining = stack[-1]
            for neighbour, number in remaining:
                if number == arrived_by:
                    continue
                if neighbour in found:
                    lowest[node] = min(lowest[node], found[neighbour])
                    continue
                found[neighbour] = lowest[neighbour] = len(found)
                stack.append((neighbour, number, iter(ways[neighbour])))
                break
            else:
                stack.pop()
                if stack:
                    above = stack[-1][0]
                    lowest[above] = min(lowest[above], lowest[node])
                    if lowest[node] > found[above]:
                        bridges.add(arrived_by)
    return bridges


def evened(edges: Sequence[tuple[int, int]], spare: Sequence[bool]) -> list[int] | None:
    """Leave out spare edges until every node has an even number of them.

    Odd nodes are joined in pairs by ways of spare edges, and those ways left out; an edge on two of
    them stays. That finds a T-join wherever there is one, not the least, which matters to nobody.

    Args:
        edges: Nodes of each edge.
        spare: Which edges may be left out.

    Returns:
        Numbers of the edges kept, or None if there is no way.
    """
    ways = _ways([(number, *edges[number]) for number in range(len(edges)) if spare[number]])
    left_out: set[int] = set()
    degree = Counter(node for edge in edges for node in edge)
    odd = {node for node, count in degree.items() if count % 2}
    while odd:
        start = odd.pop()
        way = _way_to_any(odd, start, ways)
        if way is None:
            return None
        end, used = way
        odd.discard(end)
        left_out ^= used
    return [number for number in range(len(edges)) if number not in left_out]


def _way_to_any(
    ends: set[int], start: int, ways: dict[int, list[tuple[int, int]]]
) -> tuple[int, set[int]] | None:
    """The nearest of some nodes and the edges that lead there, breadth first."""
    came: dict[int, tuple[int, int]] = {start: (start, -1)}
    waiting = deque([start])
    while waiting:
        node = waiting.popleft()
        if node in ends:
            used, at = set(), node
            while at != start:
                at, number = came[at]
                used.add(number)
            return node, used
        for neighbour, number in ways.get(node, ()):
            if neighbour not in came:
                came[neighbour] = (node, number)
                waiting.append(neighbour)
    return None


def _ways(edges: Iterable[tuple[int, int, int]]) -> dict[int, list[tuple[int, int]]]:
    """For each node its neighbours and the edges that lead there."""
    ways: dict[int, list[tuple[int, int]]] = {}
    for number, one, other in edges:
        ways.setdefault(one, []).append((other, number))
        ways.setdefault(other, []).append((one, number))
    return ways
