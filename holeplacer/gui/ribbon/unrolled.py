"""The medial axis unrolled: every branch once, stroke after stroke, on one line.

Each piece begins with its main path, the longest way through it, from left to right. Its side
branches follow, joined to strokes where one goes on nearly straight through a junction, in the
order in which they leave what was unrolled before.
"""

from __future__ import annotations

import heapq
import math
from collections import defaultdict
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import csr_array
from scipy.sparse.csgraph import dijkstra

from holeplacer.medial_axis.axis import Axis, Branch
from holeplacer.medial_axis.ways import LONE, AxisPoint

STRAIGHT_RAD = math.radians(50)
"""A stroke goes on through a junction if it turns by less than this."""


@dataclass(frozen=True)
class Run:
    """One branch on the ribbon.

    Attributes:
        branch: Its index; `LONE` for a blob, which has a node but no branch.
        node: The blob's node, else -1.
        backwards: Drawn from its end to its start.
        stroke: Number of the stroke it is part of, counted from 0 over the whole ribbon.
        start_mm: Where it begins on the ribbon, gaps between strokes not counted.
        length_mm: How long it is there, caps included: a blob is as long as it is wide.
        before_mm, after_mm: How far metal reaches beyond the branch where the run begins and
            ends: the reach of a tip, else 0.
    """

    branch: int
    node: int
    backwards: bool
    stroke: int
    start_mm: float
    length_mm: float
    before_mm: float = 0.0
    after_mm: float = 0.0

    @property
    def axis_mm(self) -> float:
        """Length of the branch itself."""
        return self.length_mm - self.before_mm - self.after_mm

    def x_of(self, s_mm: float) -> float:
        """Place on the ribbon of a way along the branch."""
        if self.branch == LONE:
            return self.start_mm + self.length_mm / 2
        along = self.axis_mm - s_mm if self.backwards else s_mm
        return self.start_mm + self.before_mm + along

    def s_of(self, x_mm: float) -> float:
        """Way along the branch of a place on the ribbon, kept within the branch."""
        if self.branch == LONE:
            return 0.0
        along = min(max(x_mm - self.start_mm - self.before_mm, 0.0), self.axis_mm)
        return self.axis_mm - along if self.backwards else along


@dataclass(frozen=True, eq=False)
class Unrolled:
    """All runs in order.

    Attributes:
        axis: The axis.
        runs: Every branch and every blob once.
        main: (strokes,) whether a stroke is its piece's main path.
    """

    axis: Axis
    runs: tuple[Run, ...]
    main: tuple[bool, ...]

    @property
    def length_mm(self) -> float:
        """Length of all runs, gaps not counted."""
        return self.runs[-1].start_mm + self.runs[-1].length_mm if self.runs else 0.0

    @cached_property
    def run_of(self) -> dict[tuple[int, int], Run]:
        """The run of a branch and node, as an axis point names them."""
        return {(run.branch, run.node): run for run in self.runs}

    @cached_property
    def starts_mm(self) -> NDArray[np.float64]:
        """(runs,) where each begins."""
        return np.array([run.start_mm for run in self.runs])

    def place(self, point: AxisPoint) -> tuple[Run, float]:
        """The run an axis point lies on, and its place on the ribbon."""
        run = self.run_of[(point.branch, point.node)]
        return run, run.x_of(point.s_mm)

    def point(self, run: Run, x_mm: float) -> AxisPoint:
        """The axis point at a place of a run."""
        return AxisPoint(run.branch, run.s_of(x_mm), run.node)


def unrolled(axis: Axis) -> Unrolled:
    """Lay the axis out; every branch and blob appears once."""
    strokes: list[tuple[bool, list[_Step]]] = []
    branches: dict[int, list[int]] = defaultdict(list)
    for i, branch in enumerate(axis.branches):
        branches[branch.piece].append(i)
    blobs: dict[int, list[int]] = defaultdict(list)
    for node in np.flatnonzero(axis.degree == 0).tolist():
        blobs[int(axis.node_piece[node])].append(node)
    for piece in sorted(branches.keys() | blobs.keys()):
        strokes += _piece_strokes(axis, branches[piece], blobs[piece])
    runs: list[Run] = []
    reach = {tip.node: tip.reach_mm for tip in axis.tips}
    at = 0.0
    for number, (_, steps) in enumerate(strokes):
        for step in steps:
            runs.append(replace(_run(axis, step, reach), stroke=number, start_mm=at))
            at += runs[-1].length_mm
    return Unrolled(axis, tuple(runs), tuple(main for main, _ in strokes))


_STEP_OUT = 1e-3
"""Nodes of a side stroke come after the node it leaves and before the next one of the main path."""

_Step = tuple[int, bool]
"""Branch and whether it is walked backwards; for a blob -1 - node."""


def _run(axis: Axis, step: _Step, reach: dict[int, float]) -> Run:
    branch, backwards = step
    if branch < 0:
        node = -1 - branch
        return Run(LONE, node, False, 0, 0.0, 2 * float(axis.node_clearance[node]))
    item = axis.branches[branch]
    first, last = (item.end, item.start) if backwards else (item.start, item.end)
    before, after = reach.get(first, 0.0), reach.get(last, 0.0)
    return Run(branch, -1, backwards, 0, 0.0, before + item.length_mm + after, before, after)


def _piece_strokes(
    axis: Axis, branches: list[int], blobs: list[int]
) -> list[tuple[bool, list[_Step]]]:
    strokes = [(True, [(-1 - node, False)]) for node in blobs]
    if not branches:
        return strokes
    main = _main_path(axis, branches)
    passed = _nodes_of(axis, main)
    taken = {branch for branch, _ in main}
    sides = _chains(axis, [branch for branch in branches if branch not in taken])
    return [*strokes, (True, main), *((False, side) for side in _ordered(axis, passed, sides))]


def _main_path(axis: Axis, branches: list[int]) -> list[_Step]:
    """The longest way through the piece, by two sweeps; exact where there is no counter."""
    ends = sorted({node for i in branches for node in _ends(axis.branches[i])})
    index = {node: i for i, node in enumerate(ends)}
    shortest: dict[tuple[int, int], int] = {}
    for i in branches:
        one, two = _ends(axis.branches[i])
        for pair in ((index[one], index[two]), (index[two], index[one])):
            if one != two and (
                pair not in shortest
                or axis.branches[i].length_mm < axis.branches[shortest[pair]].length_mm
            ):
                shortest[pair] = i
    if not shortest:
        return [(max(branches, key=lambda i: axis.branches[i].length_mm), False)]
    rows, columns = zip(*shortest, strict=True)
    lengths = [axis.branches[i].length_mm for i in shortest.values()]
    graph = csr_array((lengths, (rows, columns)), shape=(len(ends), len(ends)))
    first = _furthest(graph, 0)[0]
    last, before = _furthest(graph, first)
    way = [last]
    while way[-1] != first:
        way.append(int(before[way[-1]]))
    if axis.node_xy[ends[way[0]], 0] > axis.node_xy[ends[way[-1]], 0]:
        way.reverse()
    steps = [shortest[pair] for pair in pairwise(way)]
    return [(i, axis.branches[i].start != ends[node]) for i, node in zip(steps, way, strict=False)]


def _furthest(graph: csr_array, start: int) -> tuple[int, NDArray[np.intp]]:
    ways, befores = dijkstra(graph, directed=False, indices=[start], return_predecessors=True)
    way, before = ways[0], befores[0].astype(np.intp)
    way[~np.isfinite(way)] = -1.0
    return int(np.argmax(way)), before


def _chains(axis: Axis, branches: list[int]) -> list[list[_Step]]:
    """Join branches to strokes where one goes on nearly straight through a node."""
    follows = _continuations(axis, branches)
    chains, taken = [], set[int]()
    loose = [(i, end) for i in branches for end in (False, True) if (i, end) not in follows]
    for i, end in loose + [(i, False) for i in branches]:
        if i in taken:
            continue
        chain, here = [], (i, end)
        while here[0] not in taken:
            taken.add(here[0])
            chain.append(here)
            leaves = (here[0], not here[1])
            if leaves not in follows:
                break
            here = follows[leaves]
        chains.append(chain)
    return chains


def _continuations(axis: Axis, branches: list[int]) -> dict[tuple[int, bool], tuple[int, bool]]:
    """Which branch end goes on to which; an end is its branch and whether it is the far one."""
    at_node: dict[int, list[tuple[int, bool]]] = defaultdict(list)
    for i in branches:
        at_node[axis.branches[i].start].append((i, False))
        at_node[axis.branches[i].end].append((i, True))
    follows: dict[tuple[int, bool], tuple[int, bool]] = {}
    for node, ends in at_node.items():
        reach = float(axis.node_clearance[node])
        headings = {end: _heading(axis.branches[end[0]], far=end[1], reach=reach) for end in ends}
        turns = sorted(
            (_turn(headings[one], headings[two]), one, two)
            for n, one in enumerate(ends)
            for two in ends[n + 1 :]
            if one[0] != two[0]
        )
        for turn, one, two in turns:
            if turn < STRAIGHT_RAD and one not in follows and two not in follows:
                follows[one], follows[two] = two, one
    return follows


def _heading(branch: Branch, *, far: bool, reach: float) -> float:
    """Direction in which a branch leaves its end, seen over the junction's disc."""
    from_end = branch.length_mm - branch.s if far else branch.s
    beyond = np.flatnonzero(from_end >= min(2 * reach, branch.length_mm))
    at = branch.xy[-1] if far else branch.xy[0]
    x, y = branch.xy[beyond[-1] if far else beyond[0]] - at
    return math.atan2(y, x)


def _turn(one_rad: float, two_rad: float) -> float:
    """By how much a way turns that comes in against one heading and leaves on the other."""
    apart = abs(one_rad - two_rad) % (2 * math.pi)
    return abs(math.pi - min(apart, 2 * math.pi - apart))


def _ordered(axis: Axis, passed: list[int], chains: list[list[_Step]]) -> list[list[_Step]]:
    """Side strokes in the order they leave what is unrolled before them, walked outwards."""
    place: dict[int, float] = {node: float(i) for i, node in enumerate(passed)}
    at_node: dict[int, list[int]] = defaultdict(list)
    for n, chain in enumerate(chains):
        for node in _nodes_of(axis, chain):
            at_node[node].append(n)
    heap = [(at, n) for node, at in place.items() for n in at_node[node]]
    heapq.heapify(heap)
    ordered: list[list[_Step]] = []
    taken = set[int]()
    while heap:
        at, n = heapq.heappop(heap)
        if n in taken:
            continue
        taken.add(n)
        chain, nodes = chains[n], _nodes_of(axis, chains[n])
        if place.get(nodes[-1], math.inf) < place.get(nodes[0], math.inf):
            chain = [(i, not backwards) for i, backwards in reversed(chain)]
            nodes.reverse()
        ordered.append(chain)
        for step, node in enumerate(nodes):
            if node not in place:
                place[node] = at + (step + 1) * _STEP_OUT
                for other in at_node[node]:
                    heapq.heappush(heap, (place[node], other))
    return ordered


def _nodes_of(axis: Axis, steps: list[_Step]) -> list[int]:
    """Nodes that a chain of branches passes, in order."""
    nodes: list[int] = []
    for i, backwards in steps:
        start, end = _ends(axis.branches[i])
        if not nodes:
            nodes.append(end if backwards else start)
        nodes.append(start if backwards else end)
    return nodes


def _ends(branch: Branch) -> tuple[int, int]:
    return branch.start, branch.end
