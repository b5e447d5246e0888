"""Refinement: holes slid along their stretches until the worst-placed demand is best served.

Every way from a demand to a hole is a straight-line function of how far the hole slides, and the
true way is the least of all routes. So with today's routes held, a linear program finds slides
that make the greatest way, as a share of its limit, as small as can be; the true greatest way is
never worse than what the program promises, and repeating it settles in a few rounds.
"""

from dataclasses import dataclass, replace
from functools import cached_property
from typing import Protocol

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import csr_array, hstack, vstack

from holeplacer.medial_axis import ways
from holeplacer.medial_axis.ways import AxisPoints, Floats, Indices
from holeplacer.placement import stretches
from holeplacer.placement.demands import Demands, Wanted
from holeplacer.placement.linear_program import LinearSolver
from holeplacer.placement.stretches import Stretches

_ROUNDS, _IMPROVING_ROUNDS = 12, 2
_LEVELS, _IMPROVING_LEVELS = 60, 3
_SETTLED = 1e-7
_PRICE = 1e-9
_KEPT_SLIDE = 0.1
_ROUNDING_MM = 1e-9
_PARTING_ROUNDS = 15
_SERVED_MM = 1e-6
_PARTED_MM = 1e-3


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
        routes: (k,) peak, side of a site its way leads to, and share of that route.
        moving: Number of sites that may slide.
    """

    points: AxisPoints
    way: Floats
    scale: Floats
    reach: Floats
    nearest: Floats
    routes: tuple[Indices, Indices, Floats]
    moving: int

    @cached_property
    def slopes(self) -> csr_array:
        """(p, holes) change of the way per slide of each hole."""
        return _slopes(*self.routes, (len(self.way), self.moving))

    def demands(self, index: Indices) -> Demands:
        """Some of the peaks as demands."""
        return Demands(
            self.points[index], self.scale[index], self.reach[index], self.nearest[index]
        )

    @property
    def tightness(self) -> Floats:
        """(p,) tightness at which each would just be served; nothing where metal is the limit."""
        served = np.where(self.way <= self.nearest, 0.0, (self.way + self.reach) / self.scale)
        return np.asarray(served, float)

    def radius(self, tightness: float) -> Floats:
        """(p,) what the ways may be, mm."""
        asked = tightness * self.scale - self.reach
        return np.maximum(asked, self.nearest) if tightness < 1.0 else asked

    def unserved(self, tightness: float = 1.0) -> Indices:
        """Index of those whose way is longer than it may be."""
        return np.flatnonzero(self.way > self.radius(tightness) + _SERVED_MM)

    def served(self, tightness: float = 1.0) -> bool:
        """Whether every one has a hole near enough."""
        return not len(self.unserved(tightness))


def peaks(wanted: Wanted, holes: Holes) -> Peaks:
    """All worst-served demands of a layout of holes."""
    return peaks_of(wanted, holes.sites, len(holes))


def peaks_of(wanted: Wanted, sites: AxisPoints, moving: int) -> Peaks:
    """The same for any sites, of which the first `moving` may slide."""
    reach = ways.reach(wanted.axis, sites)
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
        routes=(row, side, share),
        moving=moving,
    )


class Keeps(Protocol):
    """What must stay true while holes slide."""

    def kept(self, holes: Holes) -> bool:
        """Whether it is true."""
        ...

    def rows(self, holes: Holes, slide_mm: float) -> tuple[csr_array, Floats]:
        """Straight-line constraints `rows @ slides <= room`, for slides up to a length."""
        ...


def evened(
    wanted: Wanted, holes: Holes, *, enough: float = 0.0, keeps: Keeps | None = None
) -> tuple[Holes, Peaks]:
    """Slide holes so that the greatest tightness is least, then the next greatest, and so on.

    Args:
        wanted: What must be covered.
        holes: Where they are.
        enough: Tightness below which nothing more is asked.
        keeps: What must stay true; it is true of the given holes.

    Returns:
        The slid holes and their peaks. Where the greatest tightness can't be brought to
        `enough`, the peaks above it are the chains of gaps that have no room for it.
    """
    now = peaks(wanted, holes)
    solver = LinearSolver()
    for _ in range(_ROUNDS if enough else _IMPROVING_ROUNDS):
        worst = float(now.tightness.max(initial=0.0))
        if worst <= enough or not len(holes) or not np.isfinite(worst):
            break
        bound = _bounds(wanted, holes, keeps)
        moved = _kept(holes, _slides(holes, now, enough, bound, solver), keeps)
        if moved is None:
            break
        after = peaks(wanted, moved)
        if not _better(after, now, enough):
            break
        holes, now = moved, after
    return holes, now


def parted(wanted: Wanted, holes: Holes, keeps: Keeps) -> Holes | None:
    """Slide holes until what must stay true becomes true, every demand still served.

    Args:
        wanted: What must be covered.
        holes: They serve all demands at the limits as they stand.
        keeps: What isn't true yet.

    Returns:
        The slid holes; None if small slides don't lead there.
    """
    most = wanted.half_mm * _KEPT_SLIDE
    for _ in range(_PARTING_ROUNDS):
        now = peaks(wanted, holes)
        if keeps.kept(holes):
            return holes if now.served() else None
        rows, room = keeps.rows(holes, most)
        if (room >= 0).all():
            return None
        low = np.maximum(holes.room.low[holes.stretch] - holes.s, -most)
        high = np.minimum(holes.room.high[holes.stretch] - holes.s, most)
        short = np.concatenate([np.zeros(len(now.way)), -np.ones(len(room))])
        solved = LinearSolver().least(
            np.append(np.zeros(len(holes)), 1.0),
            hstack([vstack([now.slopes, rows]), csr_array(short[:, np.newaxis])], format="csr"),
            np.concatenate([np.maximum(now.radius(1.0) - now.way, 0.0), room - _PARTED_MM]),
            np.append(low, 0.0),
            np.append(high, np.inf),
        )
        if solved is None:
            return None
        holes = holes.slid(solved.x[:-1])
    return None


def _better(after: Peaks, before: Peaks, enough: float) -> bool:
    """Whether the greatest tightness fell, or else the next greatest, and so on."""
    one, two = (np.maximum(np.sort(p.tightness)[::-1] - enough, 0.0) for p in (after, before))
    size = max(len(one), len(two))
    fell = np.pad(two, (0, size - len(two))) - np.pad(one, (0, size - len(one)))
    changed = np.flatnonzero(np.abs(fell) > _SETTLED)
    return bool(len(changed) and fell[changed[0]] > 0)


@dataclass(frozen=True, eq=False)
class _Bounds:
    """How far each hole may slide, and further constraints on the slides."""

    low: Floats
    high: Floats
    rows: csr_array
    room: Floats


def _bounds(wanted: Wanted, holes: Holes, keeps: Keeps | None) -> _Bounds:
    low = holes.room.low[holes.stretch] - holes.s
    high = holes.room.high[holes.stretch] - holes.s
    if keeps is None:
        return _Bounds(low, high, csr_array((0, len(holes))), np.empty(0))
    most = wanted.half_mm * _KEPT_SLIDE
    rows, room = keeps.rows(holes, most)
    return _Bounds(np.maximum(low, -most), np.minimum(high, most), rows, np.maximum(room, 0.0))


def _kept(holes: Holes, slides: Floats, keeps: Keeps | None) -> Holes | None:
    """Slide as far as what must stay true allows; None if not at all."""
    for share in (1.0, 0.5, 0.25, 0.1):
        slid = holes.slid(share * slides)
        if keeps is None or keeps.kept(slid):
            return slid
    return None


def _slides(
    holes: Holes, now: Peaks, enough: float, bounds: _Bounds, solver: LinearSolver
) -> Floats:
    """Slides that make the tightness least, level by level, today's routes held.

    At each level the rows that hold the greatest tightness up (those with a price in the linear
    program) are kept at it, and the rest goes on.
    """
    cap = np.full(len(now.way), np.inf)
    slides = np.zeros(len(holes))
    for _ in range(_LEVELS if enough else _IMPROVING_LEVELS):
        free = np.isinf(cap)
        worst = float(now.tightness[free].max(initial=0.0))
        if worst <= enough:
            break
        level = _level(now, cap, max(worst, enough), bounds, solver)
        if level is None:
            break
        slides, least, priced = level
        if least <= enough or not (priced & free).any():
            break
        cap[priced & free] = least
    return slides


def _level(
    now: Peaks, cap: Floats, worst: float, bounds: _Bounds, solver: LinearSolver
) -> tuple[Floats, float, NDArray[np.bool_]] | None:
    """Least greatest tightness of the rows without a cap: slides, it, and the rows with a price."""
    count, rows = len(bounds.low), np.arange(len(cap))
    free = np.isinf(cap)
    by_metal = now.nearest >= np.where(free, worst, cap) * now.scale - now.reach
    allowed = np.where(free, -now.reach, np.where(free, 0.0, cap) * now.scale - now.reach)
    allowed = np.where(by_metal, np.maximum(now.nearest, now.way), allowed + _ROUNDING_MM)
    scale = np.where(free & ~by_metal, now.scale, 0.0)
    slopes, more = now.slopes.tocoo(), bounds.rows.tocoo()
    matrix = csr_array(
        (
            np.concatenate([slopes.data, -scale, more.data]),
            (
                np.concatenate([slopes.row, rows, more.row + len(rows)]),
                np.concatenate([slopes.col, np.full(len(rows), count), more.col]),
            ),
        ),
        shape=(len(rows) + more.shape[0], count + 1),
    )
    solved = solver.least(
        np.append(np.zeros(count), 1.0),
        matrix,
        np.concatenate([allowed - now.way, bounds.room]),
        np.append(bounds.low, 0.0),
        np.append(bounds.high, np.inf),
    )
    if solved is None:
        return None
    priced = (np.abs(solved.prices[: len(rows)]) > _PRICE) & (scale > 0)
    return solved.x[:count], float(solved.x[count]), priced


def _slopes(row: Indices, side: Indices, share: Floats, shape: tuple[int, int]) -> csr_array:
    """A hole that slides on takes its way with it: longer behind it, shorter before it."""
    hole = side // 2
    moves = (side >= 0) & (hole < shape[1]) & (share > 0)
    sign = np.where(side % 2 == 0, 1.0, -1.0)
    matrix = csr_array((sign[moves] * share[moves], (row[moves], hole[moves])), shape=shape)
    matrix.sum_duplicates()
    return matrix
