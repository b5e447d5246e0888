"""Refinement: steps along the axis split until straight ones follow it."""

import numpy as np

from holeplacer.medial_axis import bisector
from holeplacer.medial_axis.bisector import Discs
from holeplacer.medial_axis.boundary import Boundary, Flags, Floats, Indices
from holeplacer.medial_axis.rows import Rows

POSITION_MM = 0.003
"""How far a straight step may stray from the axis."""
CLEARANCE_MM = 0.003
"""How far the clearance, taken as linear along a step, may be off."""
LONGEST_STEP = 0.5
"""Longest step, in disc radii."""
ROUNDS = 12


def refined(boundary: Boundary, rows: Rows) -> Rows:
    """Split steps at their middle, moved onto the axis, wherever a straight step is not enough."""
    discs, stretch = rows.discs, rows.stretch
    place = np.arange(len(discs), dtype=float)
    step = np.flatnonzero(stretch[1:] == stretch[:-1])
    before, after = step, step + 1
    for _ in range(ROUNDS):
        middle = _middles(boundary, discs, before, after)
        split = np.flatnonzero(_too_coarse(discs, before, after, middle))
        if not len(split):
            break
        before, after = before[split], after[split]
        added = np.arange(len(split)) + len(discs)
        discs = discs.joined(middle.taken(split))
        stretch = np.concatenate((stretch, stretch[before]))
        place = np.concatenate((place, 0.5 * (place[before] + place[after])))
        before, after = np.concatenate((before, added)), np.concatenate((added, after))
    order = np.argsort(place, kind="stable")
    return Rows(discs.taken(order), stretch[order])


def _middles(boundary: Boundary, discs: Discs, before: Indices, after: Indices) -> Discs:
    """The axis near the middle of each step, its sides sought from both ends of the step."""
    xy = 0.5 * (discs.xy[before] + discs.xy[after])
    near, far = (bisector.touch(boundary, xy, discs.segment[end]) for end in (before, after))
    nearer = _distances(near) <= _distances(far)
    return bisector.settle(boundary, xy, np.where(nearer, near.segment, far.segment))


def _too_coarse(discs: Discs, before: Indices, after: Indices, middle: Discs) -> Flags:
    chord = discs.xy[after] - discs.xy[before]
    length = np.hypot(chord[:, 0], chord[:, 1])
    away = middle.xy - 0.5 * (discs.xy[before] + discs.xy[after])
    radius = np.minimum(discs.radius[before], discs.radius[after])
    linear = 0.5 * (discs.radius[before] + discs.radius[after])
    coarse = length > LONGEST_STEP * radius
    coarse |= np.hypot(away[:, 0], away[:, 1]) > POSITION_MM
    coarse |= np.abs(middle.radius - linear) > CLEARANCE_MM
    return coarse & (length > 1e-3 * radius)


def _distances(discs: Discs) -> Floats:
    away = discs.xy[:, None, :] - discs.foot
    return np.hypot(away[..., 0], away[..., 1])
