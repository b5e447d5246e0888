"""Block cover: the fewest holes of a piece, exactly, from the outermost strokes inwards.

The axis is a tree of blocks. A stroke that lies on no ring passes on what its outer end hands
over, with each hole as far in as it can be. A knot of rings is cut open at one node: if that can
be the node it shares with the rest, exactly; else in ranges, each judged at its best, so that the
bound stays true. No point of the axis is sampled.
"""

from dataclasses import dataclass

import numpy as np

from holeplacer.medial_axis import ways
from holeplacer.medial_axis.ways import AxisPoints
from holeplacer.placement import axis_steps, blocks, handover, knot
from holeplacer.placement.blocks import Block
from holeplacer.placement.demands import Wanted
from holeplacer.placement.handover import NOTHING, Option, Trail
from holeplacer.placement.knot import Knot
from holeplacer.placement.stretches import Stretches

_FINENESS = (16, 128, 2048)
_ROUGH = 2


@dataclass(frozen=True, eq=False)
class BlockCover:
    """What was found.

    Attributes:
        places: The holes.
        bound: No layout has fewer.
    """

    places: AxisPoints
    bound: int


def block_cover(
    wanted: Wanted, stays: AxisPoints, tightness: float, at_most: int | None = None
) -> BlockCover | None:
    """Fewest new holes that serve every demand.

    Args:
        wanted: What must be covered.
        stays: Feet of the holes that stay.
        tightness: 1: the limits as they stand; smaller: tighter.
        at_most: Only asked is whether so many will do.

    Returns:
        Holes and bound, mostly equal in number; None if rings hang together in a way that no
        single cut opens.
    """
    search = _Search(wanted, stays, tightness)
    if not search.solvable:
        return None
    for fineness in _FINENESS if at_most is None else _FINENESS[:_ROUGH]:
        found = search.whole(fineness, at_best=False)
        least = found if search.settled else search.whole(fineness, at_best=True)
        if found is not None and found[0] <= (at_most or 0):
            break
        if least is not None and (at_most or 0) < least[0] and at_most is not None:
            break
        if found is not None and least is not None and found[0] <= least[0]:
            break
    if found is None or least is None:
        return None
    return BlockCover(_places(found[3], wanted.room), least[0])


class _Search:
    """One piece's blocks, and the steps along its branches."""

    def __init__(self, wanted: Wanted, stays: AxisPoints, tightness: float) -> None:
        net = ways.network(wanted.axis)
        self._start, self._end = net.start.tolist(), net.end.tolist()
        self._steps = axis_steps.steps(wanted, stays, tightness)
        radius = wanted.tips.radius(tightness)
        self._tips = list(zip(wanted.tip_nodes.tolist(), radius.tolist(), strict=True))
        self._far = max(float(radius.max(initial=0.0)), wanted.half_mm * max(tightness, 1.0))
        self._nearest = _nearest(wanted)
        self.settled = True
        self._blocks = blocks.blocks(self._start, self._end, net.nodes)
        self.knots = {
            block: Knot.of(block, self._start, self._end, net.nodes)
            for block in self._blocks
            if len(block.edges) > 1 or self._start[block.edges[0]] == self._end[block.edges[0]]
        }

    @property
    def solvable(self) -> bool:
        """Whether all rings can be opened."""
        return all(self.knots.values())

    def whole(self, fineness: int, *, at_best: bool) -> Option | None:
        """Fewest holes of the whole piece; at best, if what can't be settled were good."""
        self.settled = True
        at: dict[int, list[Option]] = {}
        for node, radius in self._tips:
            at[node] = handover.asking(at.get(node, [NOTHING]), radius)
        for block in self._blocks:
            passed = self._handed_over(block, at, fineness, at_best=at_best)
            at[block.parent] = handover.joined(at.get(block.parent, [NOTHING]), passed)
        done = [option for option in at[self._blocks[-1].parent] if not option[1]]
        return done[0] if done else None

    def _handed_over(
        self, block: Block, at: dict[int, list[Option]], fineness: int, *, at_best: bool
    ) -> list[Option]:
        opened = self.knots.get(block)
        if opened is None:
            edge = block.edges[0]
            against = int(self._start[edge] == block.parent)
            outer = self._end[edge] if against else self._start[edge]
            return handover.along(at.get(outer, [NOTHING]), self._steps[edge][against])
        judge = opened.judge(self._steps, at)
        copies = len(opened.copies)
        if opened.ranged:
            own, nearest = at.get(opened.cut, [NOTHING]), self._nearest[opened.cut]
            found = knot.through_other(judge, copies, self._far, own, nearest, fineness)
        else:
            found = knot.through_shared(judge, copies, self._far)
        self.settled &= found.settled
        return found.hoped if at_best else found.shown


def _nearest(wanted: Wanted) -> list[float]:
    """Way from each node to the nearest permitted place or hole that stays."""
    net = ways.network(wanted.axis)
    way = wanted.near.node_way.copy()
    for node, s in ((net.start, np.zeros(len(net.start))), (net.end, net.length)):
        way[node[wanted.room.holding(np.arange(len(node)), s) >= 0]] = 0.0
    return [float(one) for one in way]


def _places(trail: Trail | None, room: Stretches) -> AxisPoints:
    """The holes of a trail, rounding taken out of those at the ends of stretches."""
    branch, s = [], []
    waiting = [trail]
    while waiting:
        hole = waiting.pop()
        if hole is None:
            continue
        if hole[0] >= 0:
            branch.append(hole[0])
            s.append(hole[1])
        waiting += hole[2:]
    at = AxisPoints.on_branches(np.array(branch, np.intp), np.array(s, float))
    off = np.maximum(room.low - at.s[:, np.newaxis], at.s[:, np.newaxis] - room.high)
    off = np.where(room.branch == at.branch[:, np.newaxis], off, np.inf)
    stretch = np.argmin(off, axis=1)
    return AxisPoints.on_branches(at.branch, np.clip(at.s, room.low[stretch], room.high[stretch]))
