"""Holes of one piece: covered, held, improved, and settled at places that can be drawn."""

from dataclasses import dataclass, replace

import numpy as np

from holeplacer.geometry.curve import Points
from holeplacer.medial_axis import ways
from holeplacer.medial_axis.axis import Axis
from holeplacer.medial_axis.ways import AxisPoints
from holeplacer.placement import (
    compact,
    demands,
    fewest,
    held_cover,
    near_places,
    p_center,
    preferences,
    refinement,
    settling,
    unsupported,
    wall_preference,
    wall_room,
)
from holeplacer.placement.demands import Wanted
from holeplacer.placement.fewest import Cover
from holeplacer.placement.keeping import Owed
from holeplacer.placement.piece_task import PieceTask
from holeplacer.placement.refinement import Holes
from holeplacer.placement.unsupported import Unsupported
from holeplacer.placement.watch import Watch
from holeplacer.rules import edge_distance, neighbours, spacing, turning

_FEW = 2
"""So few holes are as even as they can be once they are slid."""


@dataclass(frozen=True, eq=False)
class PieceHoles:
    """What was found for one piece.

    Attributes:
        piece: Index of the piece.
        centres: (n, 2) new hole centres.
        bound: No layout on the piece's axis has fewer new holes.
        tightness: Share of the limits at which all is just served; 0 where nothing is wanted.
        unsupported: What no hole can hold.
        held: Whether two holes keep the piece from turning.
        base_mm: The base it needs.
    """

    piece: int
    centres: Points
    bound: int
    tightness: float
    unsupported: tuple[Unsupported, ...]
    held: bool
    base_mm: float

    @property
    def proven(self) -> bool:
        """Whether there can be no fewer."""
        return len(self.centres) <= self.bound


def solve(job: PieceTask, near: Points, watch: Watch, *, tries: int) -> PieceHoles:
    """Fewest holes for a piece, at their best places.

    Args:
        job: What the piece asks for.
        near: (n, 2) holes of an earlier proposal; places near them are preferred.
        watch: Time and the person's patience.
        tries: How many tighter covers to try for better places.
    """
    if job.wanted is None or not len(job.wanted.room):
        return _without_choice(job)
    job, cover = _covered(job, watch)
    assert job.wanted is not None  # noqa: S101 (there are strokes)
    stayed = near_places.layout(job.wanted, job.stay_feet, near, cover, job.owed)
    if stayed is not None:
        cover = replace(cover, holes=stayed, peaks=refinement.peaks(job.wanted, stayed))
        tries = 0
    if len(cover.holes) <= _FEW:
        tries = 0
    best = p_center.tightened(job.wanted, cover, job.owed, watch, tries=tries).cover
    return finished(job, wall_preference.on_good(job, best, watch))


def solve_count(
    job: PieceTask, count: int, watch: Watch, *, tries: int
) -> tuple[PieceHoles, float] | None:
    """Best places for a given number of new holes, and the least tightness there can be."""
    if job.wanted is None or not len(job.wanted.room):
        only = _without_choice(job)
        return (only, 0.0) if len(only.centres) <= count else None
    found = p_center.centred(job.wanted, job.stay_feet, count, job.owed, watch, tries=tries)
    if found is None:
        return None
    return finished(job, wall_preference.on_good(job, found.cover, watch)), found.least


def finished(job: PieceTask, cover: Cover) -> PieceHoles:
    """Preferences followed, coordinates settled, and what is still missing said."""
    assert job.wanted is not None  # noqa: S101 (a cover was made of it)
    preferred = preferences.followed(
        job.wanted, cover.holes, job.owed, edge_distance.limit(job.plan)
    )
    centres = settling.settled(job.outline, job.wanted, preferred, job.owed, job.plan)
    everything = np.concatenate([centres, job.stays])
    bound = cover.bound
    off_axis = None
    if len(everything) == 1 and len(centres) == 1 and job.owed.base_mm is None:
        off_axis = _pair(job)
    if off_axis is not None:
        centres = everything = off_axis
        bound = 2
    return PieceHoles(
        piece=job.piece.piece,
        centres=centres,
        bound=bound,
        tightness=float(refinement.peaks(job.wanted, preferred).tightness.max(initial=0.0)),
        unsupported=unsupported.of_piece(
            job.plan, job.outline, job.wanted, job.piece.piece, preferred.sites
        ),
        held=_held(job, everything),
        base_mm=job.base_mm,
    )


def _covered(job: PieceTask, watch: Watch) -> tuple[PieceTask, Cover]:
    """Fewest holes that cover, hold and keep their distance; what can't be had is let go.

    Base first: a piece too small for it is only covered. Then stretches that no hole can serve
    without coming too near another.
    """
    assert job.wanted is not None  # noqa: S101 (there are strokes)
    found = fewest.fewest(job.wanted, job.stay_feet, watch)
    assert found is not None  # noqa: S101 (there was no limit to the number)
    if not len(found.holes) and not len(job.stays):
        holes = _one_hole(job.axis, job.wanted, job.stay_feet)
        found = Cover(holes, 1, refinement.peaks(job.wanted, holes))
    while True:
        least = 2 - len(job.stays) if job.owed.base_mm is not None else 0
        found = replace(found, bound=max(found.bound, least))
        if job.owed.kept(found.holes):
            return job, found
        slid = _slid_apart(job.wanted, found, job.owed)
        if slid is not None:
            return job, replace(found, holes=slid, peaks=refinement.peaks(job.wanted, slid))
        if len(job.owed.too_near(found.holes)):
            apart = replace(job.owed, base_mm=None)
            held = held_cover.held_cover(job.wanted, job.stay_feet, apart, found.bound, watch)
            if held is None:
                return _thinned(job, found, watch)
            if job.owed.kept(held.holes):
                return job, held
        held = held_cover.held_cover(job.wanted, job.stay_feet, job.owed, found.bound, watch)
        if held is not None and job.owed.kept(held.holes):
            return job, held
        if job.owed.base_mm is None:
            return _thinned(job, found, watch)
        job = replace(job, owed=replace(job.owed, base_mm=None))


def _slid_apart(wanted: Wanted, cover: Cover, owed: Owed) -> Holes | None:
    """The same holes slid until they keep what they owe: from where they are, or from even."""
    slid = refinement.parted(wanted, cover.holes, owed)
    if slid is not None:
        return slid
    even, _ = refinement.evened(wanted, cover.holes)
    return even if owed.kept(even) else refinement.parted(wanted, even, owed)


def _thinned(job: PieceTask, cover: Cover, watch: Watch) -> tuple[PieceTask, Cover]:
    """Holes left out until none is too near another; what they served is wanted no more."""
    assert job.wanted is not None  # noqa: S101 (there are strokes)
    holes = cover.holes
    while len(near := job.owed.too_near(holes)):
        crowded = np.bincount(near.ravel(), minlength=len(holes))
        left = np.arange(len(holes)) != int(np.argmax(crowded))
        holes = replace(holes, stretch=holes.stretch[left], s=holes.s[left])
    wanted = demands.served(job.wanted, holes.sites)
    again = fewest.fewest(wanted, job.stay_feet, watch)
    bound = 0 if again is None else again.bound
    if again is not None and job.owed.kept(again.holes):
        holes = again.holes
    cover = Cover(holes, bound, refinement.peaks(wanted, holes))
    return replace(job, wanted=wanted), cover


def _one_hole(axis: Axis, wanted: Wanted, stays: AxisPoints) -> Holes:
    """Nothing is wanted of a piece without strokes, but it is to hang on something."""
    places = held_cover.grid(wanted.room, 200)
    widest = int(np.argmax(ways.clearances(axis, places)))
    at = places[[widest]]
    return Holes(wanted.room, wanted.room.holding(at.branch, at.s), at.s, stays)


def _without_choice(job: PieceTask) -> PieceHoles:
    """A blob, or a piece too thin for any hole."""
    least = edge_distance.limit(job.plan)
    index, axis = job.piece.piece, job.axis
    centres, missing = np.empty((0, 2)), tuple[Unsupported, ...]()
    if job.wanted is not None:
        missing = unsupported.of_piece(job.plan, job.outline, job.wanted, index)
    elif not len(job.stays):
        node = int(np.argmax(axis.node_clearance))
        middle = axis.node_xy[[node]]
        pair = _pair(job)
        if pair is not None:
            centres = pair
        elif _takes_hole(job, middle, least):
            centres = settling.rounded(job.outline, middle, least)
        else:
            missing = (unsupported.blob(job.plan, job.outline, axis, node, index),)
    return PieceHoles(
        piece=index,
        centres=centres,
        bound=len(centres),
        tightness=0.0,
        unsupported=missing,
        held=_held(job, np.concatenate([centres, job.stays])),
        base_mm=job.base_mm,
    )


def _takes_hole(job: PieceTask, at: Points, least_mm: float) -> bool:
    taken = wall_room.taken(job.plan, job.outline)
    metal = job.outline.edge_distance(at)[0] >= least_mm - edge_distance.SLACK_MM
    return bool(metal and (taken is None or not taken(at)[0]))


def _pair(job: PieceTask) -> Points | None:
    apart = max(neighbours.limit(job.plan), job.base_mm)
    found = compact.pair(
        job.outline,
        job.axis,
        job.owed.centre,
        apart,
        edge_distance.limit(job.plan),
        wall_room.taken(job.plan, job.outline),
    )
    if found is None or job.wanted is None:
        return found
    feet = ways.feet(job.axis, found).points
    reach = ways.reach(job.axis, feet)
    sampled = job.wanted.sampled(1.0)
    way = reach.way_at(sampled.points.branch, sampled.points.s)
    return found if (way <= sampled.radius(1.0) + spacing.SLACK_MM).all() else None


def _held(job: PieceTask, centres: Points) -> bool:
    base, _ = turning.holding(centres, job.owed.centre)
    return base > 0 and base >= job.base_mm - turning.SLACK_MM
