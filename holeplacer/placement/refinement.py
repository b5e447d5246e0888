"""Refinement: holes slid along their stretches until the worst-placed demand is best served.

Every way from a demand to a hole is a straight-line function of how far the hole slides, and the
true way is the least of all routes. So with today's routes held, a linear program finds slides
that make the greatest way, as a share of its limit, as small as can be; the true greatest way is
never worse than what the program promises, and repeating it settles in a few rounds.
"""

from dataclasses import dataclass, replace

import numpy as np
from scipy.optimize import linprog
from scipy.sparse import csr_array

from holeplacer.medial_axis import ways
from holeplacer.medial_axis.ways import AxisPoints, Floats, Indices
from holeplacer.placement import stretches
from holeplacer.placement.demands import Wanted
from holeplacer.placement.stretches import Stretches

_ROUNDS = 12
_SETTLED = 1e-7


@dataclass(frozen=True, eq=False)
class Holes:
    """Holes of one piece on its axis.

    Attributes:
        room: The stretches holes may slide on.
        stretch: (n,) the stretch of each new hole.
        s: (n,) its way along that stretch's branch.
        stays: Feet of the holes that stay.
    """

    room: Stretches
    stretch: Indices
    s: Floats
    stays: AxisPoints

    def __len__(self) -> int:
        return len(self.s)

    @property
    def points(self) -> AxisPoints:
        """The new holes."""
        return AxisPoints.on_branches(self.room.branch[self.stretch], self.s)

    @property
    def sites(self) -> AxisPoints:
        """The new holes, then those that stay."""
        return AxisPoints(
            np.concatenate([self.room.branch[self.stretch], self.stays.branch]),
            np.concatenate([self.s, self.stays.s]),
            np.concatenate([np.full(len(self), -1, np.intp), self.stays.node]),
        )

    def slid(self, by: Floats) -> "Holes":
        """Each moved along its stretch, as far as that goes."""
        s = np.clip(self.s + by, self.room.low[self.stretch], self.room.high[self.stretch])
        return replace(self, s=s)


@dataclass(frozen=True, eq=False)
class Peaks:
    """The demands that are worst served: one per gap between holes, and the tips.

    A peak's way is `way + slopes @ slides` as long as its routes stay the shortest, and never
    more. It may be t * scale - reach at the tightness t, or `nearest` where metal is thin.

    Attributes:
        points: (p,) where; a tip's is its axis end.
        way: (p,) way to the nearest hole, mm.
        scale, reach, nearest: (p,) as in `Demands`.
        slopes: (p, holes) change of the way per slide of each hole.
    """

    points: AxisPoints
    way: Floats
    scale: Floats
    reach: Floats
    nearest: Floats
    slopes: csr_array

    @property
    def tightness(self) -> Floats:
        """(p,) tightness at which each would just be served; nothing where metal is the limit."""
        served = np.where(self.way <= self.nearest, 0.0, (self.way + self.reach) / self.scale)
        return np.asarray(served, float)

    def radius(self, tightness: float) -> Floats:
        """(p,) what the ways may be, mm."""
        asked = tightness * self.scale - self.reach
        return np.maximum(asked, self.nearest) if tightness < 1.0 else asked


def peaks(wanted: Wanted, holes: Holes) -> Peaks:
    """All worst-served demands of a layout of holes."""
    reach = ways.reach(wanted.axis, holes.sites)
    gaps = Stretches(reach.branch, reach.low, reach.high)
    gap, _, low, high = stretches.overlaps(gaps, wanted.parts)
    top = reach.peak_s[gap]
    s = np.clip(top, low, high)
    by_left = reach.left_way[gap] + s - reach.low[gap]
    by_right = reach.right_way[gap] + reach.high[gap] - s
    demand = wanted.at(reach.branch[gap], s)
    left_share = np.where(top > high, 1.0, np.where(top < low, 0.0, 0.5))
    tip_side = reach.node_side[wanted.tip_nodes]
    count, tips = len(gap), len(wanted.tips)
    row = np.concatenate([np.arange(count), np.arange(count), count + np.arange(tips)])
    side = np.concatenate([reach.left_side[gap], reach.right_side[gap], tip_side])
    share = np.concatenate([left_share, 1.0 - left_share, np.ones(tips)])
    all_demands = demand.and_also(wanted.tips)
    return Peaks(
        points=all_demands.points,
        way=np.concatenate([np.minimum(by_left, by_right), reach.node_way[wanted.tip_nodes]]),
        scale=all_demands.scale,
        reach=all_demands.reach,
        nearest=all_demands.nearest,
        slopes=_slopes(row, side, share, (count + tips, len(holes))),
    )


def evened(wanted: Wanted, holes: Holes, *, enough: float = 0.0) -> tuple[Holes, Peaks]:
    """Slide holes so that the greatest tightness is least, or until it is `enough`."""
    now = peaks(wanted, holes)
    for _ in range(_ROUNDS):
        worst = float(now.tightness.max(initial=0.0))
        if worst <= enough or not len(holes) or not np.isfinite(worst):
            break
        slid = holes.slid(_even_slides(holes, now, worst))
        after = peaks(wanted, slid)
        if float(after.tightness.max(initial=0.0)) > worst - _SETTLED:
            break
        holes, now = slid, after
    return holes, now


def _even_slides(holes: Holes, now: Peaks, worst: float) -> Floats:
    """Slides that make the greatest tightness least, today's routes held."""
    count = len(holes)
    bound_by_metal = now.nearest >= worst * now.scale - now.reach
    scale = np.where(bound_by_metal, 0.0, now.scale)
    allowed = np.where(
        bound_by_metal, np.maximum(now.nearest, now.way) - now.way, -now.reach - now.way
    )
    rows = np.arange(len(scale))
    slopes = now.slopes.tocoo()
    matrix = csr_array(
        (
            np.concatenate([slopes.data, -scale]),
            (
                np.concatenate([slopes.row, rows]),
                np.concatenate([slopes.col, np.full(len(rows), count)]),
            ),
        ),
        shape=(len(scale), count + 1),
    )
    low = holes.room.low[holes.stretch] - holes.s
    high = holes.room.high[holes.stretch] - holes.s
    solved = linprog(
        np.append(np.zeros(count), 1.0),
        A_ub=matrix,
        b_ub=allowed,
        bounds=np.column_stack([np.append(low, 0.0), np.append(high, worst)]),
        method="highs",
    )
    return np.zeros(count) if solved.x is None else np.asarray(solved.x[:count], float)


def _slopes(row: Indices, side: Indices, share: Floats, shape: tuple[int, int]) -> csr_array:
    """A hole that slides on takes its way with it: longer behind it, shorter before it."""
    hole = side // 2
    moves = (side >= 0) & (hole < shape[1]) & (share > 0)
    sign = np.where(side % 2 == 0, 1.0, -1.0)
    matrix = csr_array((sign[moves] * share[moves], (row[moves], hole[moves])), shape=shape)
    matrix.sum_duplicates()
    return matrix
