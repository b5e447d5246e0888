"""Points of the exact axis: equally far from two sides of a stroke, or from three.

A side is the stretch of ring near a segment; the distance to it is that to its locally nearest
segment, and its gradient the unit vector away from the foot. Newton steps on the differences of
these distances end on the axis of the polygon itself, wherever the samples lie.
"""

from dataclasses import dataclass

import numpy as np

from holeplacer.geometry.curve import Points
from holeplacer.medial_axis.boundary import Boundary, Flags, Floats, Indices

WALKS = 8
"""How often the segments touched are sought anew."""
STEPS = 8
"""Newton steps between."""
STILL = 1e-8
"""Newton step, in disc radii, after which a point rests; the error left is far smaller."""
LARGEST_STEP = 0.5
"""Longest Newton step, in disc radii."""


@dataclass(frozen=True, eq=False)
class Discs:
    """Discs that touch two sides or three.

    Attributes:
        xy: (k, 2) centres about the boundary's origin.
        radius: (k,) least distance to the sides.
        segment: (k, sides) segments touched.
        foot: (k, sides, 2) points touched.
        mismatch: (k,) largest difference between the distances to the sides.
        clearance: (k,) distance from the centre to the drawn outline; nan while not measured.
    """

    xy: Points
    radius: Floats
    segment: Indices
    foot: Floats
    mismatch: Floats
    clearance: Floats

    def __len__(self) -> int:
        """Number of discs."""
        return len(self.xy)

    def taken(self, index: Indices) -> "Discs":
        """Those discs, in that order."""
        return Discs(
            self.xy.take(index, axis=0),
            self.radius.take(index, axis=0),
            self.segment.take(index, axis=0),
            self.foot.take(index, axis=0),
            self.mismatch.take(index, axis=0),
            self.clearance.take(index, axis=0),
        )

    def turned(self, which: Flags) -> "Discs":
        """Left and right changed about on some of the discs."""
        return Discs(
            self.xy,
            self.radius,
            np.where(which[:, None], self.segment[:, ::-1], self.segment),
            np.where(which[:, None, None], self.foot[:, ::-1], self.foot),
            self.mismatch,
            self.clearance,
        )

    def replaced(self, index: Indices, by: "Discs") -> "Discs":
        """These discs, with some put in place of others."""
        new = self.taken(np.arange(len(self)))
        new.xy[index], new.radius[index], new.segment[index] = by.xy, by.radius, by.segment
        new.foot[index], new.mismatch[index] = by.foot, by.mismatch
        new.clearance[index] = by.clearance
        return new

    def joined(self, other: "Discs") -> "Discs":
        """These discs, then the others."""
        return Discs(
            np.concatenate((self.xy, other.xy)),
            np.concatenate((self.radius, other.radius)),
            np.concatenate((self.segment, other.segment)),
            np.concatenate((self.foot, other.foot)),
            np.concatenate((self.mismatch, other.mismatch)),
            np.concatenate((self.clearance, other.clearance)),
        )


def settle(boundary: Boundary, xy: Points, segment: Indices) -> Discs:
    """Move points onto the axis of the two or three sides given for each.

    Args:
        boundary: The outline.
        xy: (k, 2) points near the axis.
        segment: (k, 2) or (k, 3) a segment on each side.
    """
    xy, segment = xy.copy(), _walked(boundary, xy, segment)
    active = np.arange(len(xy))
    for _ in range(WALKS):
        xy[active] = _centred(boundary, xy[active], segment[active])
        walked = _walked(boundary, xy[active], segment[active])
        changed = np.flatnonzero(differ(walked, segment[active]))
        active = active[changed]
        segment[active] = walked[changed]
        if not len(active):
            break
    return _discs(boundary, xy, segment)


def touch(boundary: Boundary, xy: Points, segment: Indices) -> Discs:
    """Feet of the points on the sides given for each, without moving the points."""
    return _discs(boundary, xy, _walked(boundary, xy, segment))


def with_third(pair: Discs) -> Discs:
    """Discs of two sides as discs of three, the second named twice."""
    twice = np.array([0, 1, 1])
    return Discs(
        pair.xy,
        pair.radius,
        pair.segment[:, twice],
        pair.foot[:, twice],
        pair.mismatch,
        pair.clearance,
    )


def differ(one: Indices, other: Indices) -> Flags:
    """(k,) whether any of the sides (k, 2 or 3) is another."""
    any_side: Flags = np.logical_or.reduce([a != b for a, b in zip(one.T, other.T, strict=True)])
    return any_side


def _walked(boundary: Boundary, xy: Points, segment: Indices) -> Indices:
    sides = segment.shape[1]
    return np.column_stack([boundary.nearest_by(segment[:, k], xy) for k in range(sides)])


def _discs(boundary: Boundary, xy: Points, segment: Indices) -> Discs:
    both = [boundary.feet(side, xy) for side in segment.T]
    distance = np.stack([away for _, away in both])
    return Discs(
        xy=xy,
        radius=distance.min(axis=0),
        segment=segment,
        foot=np.stack([foot for foot, _ in both], axis=1),
        mismatch=np.ptp(distance, axis=0),
        clearance=np.full(len(xy), np.nan),
    )


def _centred(boundary: Boundary, xy: Points, segment: Indices) -> Points:
    """Newton steps to equal distances from the very segments given."""
    xy = xy.copy()
    active = np.arange(len(xy))
    for _ in range(STEPS):
        step, radius = _newton_step(boundary, xy[active], segment[active])
        xy[active] -= step
        size = np.hypot(step[:, 0], step[:, 1])
        active = active[size > STILL * radius]
        if not len(active):
            break
    return xy


def _newton_step(boundary: Boundary, xy: Points, segment: Indices) -> tuple[Points, Floats]:
    both = [boundary.feet(side, xy) for side in segment.T]
    unit = [(xy - foot) / np.maximum(away, 1e-300)[:, None] for foot, away in both]
    first = both[0][1]
    excess = [away - first for _, away in both[1:]]
    gradient = [direction - unit[0] for direction in unit[1:]]
    if len(excess) == 1:
        step = _along(excess[0], gradient[0])
    else:
        step = _solved(excess, gradient)
    size = np.hypot(step[:, 0], step[:, 1])
    longest = LARGEST_STEP * first
    return step * np.minimum(1.0, longest / np.maximum(size, 1e-300))[:, None], first


def _along(excess: Floats, gradient: Points) -> Points:
    """Shortest step to equal distances from two sides."""
    square = gradient[:, 0] ** 2 + gradient[:, 1] ** 2
    return gradient * (excess / np.where(square < 1e-12, np.inf, square))[:, None]


def _solved(excess: list[Floats], gradient: list[Points]) -> Points:
    """The step to equal distances from three sides."""
    (ax, ay), (bx, by) = gradient[0].T, gradient[1].T
    determinant = ax * by - ay * bx
    determinant = np.where(np.abs(determinant) < 1e-9, np.inf, determinant)
    first, second = excess
    return np.column_stack(
        ((first * by - second * ay) / determinant, (second * ax - first * bx) / determinant)
    )
