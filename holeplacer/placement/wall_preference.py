"""Wall preference: holes on good zones of the wall, as many as that costs no hole.

First it is asked whether as many holes will do on good zones alone. Where not, hole by hole is put
on the nearest good zones, the others sliding to serve what it leaves; what then is not served any
more, or breaks what holes owe each other, is not done. A layout is never given up for another that
serves worse than the limits ask; the count and its bound stay.
"""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from holeplacer.medial_axis import ways
from holeplacer.medial_axis.ways import AxisPoints
from holeplacer.placement import demands, fewest, p_center, refinement, wall_room
from holeplacer.placement.demands import Wanted
from holeplacer.placement.fewest import Cover
from holeplacer.placement.piece_task import PieceTask
from holeplacer.placement.refinement import Holes
from holeplacer.placement.stretches import Stretches
from holeplacer.placement.watch import Watch
from holeplacer.rules import spacing, wall_ground

_TARGETS = 3
"""Good stretches tried for each hole, the nearest first."""

_SAME_MM = 1e-6


def on_good(job: PieceTask, cover: Cover, watch: Watch) -> Cover:
    """A layout with as many holes, more of them on good zones; itself where none is to be had.

    Args:
        job: What the piece asks for.
        cover: A layout that serves what is wanted.
        watch: Time and the person's patience.
    """
    if job.wanted is None or not len(cover.holes) or not wall_ground.prefers_good(job.plan):
        return cover
    room, is_good = wall_room.split(job.plan, job.outline, job.axis, cover.holes.room)
    if not is_good.any():
        return cover
    holes = _all_good(job, cover, room[is_good], watch)
    if holes is None:
        holes = _one_by_one(job, job.wanted, _into(room, cover.holes), is_good, watch)
    return replace(cover, holes=holes, peaks=refinement.peaks(job.wanted, holes))


def _all_good(job: PieceTask, cover: Cover, room: Stretches, watch: Watch) -> Holes | None:
    """As many holes, all on good zones; None if so few can't serve what is wanted from there."""
    assert job.wanted is not None  # noqa: S101 (a cover was made of it)
    wanted = demands.wanted(
        job.axis,
        room,
        job.stay_feet,
        spacing.corners(job.axis),
        spacing.limit(job.plan) / 2,
        spacing.overhang_limit(job.plan),
    )
    if _bare_mm(wanted) > _bare_mm(job.wanted) + _SAME_MM:
        return None
    if len(wanted.bare_tips) > len(job.wanted.bare_tips):
        return None
    count = len(cover.holes)
    found = fewest.fewest(wanted, job.stay_feet, watch, at_most=count)
    if found is None or len(found.holes) > count:
        return None
    if len(found.holes) < count:
        centred = p_center.centred(wanted, job.stay_feet, count, job.owed, watch, tries=0)
    else:
        centred = p_center.tightened(wanted, found, job.owed, watch, tries=0)
    if centred is None or len(centred.cover.holes) != count:
        return None
    return _kept(job, job.wanted, centred.cover.holes)


def _bare_mm(wanted: Wanted) -> float:
    return float(wanted.bare.length.sum())


def _into(room: Stretches, holes: Holes) -> Holes:
    """The same holes on stretches cut where good zones begin and end."""
    at = holes.points
    return replace(holes, room=room, stretch=room.holding(at.branch, at.s))


def _one_by_one(
    job: PieceTask, wanted: Wanted, holes: Holes, is_good: NDArray[np.bool_], watch: Watch
) -> Holes:
    """Each hole put on a good stretch if all is served still, those nearest to one first."""
    begun, away = holes, _away(wanted, holes, is_good)
    for index in np.argsort(away.min(axis=1), kind="stable").tolist():
        if is_good[holes.stretch[index]]:
            continue
        watch.look()
        for target in _targets(away[index], 2 * wanted.half_mm):
            moved = _kept(job, wanted, _put(wanted, holes, index, target))
            if moved is not None:
                holes = moved
                break
    if holes is begun:
        return holes
    even, _ = refinement.evened(wanted, holes, keeps=job.owed)
    return even if job.owed.kept(even) else holes


def _away(wanted: Wanted, holes: Holes, is_good: NDArray[np.bool_]) -> NDArray[np.float64]:
    """(holes, stretches) how far each good stretch is, straight; infinite of the others."""
    room = holes.room
    xy = ways.places(wanted.axis, holes.points)
    away = np.full((len(holes), len(room)), np.inf)
    for share in (0.0, 0.5, 1.0):
        s = room.low + share * room.length
        at = ways.places(wanted.axis, AxisPoints.on_branches(room.branch, s))
        away = np.minimum(away, np.hypot(*(at - xy[:, np.newaxis]).transpose(2, 0, 1)))
    away[:, ~is_good] = np.inf
    return away


def _targets(away: NDArray[np.float64], most_mm: float) -> Iterator[int]:
    for target in np.argsort(away, kind="stable")[:_TARGETS].tolist():
        if away[target] <= most_mm:
            yield target


def _put(wanted: Wanted, holes: Holes, index: int, target: int) -> Holes:
    """One hole on another stretch, at the place of it that is nearest."""
    room, here = holes.room, ways.places(wanted.axis, holes.points)[index]
    s = np.linspace(room.low[target], room.high[target], 9)
    at = ways.places(wanted.axis, AxisPoints.on_branches(np.full(9, room.branch[target]), s))
    stretch, along = holes.stretch.copy(), holes.s.copy()
    stretch[index] = target
    along[index] = s[int(np.argmin(np.hypot(*(at - here).T)))]
    return replace(holes, stretch=stretch, s=along)


def _kept(job: PieceTask, wanted: Wanted, holes: Holes) -> Holes | None:
    """Holes slid on their stretches until all is served and owed; None if that can't be had."""
    slid, peaks = refinement.evened(wanted, holes, enough=1.0)
    if not peaks.served():
        return None
    return slid if job.owed.kept(slid) else refinement.parted(wanted, slid, job.owed)
