"""Points of the exact axis: equally far from two sides of a stroke, or from three.

A side is the stretch of ring near a segment; the distance to it is that to its locally nearest
segment, and its gradient the unit vector away from the foot. Newton steps on the differences of
these distances end on the axis of the polygon itself, wherever the samples lie.
"""

from dataclasses import dataclass

import numpy as np

from holeplacer.geometry.curve import Points
from holeplacer.medial_axis.boundary import Boundary, Flags, Floats, Indices

STEPS = 8
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
    """

    xy: Points
    radius: Floats
    segment: Indices
    foot: Floats
    mismatch: Floats

    def __len__(self) -> int:
        """Number of discs."""
        return len(self.xy)

    def taken(self, index: Indices) -> "Discs":
        """Those discs, in that order."""
        return Discs(
            self.xy[index],
            self.radius[index],
            self.segment[index],
            self.foot[index],
            self.mismatch[index],
        )

    def turned(self, which: Flags) -> "Discs":
        """Left and right changed about on some of the discs."""
        return Discs(
            self.xy,
            self.radius,
            np.where(which[:, None], self.segment[:, ::-1], self.segment),
            np.where(which[:, None, None], self.foot[:, ::-1], self.foot),
            self.mismatch,
        )

    def replaced(self, index: Indices, by: "Discs") -> "Discs":
        """These discs, with some put in place of others."""
        new = self.taken(np.arange(len(self)))
        new.xy[index], new.radius[index], new.segment[index] = by.xy, by.radius, by.segment
        new.foot[index], new.mismatch[index] = by.foot, by.mismatch
        return new

    def joined(self, other: "Discs") -> "Discs":
        """These discs, then the others."""
        return Discs(
            np.concatenate((self.xy, other.xy)),
            np.concatenate((self.radius, other.radius)),
            np.concatenate((self.segment, other.segment)),
            np.concatenate((self.foot, other.foot)),
            np.concatenate((self.mismatch, other.mismatch)),
        )


def settle(boundary: Boundary, xy: Points, segment: Indices) -> Discs:
    """Move points onto the axis of the two or three sides given for each.

    Args:
        boundary: The outline.
        xy: (k, 2) points near the axis.
        segment: (k, 2) or (k, 3) a segment on each side.
    """
    xy, segment = xy.copy(), segment.copy()
    active = np.arange(len(xy))
    for _ in range(STEPS):
        here = touch(boundary, xy[active], segment[active])
        segment[active] = here.segment
        step = _newton_step(here)
        xy[active] -= step
        size = np.hypot(step[:, 0], step[:, 1])
        active = active[size > 1e-10 + 1e-9 * here.radius]
        if not len(active):
            break
    return touch(boundary, xy, segment)


def touch(boundary: Boundary, xy: Points, segment: Indices) -> Discs:
    """Feet of the points on the sides given for each, without moving the points."""
    sides = segment.shape[1]
    nearest = np.column_stack([boundary.nearest_by(segment[:, k], xy) for k in range(sides)])
    both = [boundary.feet(nearest[:, k], xy) for k in range(sides)]
    distance = np.column_stack([away for _, away in both])
    return Discs(
        xy=xy,
        radius=distance.min(axis=1),
        segment=nearest,
        foot=np.stack([foot for foot, _ in both], axis=1),
        mismatch=np.ptp(distance, axis=1),
    )


def _newton_step(discs: Discs) -> Points:
    away = discs.xy[:, None, :] - discs.foot
    distance = np.hypot(away[..., 0], away[..., 1])
    unit = away / np.maximum(distance, 1e-300)[..., None]
    excess = distance[:, 1:] - distance[:, :1]
    gradient = unit[:, 1:] - unit[:, :1]
    step = _along(excess, gradient) if excess.shape[1] == 1 else _solved(excess, gradient)
    size = np.hypot(step[:, 0], step[:, 1])
    longest = LARGEST_STEP * distance.max(axis=1)
    return step * np.minimum(1.0, longest / np.maximum(size, 1e-300))[:, None]


def _along(excess: Floats, gradient: Floats) -> Points:
    """Shortest step to equal distances from two sides."""
    slope = gradient[:, 0]
    square = (slope**2).sum(axis=1)
    return slope * (excess[:, 0] / np.where(square < 1e-12, np.inf, square))[:, None]


def _solved(excess: Floats, gradient: Floats) -> Points:
    """The step to equal distances from three sides."""
    (ax, ay), (bx, by) = gradient[:, 0].T, gradient[:, 1].T
    determinant = ax * by - ay * bx
    determinant = np.where(np.abs(determinant) < 1e-9, np.inf, determinant)
    first, second = excess.T
    return (
        np.column_stack((first * by - second * ay, second * ax - first * bx))
        / (determinant[:, None])
    )
