"""Bridges: edges of a graph that lie on no cycle, so that as lines they enclose nothing."""

from collections.abc import Sequence

import numpy as np
from scipy.sparse import coo_array
from scipy.sparse.csgraph import connected_components


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
    ways: dict[int, list[tuple[int, int]]] = {}
    for number, (one, other) in enumerate(edges):
        ways.setdefault(one, []).append((other, number))
        ways.setdefault(other, []).append((one, number))
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
