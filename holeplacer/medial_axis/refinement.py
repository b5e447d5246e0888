"""Refinement: steps along the axis split until straight ones follow it."""

from dataclasses import dataclass

import numpy as np
import shapely

from holeplacer.medial_axis import bisector
from holeplacer.medial_axis.bisector import Discs
from holeplacer.medial_axis.boundary import Boundary, Flags, Floats, Indices
from holeplacer.medial_axis.clearance import measured, on_axis
from holeplacer.medial_axis.kinks import kinks
from holeplacer.medial_axis.rows import Rows
from holeplacer.outline.outline import Outline

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
LEAST_LEAP = 0.1
"""Points of the contour nearer to each other than this, in disc radii, are no leap apart."""
MOST_STEPS = 20_000
"""Steps no longer than the perimeter by this are never split for their length alone."""
ROUNDS = 12


@dataclass(frozen=True, eq=False)
class _Steps:
    """Straight steps from disc to disc.

    Attributes:
        before, after: (k,) discs that each leads from and to.
        middle: What their middles touch: of what their ends do, the nearer.
        third: (k,) a segment that the farther touches.
        leaps: (k,) whether that is a leap away, so that the axis has a kink there.
    """

    before: Indices
    after: Indices
    middle: Discs
    third: Indices
    leaps: Flags

    def __len__(self) -> int:
        """Number of steps."""
        return len(self.before)

    def taken(self, index: Indices) -> "_Steps":
        """Those steps, in that order."""
        return _Steps(
            self.before[index],
            self.after[index],
            self.middle.taken(index),
            self.third[index],
            self.leaps[index],
        )


def refined(outline: Outline, boundary: Boundary, rows: Rows) -> Rows:
    """Put points of the axis in the middle of steps until every step's middle is near enough.

    Where the axis has a kink, that is put in instead: twice, with the sides before it and those
    after it.

    Args:
        outline: The drawn outline.
        boundary: Its segments.
        rows: Discs of strands.
    """
    discs, stretch = rows.discs, rows.stretch
    place = np.arange(len(discs), dtype=float)
    before = np.flatnonzero(stretch[1:] == stretch[:-1])
    after = before + 1
    for _ in range(ROUNDS):
        steps, near, far = _split(outline, boundary, discs, before, after)
        if not len(steps):
            break
        kinked = np.flatnonzero(bisector.differ(near.segment, far.segment))
        first = np.arange(len(steps)) + len(discs)
        second = first.copy()
        second[kinked] = np.arange(len(kinked)) + len(discs) + len(first)
        discs = discs.joined(near).joined(far.taken(kinked))
        before, after = steps.before, steps.after
        middle = 0.5 * (place[before] + place[after])
        place = np.concatenate((place, middle, 0.5 * (middle + place[after])[kinked]))
        stretch = np.concatenate((stretch, stretch[before], stretch[before[kinked]]))
        before, after = np.concatenate((before, second)), np.concatenate((first, after))
    order = np.argsort(place, kind="stable")
    return Rows(discs.taken(order), stretch[order])


def _split(
    outline: Outline, boundary: Boundary, discs: Discs, before: Indices, after: Indices
) -> tuple[_Steps, Discs, Discs]:
    """The steps to be split, and the disc that parts each, as seen from before and from after.

    Args:
        outline: The drawn outline.
        boundary: Its segments.
        discs: All so far.
        before: (n,) disc that each step leads from.
        after: (n,) disc that it leads to.
    """
    steps = _steps(boundary, discs, before, after)
    coarse = _coarse(boundary, discs, steps)
    asked = np.flatnonzero(coarse | steps.leaps)
    steps, coarse = steps.taken(asked), coarse[asked]
    near = bisector.settle(boundary, steps.middle.xy, steps.middle.segment)
    near = measured(outline, boundary, near)
    third, wrong = steps.third.copy(), ~on_axis(boundary, near)
    third[wrong] = boundary.tree.nearest(shapely.points(near.xy[wrong]))
    asked = np.flatnonzero(wrong | steps.leaps)
    ends = discs.xy[steps.before[asked]], discs.xy[steps.after[asked]]
    found = kinks(outline, boundary, near.taken(asked), third[asked], *ends)
    kinked = asked[found.step]
    coarse[kinked] = True
    far = near.replaced(kinked, found.leaving)
    near = near.replaced(kinked, found.arriving)
    split = np.flatnonzero(coarse)
    return steps.taken(split), near.taken(split), far.taken(split)


def _steps(boundary: Boundary, discs: Discs, before: Indices, after: Indices) -> _Steps:
    """Steps as they are, and what their middles touch."""
    xy = 0.5 * (discs.xy[before] + discs.xy[after])
    middle = bisector.touch(boundary, xy, discs.segment[before])
    change = np.flatnonzero(bisector.differ(discs.segment[before], discs.segment[after]))
    one = middle.taken(change)
    other = bisector.touch(boundary, xy[change], discs.segment[after[change]])
    farther = _length(other.foot - other.xy[:, None]) >= _length(one.foot - one.xy[:, None])
    leap = _length(one.foot - other.foot)
    side = np.argmax(leap, axis=1)
    number = np.arange(len(change))
    third = middle.segment[:, 0].copy()
    third[change] = np.where(farther, other.segment, one.segment)[number, side]
    leaps = np.zeros(len(xy), bool)
    leaps[change] = leap[number, side] > LEAST_LEAP * one.radius
    turned = np.flatnonzero(~farther.all(axis=1))
    nearer = np.where(farther, one.segment, other.segment)[turned]
    nearest = bisector.touch(boundary, one.xy[turned], nearer)
    middle = middle.replaced(change[turned], nearest)
    return _Steps(before, after, middle, third, leaps)


def _coarse(boundary: Boundary, discs: Discs, steps: _Steps) -> Flags:
    """Whether steps stray from the axis; never those too short to matter.

    How far is told by the axis' directions at the step's ends: an arc strays by a quarter of its
    slant there, a kink by at most half of the greater one.
    """
    before, after = steps.before, steps.after
    length = _length(discs.xy[after] - discs.xy[before])
    radius = np.minimum(discs.radius[before], discs.radius[after])
    linear = 0.5 * (discs.radius[before] + discs.radius[after])
    fine = float(boundary.length.sum()) / MOST_STEPS
    share = np.minimum(
        1.0, boundary.part_width[boundary.part_of(discs.segment[before, 0])] / SMALL_MM
    )
    coarse: Flags = np.abs(steps.middle.radius - linear) > CLEARANCE_MM * share
    kinked = bisector.differ(discs.segment[before], discs.segment[after])
    stray = length * _slant(discs, before, after) * np.where(kinked, 0.5, 0.25)
    coarse |= stray > POSITION_MM * share
    coarse |= length > np.maximum(LONGEST_STEP * radius, fine)
    return coarse & (length > SHORTEST_STEP * radius)


def _slant(discs: Discs, before: Indices, after: Indices) -> Floats:
    """Greater angle of those by which the axis leaves a step at its two ends, as its sine."""
    chord = discs.xy[after] - discs.xy[before]
    along = chord / np.maximum(_length(chord), 1e-300)[:, None]
    slant = np.zeros(len(before))
    for end in (before, after):
        across = discs.foot[end, 0] - discs.foot[end, 1]
        sine = np.abs(across[:, 0] * along[:, 0] + across[:, 1] * along[:, 1])
        sine /= np.maximum(_length(across), 1e-300)
        slant = np.maximum(slant, sine)
    return slant


def _length(vector: Floats) -> Floats:
    length: Floats = np.hypot(vector[..., 0], vector[..., 1])
    return length
