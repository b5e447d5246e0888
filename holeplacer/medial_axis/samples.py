"""Samples: points of the boundary close enough together to show its shape to a triangulation."""

from dataclasses import dataclass

import numpy as np

from holeplacer.geometry.curve import Points
from holeplacer.medial_axis.boundary import Boundary, Flags, Floats, Indices

STEP = 0.5
"""Greatest step between samples, in half stroke widths."""
TURN = 0.3
"""Greatest turn of the contour between samples, radians."""
MOST = 10_000
"""Samples allowed for any outline, besides a few for each vertex."""
FINEST = 16
"""Most parts that one step is divided into where a stroke is thinner than the mean."""


@dataclass(frozen=True, eq=False)
class Samples:
    """Points of the boundary, ring by ring.

    Attributes:
        xy: (n, 2) about the boundary's origin.
        segment: (n,) segment each lies on.
        way: (n,) way along its ring.
        following: (n,) next sample on the ring.
    """

    xy: Points
    segment: Indices
    way: Floats
    following: Indices


def sampled(boundary: Boundary, *, every_vertex: bool = False) -> Samples:
    """Samples fit for strokes of each part's mean width.

    Args:
        boundary: The outline.
        every_vertex: Take all vertices, also those between which the contour hardly turns.
    """
    step = STEP * boundary.part_width[boundary.ring_part[boundary.ring]]
    step = np.maximum(step, boundary.length.sum() / (4 * len(step) + MOST))
    parts = np.ceil(boundary.length / step).astype(np.intp)
    kept = _telling(boundary, step) | every_vertex
    kept |= (parts > 1) | (parts[boundary.previous] > 1)
    segment = np.repeat(np.arange(len(parts)), np.where(kept, parts, 0))
    first = np.searchsorted(segment, np.arange(len(parts)))
    share = (np.arange(len(segment)) - first[segment]) / parts[segment]
    return _samples(boundary, segment, share)


def sampled_finer(boundary: Boundary, samples: Samples, width: Floats) -> Samples | None:
    """The same with more samples where they are sparse for the stroke's width, None if nowhere.

    Args:
        boundary: The outline.
        samples: The samples so far.
        width: (n,) stroke width seen at each.
    """
    narrow = np.minimum(width, width[samples.following])
    gap = samples.way[samples.following] - samples.way
    gap = np.where(gap < 0, gap + boundary.ring_length[boundary.ring[samples.segment]], gap)
    sparse = np.flatnonzero(gap > STEP * narrow)
    if not len(sparse):
        return None
    parts = np.ceil(gap[sparse] / (0.5 * STEP * np.maximum(narrow[sparse], 1e-300)))
    parts = np.minimum(parts, FINEST)
    fewer = min(1.0, (2 * len(gap) + MOST) / float(parts.sum()))
    parts = np.maximum(parts * fewer, 2.0).astype(np.intp)
    start = np.repeat(sparse, parts - 1)
    order = np.arange(len(start)) - np.repeat(np.cumsum(parts - 1) - (parts - 1), parts - 1) + 1
    way = samples.way[start] + gap[start] * order / np.repeat(parts, parts - 1)
    segment, share = boundary.at_way(boundary.ring[samples.segment[start]], way)
    own = (samples.way - boundary.way[samples.segment]) / boundary.length[samples.segment]
    segment, share = np.concatenate((samples.segment, segment)), np.concatenate((own, share))
    order = np.lexsort((share, segment))
    return _samples(boundary, segment[order], share[order])


def _telling(boundary: Boundary, step: Floats) -> Flags:
    """Vertices at which the contour has gone on or turned enough since the last such one."""
    before = boundary.step[boundary.previous]
    cross = before[:, 0] * boundary.step[:, 1] - before[:, 1] * boundary.step[:, 0]
    turn = np.abs(np.arctan2(cross, (before * boundary.step).sum(axis=1)))
    telling = np.zeros(len(step), bool)
    telling[boundary.ring_first] = True
    for amount in (np.cumsum(turn) / TURN, boundary.way / step):
        telling[1:] |= np.diff(np.floor(amount)) != 0
    return telling


def _samples(boundary: Boundary, segment: Indices, share: Floats) -> Samples:
    ring = boundary.ring[segment]
    following = np.arange(1, len(segment) + 1)
    ring_start = np.searchsorted(ring, np.arange(len(boundary.ring_first)))
    ring_end = np.append(ring_start[1:], len(segment)) - 1
    following[ring_end] = ring_start
    return Samples(
        xy=boundary.start[segment] + share[:, None] * boundary.step[segment],
        segment=segment,
        way=boundary.way[segment] + share * boundary.length[segment],
        following=following,
    )
