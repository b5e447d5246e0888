"""Rings: closed contours flattened, and the table that says which vertex came from which curve.

Where one curve ends and the next begins, both rows of the table get the same coordinates bit for
bit, so that the ring has one vertex there and tracing finds either curve.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from holeplacer.artwork.drawing import DrawnContour
from holeplacer.geometry.curve import Points
from holeplacer.geometry.flatten import flatten_all

_JOINT_SHARE = 0.25


@dataclass(frozen=True, eq=False)
class Rings:
    """Flattened contours with the rows they are made of.

    Attributes:
        xy: (n, 2) every point that flattening made, joints made equal.
        curve: (n,) number of the segment each came from, counted through all contours.
        t: (n,) its parameter there.
        rings: Vertices of each contour, the first not repeated; under three where it has no area.
        bridges: (m, 2, 2) straight steps put in where segments did not quite meet.
    """

    xy: Points
    curve: NDArray[np.intp]
    t: NDArray[np.float64]
    rings: tuple[Points, ...]
    bridges: NDArray[np.float64]


def flattened_rings(contours: Sequence[DrawnContour], tolerance: float) -> Rings:
    """Flatten contours within a tolerance, in the unit of their coordinates.

    Ends that a quarter of the tolerance or less separates become one vertex; wider gaps, which
    chaining left between two curves, are bridged by a straight step.
    """
    flat = flatten_all([part.curve for contour in contours for part in contour.segments], tolerance)
    counts = np.array([len(contour.segments) for contour in contours], dtype=np.intp)
    segment_first, segment_last = flat.first[:-1], flat.first[1:] - 1
    begin = np.concatenate([[0], np.cumsum(counts)])
    following = np.arange(1, len(segment_first) + 1)
    following[begin[1:] - 1] = begin[:-1]
    gap = flat.xy[segment_last] - flat.xy[segment_first[following]]
    meets = np.hypot(gap[:, 0], gap[:, 1]) <= _JOINT_SHARE * tolerance
    xy = flat.xy
    wraps = np.zeros(len(segment_first), dtype=bool)
    wraps[begin[1:] - 1] = True
    inner, outer = meets & ~wraps, meets & wraps
    xy[segment_first[following[inner]]] = xy[segment_last[inner]]
    xy[segment_last[outer]] = xy[segment_first[following[outer]]]
    keep = np.ones(len(xy), dtype=bool)
    keep[segment_last[meets]] = False
    owner = np.repeat(np.arange(len(contours)), np.diff(flat.first[begin]))
    kept, owner = _distinct(xy[keep], owner[keep])
    bounds = np.searchsorted(owner, np.arange(len(contours) + 1)).tolist()
    rings = tuple(kept[start:end] for start, end in pairwise(bounds))
    bridges = np.stack([xy[segment_last], xy[segment_first[following]]], axis=1)[~meets]
    return Rings(xy, flat.curve, flat.t, rings, bridges)


def _distinct(xy: Points, owner: NDArray[np.intp]) -> tuple[Points, NDArray[np.intp]]:
    """Rings, one after the other, without vertices equal to the one before, all round."""
    if len(xy) == 0:
        return xy, owner
    before = np.roll(xy, 1, axis=0)
    first = np.flatnonzero(np.append(True, owner[1:] != owner[:-1]))
    before[first] = xy[np.append(first[1:], len(xy)) - 1]
    differs = np.any(xy != before, axis=1)
    return xy[differs], owner[differs]
