"""Settling: from places on the axis to coordinates that keep every rule, round where they can."""

import itertools

import numpy as np

from holeplacer.geometry.curve import Points
from holeplacer.medial_axis import ways
from holeplacer.medial_axis.axis import Axis
from holeplacer.medial_axis.ways import AxisPoints, Floats, Indices
from holeplacer.outline.outline import Outline
from holeplacer.placement import refinement
from holeplacer.placement.demands import Wanted
from holeplacer.placement.keeping import Owed
from holeplacer.placement.refinement import Holes
from holeplacer.placement.stretches import Stretches
from holeplacer.plan.plan import Plan
from holeplacer.rules import edge_distance, spacing, turning

GRID_MM = 0.01
"""Coordinates are rounded to this where all rules still hold."""

_TRIES = 8
_MOST_MM = 2.0
_WIDER = 5
_CLOSE_MM = 1e-10


def true_room(outline: Outline, axis: Axis, room: Stretches, least_mm: float) -> Stretches:
    """Stretches with their ends drawn in until the true edge distance is kept there.

    Clearance is linear only nearly; the outline has the last word. An end that can't be mended
    within 2 mm is left.
    """
    if not len(room):
        return room
    low = _drawn_in(outline, axis, room.branch, room.low, room.high, least_mm)
    high = _drawn_in(outline, axis, room.branch, room.high, room.low, least_mm)
    real = high > low
    return Stretches(room.branch[real], low[real], high[real])


def settled(outline: Outline, wanted: Wanted, holes: Holes, owed: Owed, plan: Plan) -> Points:
    """(n, 2) centres of new holes: rounded if every rule that holds before holds after."""
    exact = owed.centres(holes)
    least = edge_distance.limit(plan)
    neat = rounded(outline, exact, least)
    if _as_good(outline, wanted, holes, owed, exact, neat):
        return neat
    short = outline.edge_distance(exact) < least - _CLOSE_MM
    mended = np.where(short[:, np.newaxis], neat, exact)
    return mended if _as_good(outline, wanted, holes, owed, exact, mended) else exact


def rounded(outline: Outline, centres: Points, least_mm: float) -> Points:
    """Each centre moved to the nearest grid point that keeps the edge distance, if one does."""
    result = _on_grid(outline, centres, least_mm, 1)
    short = np.flatnonzero(outline.edge_distance(result) < least_mm)
    result[short] = _on_grid(outline, centres[short], least_mm, _WIDER)
    return result


def _on_grid(outline: Outline, centres: Points, least_mm: float, steps: int) -> Points:
    """Nearest good grid point within some steps to each side; where none is, the centre."""
    if not len(centres):
        return centres.copy()
    base = np.floor(centres / GRID_MM) * GRID_MM
    aside = np.arange(1 - steps, steps + 1) * GRID_MM
    options = np.round(base[:, np.newaxis] + list(itertools.product(aside, aside)), 2)
    metal = outline.edge_distance(options.reshape(-1, 2)).reshape(options.shape[:2])
    off = np.hypot(*(options - centres[:, np.newaxis]).transpose(2, 0, 1))
    off[metal < least_mm] = np.inf
    best = np.argmin(off, axis=1)
    row = np.arange(len(centres))
    good = np.isfinite(off[row, best])
    return np.where(good[:, np.newaxis], options[row, best], centres)


def _as_good(
    outline: Outline, wanted: Wanted, holes: Holes, owed: Owed, exact: Points, neat: Points
) -> bool:
    """Whether moved holes still cover, hold, and keep their distance, wherever they did before."""
    feet, counts = spacing.counting_feet(outline, wanted.axis, neat)
    if not counts.all() or (feet.branch < 0).any():
        return False
    sites = AxisPoints(
        np.concatenate([feet.branch, holes.stays.branch]),
        np.concatenate([feet.s, holes.stays.s]),
        np.concatenate([feet.node, holes.stays.node]),
    )
    before = refinement.peaks(wanted, holes)
    after = refinement.peaks_of(wanted, sites, len(holes))
    limit = max(1.0, float(before.tightness.max(initial=0.0)))
    if (after.way > after.radius(limit) + spacing.SLACK_MM / 2).any():
        return False
    for xy, needed in ((exact, True), (neat, False)):
        everything = np.concatenate([xy, owed.stays])
        base, _ = turning.holding(everything, owed.centre)
        near = _nearest(xy)
        good = near >= owed.apart_mm and (owed.base_mm is None or base >= owed.base_mm)
        if not good:
            return needed
    return True


def _nearest(xy: Points) -> float:
    if len(xy) < 2:
        return np.inf
    one, two = np.triu_indices(len(xy), 1)
    return float(np.hypot(*(xy[two] - xy[one]).T).min())


def _drawn_in(
    outline: Outline, axis: Axis, branch: Indices, end: Floats, other: Floats, least_mm: float
) -> Floats:
    """Ends moved towards the others until the edge distance is kept."""
    at = end.copy()
    step = np.full(len(at), 1e-4)
    for _ in range(_TRIES):
        metal = outline.edge_distance(ways.places(axis, AxisPoints.on_branches(branch, at)))
        short = np.flatnonzero(metal < least_mm - _CLOSE_MM)
        if not len(short):
            return at
        towards = np.sign(other[short] - end[short])
        room = np.minimum(np.abs(other[short] - end[short]), _MOST_MM)
        step[short] = np.minimum(step[short] * 4, room)
        at[short] = end[short] + towards * step[short]
    at[short] = end[short]
    return at
