"""Kinks: axis points at which a disc passes from one stretch of the contour to another.

There it touches three stretches at once. Where a strand hung there, it has been dropped; where a
corner of a counter only looks in, none ever did.
"""

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from holeplacer.geometry.curve import Points
from holeplacer.medial_axis import bisector
from holeplacer.medial_axis.bisector import Discs
from holeplacer.medial_axis.boundary import Boundary, Indices
from holeplacer.medial_axis.clearance import measured, on_axis
from holeplacer.outline.outline import Outline

EXCHANGES = 4
"""How often another segment is tried as the third side."""
LONGEST_WAY = 2.0
"""Way from a step's start to its kink and on to its end, in lengths of the step."""
SAME = 1e-6
"""A kink no further than this from an end of its step, in disc radii, is that end."""


@dataclass(frozen=True, eq=False)
class Kinks:
    """Kinks found on steps of the axis.

    Attributes:
        step: (k,) which of the steps asked about.
        arriving: (k,) discs that touch what the axis comes between, left then right.
        leaving: (k,) the same discs, touching what it leads on between.
    """

    step: Indices
    arriving: Discs
    leaving: Discs


def kinks(
    outline: Outline,
    boundary: Boundary,
    pair: Discs,
    third: Indices,
    before: Points,
    after: Points,
) -> Kinks:
    """Where steps turn: next to discs of two sides, those that touch a third one too.

    Args:
        outline: The drawn outline.
        boundary: Its segments.
        pair: (n,) a disc near the middle of each step.
        third: (n,) a segment that may be the third side.
        before: (n, 2) where each step starts.
        after: (n, 2) where it ends.
    """
    met, missing = bisector.with_third(pair), np.arange(len(pair))
    for _ in range(EXCHANGES):
        sides = np.column_stack((pair.segment[missing], third))
        tried = bisector.settle(boundary, met.xy[missing], sides)
        tried = measured(outline, boundary, tried)
        met = met.replaced(missing, tried)
        missing = missing[~on_axis(boundary, tried)]
        if not len(missing):
            break
        third = np.asarray(boundary.tree.nearest(shapely.points(met.xy[missing])), np.intp)
    here, there = _length(met.xy - before), _length(after - met.xy)
    between = here + there <= LONGEST_WAY * _length(after - before)
    between &= np.minimum(here, there) > SAME * met.radius
    between[missing] = False
    step = np.flatnonzero(between)
    met, before, after = met.taken(step), before[step], after[step]
    arriving = _facing(boundary, met, before).turned(np.ones(len(step), bool))
    return Kinks(step, arriving, _facing(boundary, met, after))


def _facing(boundary: Boundary, met: Discs, end: Points) -> Discs:
    """Discs of three sides as of those two between which an end lies, left then right of it."""
    angle = [_angle(foot - met.xy, end - met.xy) for foot in np.moveaxis(met.foot, 1, 0)]
    around = np.column_stack(angle)
    chosen = np.column_stack((around.argmin(axis=1), around.argmax(axis=1)))
    segment = np.take_along_axis(met.segment, chosen, axis=1)
    return bisector.touch(boundary, met.xy, segment)


def _angle(vector: Points, reference: Points) -> NDArray[np.float64]:
    """From the reference anticlockwise, 0 to 2 pi."""
    cross = reference[:, 0] * vector[:, 1] - reference[:, 1] * vector[:, 0]
    angle: NDArray[np.float64] = np.arctan2(cross, (reference * vector).sum(axis=1))
    return angle % (2.0 * np.pi)


def _length(vector: Points) -> NDArray[np.float64]:
    length: NDArray[np.float64] = np.hypot(vector[:, 0], vector[:, 1])
    return length
