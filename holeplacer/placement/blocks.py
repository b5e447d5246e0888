"""Blocks: parts of a graph that hang together by single nodes only: strokes, and knots of rings.

A block is one edge that lies on no ring, or edges that share rings. Blocks meet in cut nodes and
form a tree: what happens in one is felt in the others only through the node they share.
"""

from collections.abc import Iterator
from dataclasses import dataclass


@dataclass(frozen=True)
class Block:
    """One block.

    Attributes:
        edges: Indices of its edges.
        parent: The node it shares with the block nearer to the root (or the root itself).
    """

    edges: tuple[int, ...]
    parent: int


def blocks(start: list[int], end: list[int], nodes: int, root: int = 0) -> list[Block]:
    """Blocks of the part of a graph that hangs together with a node, outer ones first.

    A depth-first walk that notes how far back each node's descendants reach (Hopcroft and Tarjan,
    Algorithm 447, 1973; from memory).

    Args:
        start: Node each edge begins at; loops and parallel edges are welcome.
        end: Node each edge ends at.
        nodes: Number of nodes.
        root: Where the walk begins.
    """
    walk = _Walk(start, end, nodes)
    walk.enter(root, -1)
    while walk.path:
        walk.step()
    return walk.found


class _Walk:
    def __init__(self, start: list[int], end: list[int], nodes: int) -> None:
        self._start, self._end = start, end
        self._at: list[list[int]] = [[] for _ in range(nodes)]
        self._loops: list[list[int]] = [[] for _ in range(nodes)]
        for edge, (one, two) in enumerate(zip(start, end, strict=True)):
            if one == two:
                self._loops[one].append(edge)
            else:
                self._at[one].append(edge)
                self._at[two].append(edge)
        self._number, self._low, self._entry = [0] * nodes, [0] * nodes, [-1] * nodes
        self._ahead: list[Iterator[int]] = [iter(())] * nodes
        self._used = [False] * len(start)
        self._pile: list[int] = []
        self._count = 0
        self.path: list[int] = []
        self.found: list[Block] = []

    def enter(self, node: int, by_edge: int) -> None:
        self._count += 1
        self._number[node] = self._low[node] = self._count
        self._entry[node] = by_edge
        self._ahead[node] = iter(self._at[node])
        self.path.append(node)

    def step(self) -> None:
        """Along the next edge from where the walk is, or back if there is none."""
        here = self.path[-1]
        for edge in self._ahead[here]:
            if self._used[edge]:
                continue
            self._used[edge] = True
            self._pile.append(edge)
            there = self._end[edge] if self._start[edge] == here else self._start[edge]
            if not self._number[there]:
                self.enter(there, edge)
                return
            self._low[here] = min(self._low[here], self._number[there])
        self._leave()

    def _leave(self) -> None:
        here = self.path.pop()
        self.found += [Block((loop,), here) for loop in self._loops[here]]
        if not self.path:
            return
        before = self.path[-1]
        self._low[before] = min(self._low[before], self._low[here])
        if self._low[here] >= self._number[before]:
            first = self._pile.index(self._entry[here])
            self.found.append(Block(tuple(self._pile[first:]), before))
            del self._pile[first:]
