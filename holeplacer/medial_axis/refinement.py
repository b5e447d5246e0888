"""Refinement: steps along the axis split until straight ones follow it."""

import numpy as np

from holeplacer.medial_axis import bisector
from holeplacer.medial_axis.bisector import Discs
from holeplacer.medial_axis.boundary import Boundary, Flags, Floats, Indices
from holeplacer.medial_axis.rows import Rows

POSITION_MM = 0.01
"""How far a straight step may stray from the axis."""
CLEARANCE_MM = 0.005
"""How far the clearance, taken as linear along a step, may be off at the step's middle."""
SMALL_MM = 5.0
"""Half mean stroke width below which both tolerances are less, in proportion."""
LONGEST_STEP = 2.0
"""Longest step, in disc radii."""
SHORTEST_STEP = 1e-3
"""Steps shorter than this, in disc radii, are never split."""
MOST_STEPS = 20_000
"""Steps no longer than the perimeter by this are never split for their length alone."""
ROUNDS = 12


def refined(boundary: Boundary, rows: Rows) -> Rows:
    """Put points of the axis in the middle of steps until every step's middle is near enough."""
    discs, stretch = rows.discs, rows.stretch
    place = np.arange(len(discs), dtype=float)
    before = np.flatnonzero(stretch[1:] == stretch[:-1])
    after = before + 1
    for _ in range(ROUNDS):
        middle = _middles(boundary, discs, before, after)
        split = np.flatnonzero(_coarse(boundary, discs, before, after, middle))
        if not len(split):
            break
        before, after, middle = before[split], after[split], middle.taken(split)
        added = np.arange(len(split)) + len(discs)
        discs = discs.joined(bisector.settle(boundary, middle.xy, middle.segment))
        stretch = np.concatenate((stretch, stretch[before]))
        place = np.concatenate((place, 0.5 * (place[before] + place[after])))
        before, after = np.concatenate((before, added)), np.concatenate((added, after))
    order = np.argsort(place, kind="stable")
    return Rows(discs.taken(order), stretch[order])


def _middles(boundary: Boundary, discs: Discs, before: Indices, after: Indices) -> Discs:
    """The middles of steps as they are, touching the nearer of what the two ends touch."""
    xy = 0.5 * (discs.xy[before] + discs.xy[after])
    segment = discs.segment[before]
    for side in range(segment.shape[1]):
        other = discs.segment[after, side]
        _, near = boundary.feet(segment[:, side], xy)
        _, far = boundary.feet(other, xy)
        segment[:, side] = np.where(far < near, other, segment[:, side])
    return bisector.touch(boundary, xy, segment)


def _coarse(
    boundary: Boundary, discs: Discs, before: Indices, after: Indices, middle: Discs
) -> Flags:
    """Whether steps stray from the axis; never those too short to matter.

    How far a step strays is told by how much the axis turns along it.
    """
    chord = discs.xy[after] - discs.xy[before]
    length = np.hypot(chord[:, 0], chord[:, 1])
    radius = np.minimum(discs.radius[before], discs.radius[after])
    linear = 0.5 * (discs.radius[before] + discs.radius[after])
    fine = float(boundary.length.sum()) / MOST_STEPS
    share = np.minimum(
        1.0, boundary.part_width[boundary.part_of(discs.segment[before, 0])] / SMALL_MM
    )
    coarse: Flags = np.abs(middle.radius - linear) > CLEARANCE_MM * share
    coarse |= length * _turns(discs, before, after) / 8.0 > POSITION_MM * share
    coarse |= length > np.maximum(LONGEST_STEP * radius, fine)
    return coarse & (length > SHORTEST_STEP * radius)


def _turns(discs: Discs, before: Indices, after: Indices) -> Floats:
    """Angle by which the axis turns along steps, at most."""
    across = discs.foot[:, 0] - discs.foot[:, 1]
    size = np.hypot(across[:, 0], across[:, 1])
    unit = across / np.maximum(size, 1e-300)[:, None]
    apart = unit[after] - unit[before]
    return np.hypot(apart[:, 0], apart[:, 1])
