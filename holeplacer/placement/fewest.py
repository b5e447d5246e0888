"""Fewest holes for one piece, with a bound that no layout on its axis can beat.

Demands are added until they decide the matter. For the demands at hand the cover is solved
exactly, places anywhere on the axis allowed: the count is a lower bound for the whole axis, whose
points all need covering. The cover's holes are then slid until every gap is as even as can be. If
all of the axis is then covered, the bound is reached and the count proven. If not, the worst
places of the evened layout become demands. On a stroke they lie further apart than a hole reaches
both ways, each needs a hole of its own, and the next bound is one higher.
"""

from dataclasses import dataclass, replace
from time import perf_counter

import numpy as np

from holeplacer.medial_axis import ways
from holeplacer.medial_axis.ways import AxisPoints, Floats
from holeplacer.placement import cover_matrix, covering, refinement, stretches
from holeplacer.placement.demands import Demands, Wanted
from holeplacer.placement.refinement import Holes, Peaks
from holeplacer.placement.stretches import Stretches
from holeplacer.placement.watch import Watch

PITCH = 6
"""First demands per half spacing."""

_ROUNDS = 60
_SINGLE_ROUNDS = 4
_FILL = 1.5
_MOST_IN_A_PART = 400
_RING_SECONDS = 0.5
_SURE_PITCH = 16
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
    alone: bool = False,
) -> Cover | None:
    """Fewest new holes that serve every demand at a tightness.

    Args:
        wanted: What must be covered.
        stays: Feet of the holes that stay.
        watch: Time and the person's patience.
        tightness: 1: the limits as they stand; smaller: tighter.
        at_most: Give up, with None, as soon as more holes than this are needed.
        alone: The demands are one ring or stroke; don't look for smaller parts.

    Raises:
        Cancelled: The person stopped the work.
    """
    search = _Search(wanted, stays, watch, tightness)
    solved = None
    for turn in range(_ROUNDS):
        watch.look()
        solved = search.covered() or solved
        if at_most is not None and search.bound > at_most:
            return None
        if solved is None or search.late:
            break
        evened, peaks = refinement.evened(wanted, solved, enough=tightness)
        if _served(peaks, tightness):
            return Cover(evened, search.bound, peaks)
        search.ask(_unserved(peaks, tightness))
        search.ask(_unserved(refinement.peaks(wanted, solved), tightness))
        if turn >= _SINGLE_ROUNDS and not alone and search.group(peaks):
            continue
        if turn >= (1 if alone else _SINGLE_ROUNDS):
            search.ask(_filled(wanted, peaks, tightness))
    begins = [holes for holes in (solved, search.surely()) if holes is not None]
    covers = [
        _mended(wanted, holes, search.bound, tightness)
        for holes in begins or [_none(wanted, stays)]
    ]
    cover = min(covers, key=lambda each: len(each.holes))
    return None if at_most is not None and len(cover.holes) > at_most else cover


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
        self._end = perf_counter() + watch.seconds_a_piece

    @property
    def late(self) -> bool:
        return perf_counter() > self._end

    def ask(self, more: Demands) -> None:
        self._asked = self._asked.and_also(more)

    def covered(self) -> Holes | None:
        """Exact cover of the demands at hand; None if there was no time for it."""
        left = max(self._end - perf_counter(), 0.05)
        return self._cover(self._asked.radius(self.tightness), left, bounding=True)

    def _cover(self, radius: Floats, seconds: float, *, bounding: bool = False) -> Holes | None:
        points = self._asked.points
        open_ = self._kept.way_at(points.branch, points.s) > radius
        if not open_.any():
            return _none(self.wanted, self.stays)
        matrix = cover_matrix.cover_matrix(
            self.wanted.axis,
            self.wanted.room,
            points[open_],
            radius[open_],
            groups=tuple(self._groups),
            group_radius=float(radius[self._asked.reach == 0.0].max(initial=0.0)),
        )
        needs = np.array(self._needs, np.intp)
        chosen = covering.fewest(matrix.covers, needs, seconds=seconds)
        if bounding:
            self.bound = max(self.bound, chosen.bound)
        if chosen.columns is None:
            return None
        at = matrix.places[chosen.columns]
        stretch = self.wanted.room.holding(at.branch, at.s)
        return Holes(self.wanted.room, stretch, at.s, self.stays)

    def surely(self) -> Holes | None:
        """A cover of dense samples with radii reduced by half their pitch: it covers all."""
        pitch = self.wanted.half_mm * min(self.tightness, 1.0) / _SURE_PITCH
        self._asked = self.wanted.sampled(pitch)
        self._groups, self._needs = [], []
        points = self._asked.points
        nearest = self.wanted.nearest(points.branch, points.s)
        asked = self._asked.radius(self.tightness)
        reduced = asked - np.where(self._asked.reach == 0.0, pitch / 2, 0.0)
        return self._cover(np.maximum(reduced, np.minimum(nearest + _SLACK_MM, asked)), 2.0)

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
    none = wanted.tips.points[np.empty(0, np.intp)]
    only = replace(
        wanted,
        parts=ring,
        tips=wanted.tips.chosen(np.empty(0, np.intp)),
        tip_nodes=np.empty(0, np.intp),
    )
    short = replace(watch, seconds_a_piece=_RING_SECONDS)
    cover = fewest(only, none, short, tightness=tightness, alone=True)
    return 0 if cover is None else cover.bound


def _served(peaks: Peaks, tightness: float) -> bool:
    return bool((peaks.way <= peaks.radius(tightness) + _SLACK_MM).all())


def _unserved(peaks: Peaks, tightness: float) -> Demands:
    far = np.flatnonzero(peaks.way > peaks.radius(tightness) + _SLACK_MM)
    return peaks.demands(far)


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


def _none(wanted: Wanted, stays: AxisPoints) -> Holes:
    return Holes(wanted.room, np.empty(0, np.intp), np.empty(0), stays)


def _mended(wanted: Wanted, holes: Holes, bound: int, tightness: float) -> Cover:
    """A cover when time or rounds ran out: a hole more at the worst place until all is served."""
    while True:
        holes, peaks = refinement.evened(wanted, holes, enough=tightness)
        if _served(peaks, tightness):
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
