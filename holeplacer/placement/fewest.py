"""Fewest holes for one piece, with a bound that no layout on its axis can beat.

Demands are added until they decide the matter. For the demands at hand the cover is solved
exactly, places anywhere on the axis allowed: the count is a lower bound for the whole axis, whose
points all need covering. The cover's holes are then slid until every gap is as even as can be. If
all of the axis is then covered, the bound is reached and the count proven. If not, the worst
places of the evened layout become demands. On a stroke they lie further apart than a hole reaches
both ways, each needs a hole of its own, and the next bound is one higher.
"""

from dataclasses import dataclass
from time import perf_counter

import numpy as np

from holeplacer.medial_axis import ways
from holeplacer.medial_axis.ways import AxisPoints
from holeplacer.placement import cover_matrix, covering, refinement
from holeplacer.placement.demands import Demands, Wanted
from holeplacer.placement.refinement import Holes, Peaks
from holeplacer.placement.watch import Watch

PITCH = 6
"""First demands per half spacing."""

_ROUNDS = 40
_SLACK_MM = 1e-6


@dataclass(frozen=True, eq=False)
class Cover:
    """Holes that cover all that is wanted.

    Attributes:
        holes: The new holes and those that stay.
        bound: No layout on the axis has fewer new holes.
        demands: The demands that decided it; a further search may begin with them.
        peaks: The worst-served demands.
    """

    holes: Holes
    bound: int
    demands: Demands
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
    demands: Demands | None = None,
    at_most: int | None = None,
) -> Cover | None:
    """Fewest new holes that serve every demand at a tightness.

    Args:
        wanted: What must be covered.
        stays: Feet of the holes that stay.
        watch: Time and the person's patience.
        tightness: 1: the limits as they stand; smaller: tighter.
        demands: Demands to begin with; None takes samples of all that is wanted.
        at_most: Give up, with None, as soon as more holes than this are needed.

    Raises:
        Cancelled: The person stopped the work.
    """
    asked = wanted.sampled(wanted.half_mm * min(tightness, 1.0) / PITCH)
    if demands is not None:
        asked = asked.and_also(demands)
    kept = ways.reach(wanted.axis, stays)
    bound, best = 0, None
    begun = perf_counter()
    for _ in range(_ROUNDS):
        watch.look()
        solved, count = _covered(wanted, stays, asked, kept, tightness, watch)
        bound = max(bound, count)
        if at_most is not None and bound > at_most:
            return None
        if solved is None:
            break
        evened, peaks = refinement.evened(wanted, solved, enough=tightness)
        if _served(peaks, tightness):
            best = Cover(evened, bound, asked, peaks)
            break
        more = _unserved(peaks, tightness)
        if perf_counter() - begun > watch.seconds_a_piece:
            break
        asked = asked.and_also(more).and_also(
            _unserved(refinement.peaks(wanted, solved), tightness)
        )
        best = best or None
    if best is None:
        best = _mended(wanted, solved or _none(wanted, stays), bound, asked, tightness)
    if at_most is not None and len(best.holes) > at_most:
        return None
    return best


def _covered(
    wanted: Wanted,
    stays: AxisPoints,
    asked: Demands,
    kept: ways.Reach,
    tightness: float,
    watch: Watch,
) -> tuple[Holes | None, int]:
    """Exact cover of a finite set of demands: holes (None if time ran out) and bound."""
    radius = asked.radius(tightness)
    open_ = kept.way_at(asked.points.branch, asked.points.s) > radius
    matrix = cover_matrix.cover_matrix(
        wanted.axis, wanted.room, asked.points[open_], radius[open_]
    )
    chosen = covering.fewest(matrix.covers, seconds=watch.seconds_a_piece)
    if chosen.columns is None:
        return None, chosen.bound
    at = matrix.places[chosen.columns]
    stretch = wanted.room.holding(at.branch, at.s)
    return Holes(wanted.room, stretch, at.s, stays), chosen.bound


def _served(peaks: Peaks, tightness: float) -> bool:
    return bool((peaks.way <= peaks.radius(tightness) + _SLACK_MM).all())


def _unserved(peaks: Peaks, tightness: float) -> Demands:
    far = np.flatnonzero(peaks.way > peaks.radius(tightness) + _SLACK_MM)
    return Demands(peaks.points[far], peaks.scale[far], peaks.reach[far], peaks.nearest[far])


def _none(wanted: Wanted, stays: AxisPoints) -> Holes:
    return Holes(wanted.room, np.empty(0, np.intp), np.empty(0), stays)


def _mended(
    wanted: Wanted, holes: Holes, bound: int, asked: Demands, tightness: float
) -> Cover:
    """A cover when time or rounds ran out: a hole more at the worst place until all is served."""
    while True:
        holes, peaks = refinement.evened(wanted, holes, enough=tightness)
        if _served(peaks, tightness):
            return Cover(holes, bound, asked, peaks)
        worst = int(np.argmax(peaks.way - peaks.radius(tightness)))
        matrix = cover_matrix.cover_matrix(
            wanted.axis, wanted.room, peaks.points[[worst]], peaks.radius(tightness)[[worst]]
        )
        at = matrix.places[[0]]
        holes = Holes(
            holes.room,
            np.append(holes.stretch, wanted.room.holding(at.branch, at.s)),
            np.append(holes.s, at.s),
            holes.stays,
        )
