"""Fewest holes for one piece, with a bound that no layout on its axis can beat.

Nearly every axis is a tree of blocks with few rings each, and solved by `block_cover`. Where rings
hang together more than that opens, demands are added until they decide the matter. For the
demands at hand the cover is solved exactly, places anywhere on the axis allowed: the count is a
lower bound for the whole axis, whose points all need covering. The cover's holes are then slid
until every gap is as even as can be. If all of the axis is then covered, the bound is reached and
the count proven. If not, the worst places of the evened layout become demands. On a stroke they
lie further apart than a hole reaches both ways, each needs a hole of its own, and the next bound
is one higher.
"""

from dataclasses import dataclass, replace
from time import perf_counter

import numpy as np

from holeplacer.medial_axis import ways
from holeplacer.medial_axis.ways import AxisPoints, Floats, Indices
from holeplacer.placement import block_cover, cover_matrix, covering, refinement, stretches
from holeplacer.placement.cover_matrix import CoverMatrix
from holeplacer.placement.demands import Demands, Wanted
from holeplacer.placement.refinement import Holes, Peaks
from holeplacer.placement.stretches import Stretches
from holeplacer.placement.watch import Watch

PITCH = 6
"""First demands per half spacing."""

_ROUNDS = 40
_SINGLE_ROUNDS = 2
_FILL = 1.5
_MOST_IN_A_PART = 400
_RING_SECONDS = 0.5
_RING_ROUNDS = 2
_EXACT_ROUNDS = 1
_FIRST_SHARE, _LEAST_SHARE = 0.98, 0.9
_DENSE_PITCH = 64
_GREEDY_SHARES = (1.0, 0.985, 0.95)
_SLACK_MM = 1e-6


@dataclass(frozen=True, eq=False)
class Cover:
    """Holes that cover all that is wanted.

    Attributes:
        holes: The new holes and those that stay.
        bound: No layout on the axis has fewer new holes.
        peaks: The worst-served demands.
    """

    holes: Holes
    bound: int
    peaks: Peaks

    @property
    def proven(self) -> bool:
        """Whether there can be no fewer."""
        return len(self.holes) <= self.bound

    @property
    def tightness(self) -> float:
        """Tightness at which the worst-served demand is just served."""
        return float(self.peaks.tightness.max(initial=0.0))


def fewest(
    wanted: Wanted,
    stays: AxisPoints,
    watch: Watch,
    *,
    tightness: float = 1.0,
    at_most: int | None = None,
    rounds: int = _ROUNDS,
) -> Cover | None:
    """Fewest new holes that serve every demand at a tightness.

    Args:
        wanted: What must be covered.
        stays: Feet of the holes that stay.
        watch: Time and the person's patience.
        tightness: 1: the limits as they stand; smaller: tighter.
        at_most: Only asked is whether so many will do: None as soon as it is proven that they
            won't; any cover with no more; one with more if that could not be settled quickly.
        rounds: How often to ask for more before leaving the count unproven.

    Raises:
        Cancelled: The person stopped the work.
    """
    watch.look()
    direct = _by_blocks(wanted, stays, tightness, at_most)
    if direct is not None:
        if at_most is not None and direct.bound > at_most:
            return None
        if at_most is not None or direct.proven:
            return direct
    search = _Search(wanted, stays, watch, tightness)
    search.bound = 0 if direct is None else direct.bound
    found = search.closed_in(direct, at_most, rounds)
    if at_most is not None and search.bound > at_most:
        return None
    for share in _GREEDY_SHARES:
        if found is None or len(found.holes) > search.bound:
            holes = search.greedy(share)
            found = _fewer(found, _mended(wanted, holes, search.bound, tightness))
    assert found is not None  # noqa: S101 (there is a share)
    return replace(found, bound=search.bound)


def _by_blocks(
    wanted: Wanted, stays: AxisPoints, tightness: float, at_most: int | None
) -> Cover | None:
    """Cover and bound from the tree of blocks; None if some rings can't be opened."""
    found = block_cover.block_cover(wanted, stays, tightness, at_most)
    if found is None:
        return None
    at = found.places
    holes = Holes(wanted.room, wanted.room.holding(at.branch, at.s), at.s, stays)
    peaks = refinement.peaks(wanted, holes)
    return Cover(holes, found.bound, peaks) if peaks.served(tightness) else None


class _Search:
    """Demands gathered so far, and the bound they give."""

    def __init__(self, wanted: Wanted, stays: AxisPoints, watch: Watch, tightness: float) -> None:
        self.wanted, self.stays, self.watch, self.tightness = wanted, stays, watch, tightness
        self.bound = 0
        self._asked = wanted.sampled(wanted.half_mm * min(tightness, 1.0) / PITCH)
        self._kept = ways.reach(wanted.axis, stays)
        self._groups: list[Stretches] = []
        self._needs: list[int] = []
        self._tried: set[int] = set()
        self._share, self._good = _FIRST_SHARE, _LEAST_SHARE
        self._end = perf_counter() + watch.seconds_a_piece

    @property
    def late(self) -> bool:
        return perf_counter() > self._end

    def closed_in(self, best: Cover | None, at_most: int | None, rounds: int) -> Cover | None:
        """Cover and slide, asking for more where that fails, until bound and cover meet."""
        for turn in range(rounds):
            self.watch.look()
            solved = self.covered()
            if solved is None or (at_most is not None and self.bound > at_most):
                break
            evened, peaks = refinement.evened(self.wanted, solved, enough=self.tightness)
            if peaks.served(self.tightness):
                return Cover(evened, self.bound, peaks)
            if turn >= _EXACT_ROUNDS:
                best = self.with_spare(best)
            enough = max(self.bound, at_most or 0)
            if self.late or (best is not None and len(best.holes) <= enough):
                break
            self.ask(_unserved(peaks, self.tightness))
            self.ask(_unserved(refinement.peaks(self.wanted, solved), self.tightness))
            if turn >= _SINGLE_ROUNDS and not self.group(peaks):
                self.ask(_filled(self.wanted, peaks, self.tightness))
        return best

    def ask(self, more: Demands) -> None:
        self._asked = self._asked.and_also(more)

    def covered(self) -> Holes | None:
        """Exact cover of the demands at hand; None if there was no time for it."""
        matrix = self._matrix(self._asked.radius(self.tightness), tuple(self._groups))
        if matrix is None:
            return _none(self.wanted, self.stays)
        needs = np.array(self._needs, np.intp)
        chosen = covering.fewest(matrix.covers, needs, seconds=self._left / 2)
        self.bound = max(self.bound, chosen.bound)
        if chosen.columns is None or len(chosen.columns) > self.bound:
            return None
        return self._holes(matrix, chosen.columns)

    def with_spare(self, best: Cover | None) -> Cover | None:
        """The better of a cover and one of demands so much tighter that sliding can mend it.

        An exact cover of single demands may leave no room for what lies between them. One of
        slightly tighter demands has room to slide, and needs few holes more. The share is moved
        to where sliding just succeeds.
        """
        matrix = self._matrix(self._asked.radius(self.tightness * self._share), ())
        if matrix is None:
            return best
        none = np.empty(0, np.intp)
        columns = covering.fewest(matrix.covers, none, seconds=self._left / 4).columns
        if columns is not None and (best is None or len(columns) < len(best.holes)):
            holes = self._holes(matrix, columns)
            evened, now = refinement.evened(self.wanted, holes, enough=self.tightness)
            if now.served(self.tightness):
                self._good, self._share = self._share, (1.0 + self._share) / 2
                return Cover(evened, self.bound, now)
            self.ask(_unserved(now, self.tightness))
        self._share = (self._good + self._share) / 2
        return best

    def greedy(self, share: float) -> Holes:
        """Always the place that serves most of what is left, until all dense samples are served.

        Args:
            share: Of the radii; a smaller one leaves less to mend.
        """
        pitch = self.wanted.half_mm * min(self.tightness, 1.0) / _DENSE_PITCH
        self._asked = self.wanted.sampled(pitch)
        matrix = self._matrix(self._asked.radius(self.tightness * share), ())
        if matrix is None:
            return _none(self.wanted, self.stays)
        return self._holes(matrix, covering.greedy(matrix.covers))

    @property
    def _left(self) -> float:
        return max(self._end - perf_counter(), 0.05)

    def _matrix(self, radius: Floats, groups: tuple[Stretches, ...]) -> CoverMatrix | None:
        """Places against the demands that holes that stay don't serve; None if they serve all."""
        points = self._asked.points
        open_ = self._kept.way_at(points.branch, points.s) > radius
        if not open_.any():
            return None
        return cover_matrix.cover_matrix(
            self.wanted.axis,
            self.wanted.room,
            points[open_],
            radius[open_],
            groups=groups,
            group_radius=float(radius[self._asked.reach == 0.0].max(initial=0.0)),
        )

    def _holes(self, matrix: CoverMatrix, columns: Indices) -> Holes:
        at = matrix.places[columns]
        stretch = self.wanted.room.holding(at.branch, at.s)
        return Holes(self.wanted.room, stretch, at.s, self.stays)

    def group(self, peaks: Peaks) -> bool:
        """Ask for as many holes near a ring or stroke as it needs by itself.

        On a ring a little too long for one hole, the gap opposite the hole may lie anywhere:
        single demands chase it round and round, and filling the ring with them makes a hard
        integer program. Solved by itself the ring is easy.
        """
        excess = peaks.way - peaks.radius(self.tightness)
        worst = np.flatnonzero(excess > _SLACK_MM)
        found = False
        for branch in np.unique(peaks.points.branch[worst]).tolist():
            if branch in self._tried or len(self.stays):
                continue
            self._tried.add(branch)
            ring = _ring(self.wanted, branch)
            need = _needed(self.wanted, ring, self.watch, self.tightness)
            if need > 1:
                self._groups.append(ring)
                self._needs.append(need)
                found = True
        return found


def _ring(wanted: Wanted, branch: int) -> Stretches:
    """Demanded parts of a branch and of the shortest way back from its end to its start."""
    net = ways.network(wanted.axis)
    start, end = int(net.start[branch]), int(net.end[branch])
    chosen = {branch}
    if start != end:
        others = np.arange(len(net.start)) != branch
        for step in ways.route(wanted.axis, start, end, others):
            chosen.add(step)
    return wanted.parts[np.isin(wanted.parts.branch, list(chosen))]


def _needed(wanted: Wanted, ring: Stretches, watch: Watch, tightness: float) -> int:
    """Holes a ring or stroke needs by itself: no fewer are near it in any layout.

    A ring with one junction is covered for no more than twice the half spacing by each hole,
    wherever that lies; else the ring is solved as if nothing else were wanted.
    """
    net = ways.network(wanted.axis)
    if len(np.unique(ring.branch)) == 1 and net.start[ring.branch[0]] == net.end[ring.branch[0]]:
        reach = 2 * tightness * wanted.half_mm
        thin = (wanted.nearest(ring.branch, (ring.low + ring.high) / 2) > 0).any()
        if tightness >= 1.0 or not thin:
            return int(np.ceil((float(ring.length.sum()) - _SLACK_MM) / reach))
    only = replace(
        wanted,
        parts=ring,
        tips=wanted.tips.chosen(np.empty(0, np.intp)),
        tip_nodes=np.empty(0, np.intp),
    )
    none = wanted.tips.points[np.empty(0, np.intp)]
    search = _Search(only, none, replace(watch, seconds_a_piece=_RING_SECONDS), tightness)
    for turn in range(_RING_ROUNDS):
        solved = search.covered()
        if solved is None:
            break
        _, peaks = refinement.evened(only, solved, enough=tightness)
        if peaks.served(tightness):
            break
        search.ask(_unserved(peaks, tightness) if turn == 0 else _filled(only, peaks, tightness))
    return search.bound


def _unserved(peaks: Peaks, tightness: float) -> Demands:
    return peaks.demands(peaks.unserved(tightness))


def _filled(wanted: Wanted, peaks: Peaks, tightness: float) -> Demands:
    """Demands so close along unserved parts that no gap as wide as theirs slips between."""
    excess = peaks.way - peaks.radius(tightness)
    far = np.flatnonzero(excess > _SLACK_MM)
    far = far[np.argsort(-excess[far])]
    part = wanted.parts.holding(peaks.points.branch[far], peaks.points.s[far])
    part, first = np.unique(part[part >= 0], return_index=True)
    step = np.maximum(_FILL * excess[far[first]], wanted.parts.length[part] / _MOST_IN_A_PART)
    count = np.ceil(wanted.parts.length[part] / step).astype(np.intp)
    owner, number = stretches.runs(np.zeros(len(part), np.intp), count)
    s = wanted.parts.low[part][owner] + (number + 0.5) * step[owner]
    s = np.minimum(s, wanted.parts.high[part][owner])
    return _unserved(peaks, tightness).and_also(wanted.at(wanted.parts.branch[part][owner], s))


def _fewer(one: Cover | None, two: Cover) -> Cover:
    return one if one is not None and len(one.holes) <= len(two.holes) else two


def _none(wanted: Wanted, stays: AxisPoints) -> Holes:
    return Holes(wanted.room, np.empty(0, np.intp), np.empty(0), stays)


def _mended(wanted: Wanted, holes: Holes, bound: int, tightness: float) -> Cover:
    """A cover when time or rounds ran out: a hole more at the worst place until all is served."""
    while True:
        holes, peaks = refinement.evened(wanted, holes, enough=tightness)
        if peaks.served(tightness):
            return Cover(holes, bound, peaks)
        worst = int(np.argmax(peaks.way - peaks.radius(tightness)))
        at = _nearest_room(wanted, peaks.points[[worst]])
        holes = Holes(
            holes.room,
            np.append(holes.stretch, wanted.room.holding(at.branch, at.s)),
            np.append(holes.s, at.s),
            holes.stays,
        )


def _nearest_room(wanted: Wanted, point: AxisPoints) -> AxisPoints:
    """The permitted place nearest to a point along the axis."""
    if wanted.room.holding(point.branch, point.s)[0] >= 0:
        return point
    room = wanted.room
    ends = AxisPoints.on_branches(
        np.concatenate([room.branch, room.branch]), np.concatenate([room.low, room.high])
    )
    way = ways.reach(wanted.axis, point).way_at(ends.branch, ends.s)
    return ends[[int(np.argmin(way))]]
