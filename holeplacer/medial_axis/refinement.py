"""Refinement: steps along the axis split until straight ones follow it."""

import numpy as np

from holeplacer.medial_axis import bisector
from holeplacer.medial_axis.bisector import Discs
from holeplacer.medial_axis.boundary import Boundary, Floats, Indices
from holeplacer.medial_axis.rows import Rows

POSITION_MM = 0.005
"""How far a straight step may stray from the axis."""
CLEARANCE_MM = 0.005
"""How far the clearance, taken as linear along a step, may be off."""
LONGEST_STEP = 2.0
"""Longest step, in disc radii."""
SHORTEST_STEP = 1e-3
"""Steps shorter than this, in disc radii, are never split."""
MOST_STEPS = 20_000
"""Steps no longer than the perimeter by this are never split for their length alone."""
ROUNDS = 12


def refined(boundary: Boundary, rows: Rows) -> Rows:
    """Put a point of the axis in the middle of every step that strays from the axis.

    Halving a step halves its error at least (on smooth stretches it falls to a quarter), so only
    where it is twice the tolerance or more are the halves looked at again.
    """
    discs, stretch = rows.discs, rows.stretch
    place = np.arange(len(discs), dtype=float)
    step = np.flatnonzero(stretch[1:] == stretch[:-1])
    before, after = step, step + 1
    fine = float(boundary.length.sum()) / MOST_STEPS
    for _ in range(ROUNDS):
        middle = _middles(boundary, discs, before, after)
        error = _errors(discs, before, after, middle, fine)
        split = np.flatnonzero(error > 1.0)
        if not len(split):
            break
        before, after, again = before[split], after[split], error[split] > 2.0
        added = np.arange(len(split)) + len(discs)
        discs = discs.joined(middle.taken(split))
        stretch = np.concatenate((stretch, stretch[before]))
        place = np.concatenate((place, 0.5 * (place[before] + place[after])))
        before, after = before[again], after[again]
        added = added[again]
        before, after = np.concatenate((before, added)), np.concatenate((added, after))
    order = np.argsort(place, kind="stable")
    return Rows(discs.taken(order), stretch[order])


def _middles(boundary: Boundary, discs: Discs, before: Indices, after: Indices) -> Discs:
    """The axis near the middle of each step, its sides sought from both ends of the step."""
    xy = 0.5 * (discs.xy[before] + discs.xy[after])
    near, far = (bisector.touch(boundary, xy, discs.segment[end]) for end in (before, after))
    nearer = _distances(near) <= _distances(far)
    return bisector.settle(boundary, xy, np.where(nearer, near.segment, far.segment))


def _errors(discs: Discs, before: Indices, after: Indices, middle: Discs, fine: float) -> Floats:
    """How wrong a straight step is, in tolerances; nothing for steps too short to matter."""
    chord = discs.xy[after] - discs.xy[before]
    length = np.hypot(chord[:, 0], chord[:, 1])
    away = middle.xy - 0.5 * (discs.xy[before] + discs.xy[after])
    radius = np.minimum(discs.radius[before], discs.radius[after])
    linear = 0.5 * (discs.radius[before] + discs.radius[after])
    error = np.hypot(away[:, 0], away[:, 1]) / POSITION_MM
    error = np.maximum(error, np.abs(middle.radius - linear) / CLEARANCE_MM)
    error = np.maximum(error, (length / np.maximum(LONGEST_STEP * radius, fine)) ** 2)
    return np.where(length > SHORTEST_STEP * radius, error, 0.0)


def _distances(discs: Discs) -> Floats:
    away = discs.xy[:, None, :] - discs.foot
    return np.hypot(away[..., 0], away[..., 1])
