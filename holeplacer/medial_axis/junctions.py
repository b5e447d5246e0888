"""Junctions: discs that touch three sides, where three chains meet."""

import numpy as np
import shapely

from holeplacer.geometry.curve import Points
from holeplacer.medial_axis import bisector
from holeplacer.medial_axis.bisector import Discs
from holeplacer.medial_axis.boundary import Boundary, Flags, Indices
from holeplacer.medial_axis.clearance import measured, on_axis
from holeplacer.outline.outline import Outline

EXCHANGES = 6
"""How often another segment is tried as the third side."""
HALVINGS = 12
"""How often the way back to a disc known to be right is halved."""


def junction_discs(
    outline: Outline, boundary: Boundary, guess: Points, segment: Indices, approach: Discs
) -> Discs:
    """The disc of each junction.

    Most settle on the three sides of their triangle. Where facets of a flattened arc make that
    fail, the junction is where the axis of two sides, followed from the disc of a neighbouring
    crossing, meets a third side, or as far along it as the guess.

    Args:
        outline: The drawn outline.
        boundary: Its segments.
        guess: (k, 2) circumcentres.
        segment: (k, 3) a segment on each side.
        approach: (k,) disc of a crossing next to each junction.
    """
    found = bisector.settle(boundary, guess, segment)
    first_wrong = wrong = np.flatnonzero(~_right(outline, boundary, found))
    for _ in range(EXCHANGES):
        if not len(wrong):
            break
        found = found.replaced(
            wrong, _approached(outline, boundary, found.xy[wrong], approach.taken(wrong))
        )
        wrong = wrong[~_right(outline, boundary, found.taken(wrong))]
    halved = _halved(outline, boundary, found.xy[wrong], approach.taken(wrong))
    found = found.replaced(wrong, halved)
    # what they touch, on each of the three sides
    touched = bisector.touch(boundary, found.xy[first_wrong], segment[first_wrong])
    return found.replaced(first_wrong, touched)


def _right(outline: Outline, boundary: Boundary, discs: Discs) -> Flags:
    return on_axis(boundary, measured(outline, boundary, discs))


def _approached(outline: Outline, boundary: Boundary, guess: Points, approach: Discs) -> Discs:
    """The axis of the approach's two sides next to each guess, or where a third side ends it."""
    pair = bisector.settle(boundary, guess, approach.segment)
    third = boundary.tree.nearest(shapely.points(pair.xy))
    meeting = bisector.settle(boundary, pair.xy, np.column_stack((pair.segment, third)))
    free = _right(outline, boundary, pair)
    return meeting.replaced(
        np.flatnonzero(free), bisector.with_third(pair.taken(np.flatnonzero(free)))
    )


def _halved(outline: Outline, boundary: Boundary, guess: Points, approach: Discs) -> Discs:
    """The furthest disc right for the approach's two sides, on the way from it to the guess."""
    low, high = np.zeros(len(guess)), np.ones(len(guess))
    best = approach
    for _ in range(HALVINGS if len(guess) else 0):
        share = 0.5 * (low + high)
        xy = approach.xy + share[:, None] * (guess - approach.xy)
        tried = bisector.settle(boundary, xy, best.segment)
        right = _right(outline, boundary, tried)
        best = best.replaced(np.flatnonzero(right), tried.taken(np.flatnonzero(right)))
        low, high = np.where(right, share, low), np.where(right, high, share)
    return bisector.with_third(best)
