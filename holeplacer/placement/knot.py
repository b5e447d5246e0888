"""Knot: a block of rings, cut open at one node so that it becomes a tree."""

from collections.abc import Callable
from dataclasses import dataclass
from math import inf
from typing import TypeAlias

from holeplacer.placement import handover
from holeplacer.placement.blocks import Block
from holeplacer.placement.handover import NOTHING, TOLERANCE_MM, Option, Step

Steps: TypeAlias = list[tuple[list[Step], list[Step]]]
Judge: TypeAlias = Callable[[int, list[list[Option]]], list[Option]]
_Passage: TypeAlias = tuple[int, int, int, int]

_CLOSE_MM = 1e-7
_HALVINGS = 40
_TURNS = 400
_TRIALS = 16
_MORE_HOLES = 3
_FIRST_RANGES = 8


@dataclass(frozen=True)
class Knot:
    """A cut block.

    Attributes:
        parent: The node it shares with the rest.
        cut: The node it is cut at; each of its edge ends there becomes a node of its own.
        copies: Those nodes.
        passages: For the shared node, or else for each of the copies, the edges from the far
            ones inwards: (node, next node, edge, 0 along it or 1 against it).
    """

    parent: int
    cut: int
    copies: tuple[int, ...]
    passages: tuple[tuple[_Passage, ...], ...]

    @property
    def ranged(self) -> bool:
        """Whether another node than the shared one is cut."""
        return self.cut != self.parent

    @staticmethod
    def of(block: Block, start: list[int], end: list[int], nodes: int) -> "Knot | None":
        """Cut a block; None if no single cut makes it a tree."""
        ends = [node for edge in block.edges for node in (start[edge], end[edge])]
        rings = len(block.edges) - len(set(ends)) + 1
        opening = sorted(node for node in set(ends) if ends.count(node) == rings + 1)
        if not opening:
            return None
        cut = block.parent if block.parent in opening else opening[0]
        edges: list[tuple[int, int, int]] = []
        copies: list[int] = []
        for edge in block.edges:
            pair = []
            for node in (start[edge], end[edge]):
                if node == cut:
                    node = nodes + len(copies)
                    copies.append(node)
                pair.append(node)
            edges.append((pair[0], pair[1], edge))
        roots = copies if cut == block.parent else [block.parent]
        passages = tuple(_inwards(edges, root) for root in roots)
        return Knot(block.parent, cut, tuple(copies), passages)

    def judge(self, steps: Steps, inner: dict[int, list[Option]]) -> Judge:
        """What arrives at a root, given what each copy begins with."""

        def arrive(root: int, starts: list[list[Option]]) -> list[Option]:
            at = dict(zip(self.copies, starts, strict=True))
            for node, onwards, edge, against in self.passages[root]:
                own = at[node] if node in at else inner.get(node, [NOTHING])
                passed = handover.along(own, steps[edge][against])
                if not passed:
                    return []
                there = at[onwards] if onwards in at else self._own(onwards, inner)
                at[onwards] = handover.joined(there, passed)
            return at[self.passages[root][-1][1]]

        return arrive

    def _own(self, node: int, inner: dict[int, list[Option]]) -> list[Option]:
        return [NOTHING] if node == self.parent else inner.get(node, [NOTHING])


def _inwards(edges: list[tuple[int, int, int]], root: int) -> tuple[_Passage, ...]:
    at: dict[int, list[_Passage]] = {}
    for one, two, edge in edges:
        at.setdefault(one, []).append((two, one, edge, 1))
        at.setdefault(two, []).append((one, two, edge, 0))
    outwards: list[_Passage] = []
    reached = [root]
    used: set[int] = set()
    for node in reached:
        for passage in at[node]:
            if passage[2] not in used:
                used.add(passage[2])
                outwards.append(passage)
                reached.append(passage[0])
    return tuple(reversed(outwards))


@dataclass(frozen=True)
class HandedOver:
    """What a knot hands over.

    Attributes:
        shown: What holes were found for.
        hoped: The same if all that could not be settled were good; nothing better can be had.
    """

    shown: list[Option]
    hoped: list[Option]

    @property
    def settled(self) -> bool:
        """Whether there is nothing to hope for."""
        return all(_reached(option, self.shown) for option in self.hoped)


def through_shared(judge: Judge, copies: int, far: float) -> HandedOver:
    """What a knot hands over at the shared node it is cut at.

    A need of b is handed over if, with a hole b outside, no more than b is asked of the outside.
    A hole at a is if one side comes out with it when all others are entered with it.

    Args:
        judge: What arrives at a copy.
        copies: Number of copies.
        far: Greatest radius, mm.
    """

    def arriving(root: int, away: float, count: int | None = None) -> list[Option]:
        starts: list[list[Option]] = [[(0, False, away, None)] for _ in range(copies)]
        starts[root] = [NOTHING]
        found = judge(root, starts)
        return found if count is None else [o for o in found if o[0] <= count][-1:]

    helped = arriving(0, 0.0)
    if not helped:
        return HandedOver([], [])
    first = helped[0][0]
    shown: list[Option] = []
    hoped: list[Option] = []
    for count in range(first, first + _MORE_HOLES):
        own = shown[-1:] if shown and not shown[-1][1] else []
        found: list[Option] = []
        for root in range(copies):
            real, unsettled = _supply(lambda a, r=root, n=count: arriving(r, a, n), far)  # type: ignore[misc]
            found += real
            hoped += unsettled
        found += [option for option in arriving(0, inf, count) if not option[1]]
        need = None if found else _need(lambda b, n=count: arriving(0, b, n), far)  # type: ignore[misc]
        shown = handover.worth_keeping(shown + found + ([need] if need else []))
        if own or (found and shown[-1][2] <= TOLERANCE_MM):
            return HandedOver(shown, handover.worth_keeping(shown + hoped))
    hoped.append((first + _MORE_HOLES, False, 0.0, None))
    return HandedOver(shown, handover.worth_keeping(shown + hoped))


def _need(arriving: Callable[[float], list[Option]], far: float) -> Option | None:
    """The need with most room that comes out no greater than it goes in."""
    low, high = 0.0, far
    best: Option | None = None
    trial = far
    for _ in range(_HALVINGS):
        out = arriving(trial)
        room = -1.0 if not out else out[0][2] if out[0][1] else far
        if room >= trial - TOLERANCE_MM:
            best = (out[0][0], True, trial, out[0][3])
            low, high = trial, max(min(high, room), trial)
        else:
            high, low = trial, max(low, room)
        if high - low <= _CLOSE_MM and best is not None:
            return best[0], True, high, best[3]
        trial = low if high - low <= _CLOSE_MM else (low + high) / 2
    return best


def _supply(
    arriving: Callable[[float], list[Option]], far: float
) -> tuple[list[Option], list[Option]]:
    """The nearest hole that one side comes out with when all others are entered with it.

    The further the hole they are entered with, the further the one that comes out. So no hole
    nearer than what comes out can do, and that is tried next.

    Returns:
        What was found, at most one; what there is to hope for if too many tries were needed.
    """
    away = 0.0
    for _ in range(_TURNS):
        out = arriving(away)
        if not out or out[0][1] or out[0][2] > far:
            return [], []
        if out[0][2] <= away + TOLERANCE_MM:
            return [(out[0][0], False, away, out[0][3])], []
        away = out[0][2]
    hoped: list[Option] = [(out[0][0], False, away, None)]
    for trial in range(1, _TRIALS + 1):
        entered = away + (far - away) * trial / _TRIALS
        out = arriving(entered)
        if out and not out[0][1] and out[0][2] <= entered:
            return [(out[0][0], False, entered, out[0][3])], hoped
    return [], hoped


def through_other(
    judge: Judge, copies: int, far: float, own: list[Option], nearest: float, fineness: int
) -> HandedOver:
    """What a knot that is cut at another node hands over at the shared node.

    The way from the cut to the nearest hole is not known. Of each range of it two things are
    asked: what is handed over if it is in the middle; and, at best, with the hole looked for
    anywhere up to the range's end, but found by the others at its beginning.

    Args:
        judge: What arrives at the shared node.
        copies: Number of copies.
        far: Greatest radius, mm.
        own: What hangs on the cut itself hands over.
        nearest: Way from the cut to the nearest permitted place.
        fineness: Smallest range, as a share of `far`.
    """

    def arriving(side: int, looked_for: float, found: float) -> list[Option]:
        starts: list[list[Option]] = [[(0, False, found, None)] for _ in range(copies)]
        if side >= 0:
            starts[side] = [(0, True, looked_for, None)]
        starts[0] = handover.joined(own, starts[0])
        return judge(0, starts)

    sides = range(copies)
    at_nearest = [option for side in sides for option in arriving(side, nearest, nearest)]
    shown = handover.worth_keeping(arriving(-1, inf, inf) + at_nearest)
    hoped: list[Option] = []
    ends = [far * number / _FIRST_RANGES for number in range(_FIRST_RANGES + 1)]
    ranges = [(side, ends[n], ends[n + 1]) for side in sides for n in range(_FIRST_RANGES)]
    for side, low, high in ranges:
        better = [o for o in arriving(side, high, low) if not _reached(o, shown)]
        if not better:
            continue
        middle = (low + high) / 2
        shown = handover.worth_keeping(shown + arriving(side, middle, middle))
        if high - low > far / fineness * 1.001:
            ranges += [(side, low, middle), (side, middle, high)]
        else:
            shown = handover.worth_keeping(shown + arriving(side, high, high))
            hoped += better
    return HandedOver(shown, handover.worth_keeping(shown + hoped))


def _reached(option: Option, best: list[Option]) -> bool:
    """Whether something no worse is known with as few holes."""
    return any(known[0] <= option[0] and not handover.better(option, known) for known in best)
