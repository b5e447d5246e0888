"""Samples of the boundary and the constrained Delaunay triangles of the metal between them."""

from dataclasses import dataclass

import numpy as np
import pythoncdt
from numpy.typing import NDArray

from holeplacer.geometry.curve import Points
from holeplacer.medial_axis.boundary import Boundary, Floats, Indices

SAMPLE_STEP = 0.3
"""Greatest step between samples, in half mean stroke widths of the piece."""


class TouchingRings(Exception):  # noqa: N818 (says what is the matter; handled inside the package)
    """Two rings share a point or cross, so no triangulation keeps them apart."""


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


@dataclass(frozen=True, eq=False)
class Crossings:
    """Inner edges of the triangulation; the axis crosses each once, from triangle to triangle.

    Attributes:
        before, after: (e,) the two triangles.
        left, right: (e,) the two samples, as seen going from `before` to `after`.
        seed: (e, 2) a point near the axis, as far from one sample as from the other.
    """

    before: Indices
    after: Indices
    left: Indices
    right: Indices
    seed: Points


@dataclass(frozen=True, eq=False)
class Triangulation:
    """Triangles of the metal.

    Attributes:
        corners: (m, 3) samples, anticlockwise.
        centre: (m, 2) circumcentres.
        crossings: Their inner edges.
    """

    corners: Indices
    centre: Points
    crossings: Crossings


def sample(boundary: Boundary) -> Samples:
    """Vertices, and points between them where they lie further apart than `SAMPLE_STEP` asks."""
    width = boundary.piece_width[boundary.ring_piece[boundary.ring]]
    parts = np.ceil(boundary.length / (SAMPLE_STEP * width))
    budget = 4 * len(parts) + 20_000
    while parts.sum() > budget:
        parts = np.ceil(parts * (0.9 * (budget - len(parts)) / parts.sum()))
    parts = parts.astype(np.intp)
    segment = np.repeat(np.arange(len(parts)), parts)
    first = np.cumsum(parts) - parts
    share = (np.arange(len(segment)) - first[segment]) / parts[segment]
    following = np.arange(1, len(segment) + 1)
    ring_start = first[boundary.ring_first]
    ring_end = np.concatenate((ring_start[1:], [len(segment)])) - 1
    following[ring_end] = ring_start
    return Samples(
        xy=boundary.start[segment] + share[:, None] * boundary.step[segment],
        segment=segment,
        way=boundary.way[segment] + share * boundary.length[segment],
        following=following,
    )


def triangulate(samples: Samples) -> Triangulation:
    """Constrained Delaunay triangles inside the rings.

    Raises:
        TouchingRings: Two rings share a point or cross.
    """
    cdt = pythoncdt.Triangulation(
        pythoncdt.VertexInsertionOrder.AUTO,
        pythoncdt.IntersectingConstraintEdges.NOT_ALLOWED,
        0.0,
    )
    edges = np.column_stack((np.arange(len(samples.xy)), samples.following))
    try:
        cdt.insert_vertices(np.ascontiguousarray(samples.xy))
        cdt.insert_edges(np.ascontiguousarray(edges, dtype=np.uint32))
    except RuntimeError as error:
        raise TouchingRings(str(error)) from error
    cdt.erase_outer_triangles_and_holes()
    triangles = cdt.triangles_array()
    corners = triangles["vertices"].astype(np.intp)
    centre = _circumcentres(samples.xy[corners])
    return Triangulation(corners, centre, _crossings(samples.xy, corners, centre, triangles))


def _circumcentres(corner: NDArray[np.float64]) -> Points:
    b, c = corner[:, 1] - corner[:, 0], corner[:, 2] - corner[:, 0]
    cross = 2.0 * (b[:, 0] * c[:, 1] - b[:, 1] * c[:, 0])
    bb, cc = (b**2).sum(axis=1), (c**2).sum(axis=1)
    flat = np.abs(cross) <= 1e-12 * np.maximum(bb, cc)
    cross = np.where(flat, np.inf, cross)
    away = np.column_stack((c[:, 1] * bb - b[:, 1] * cc, b[:, 0] * cc - c[:, 0] * bb))
    centre = corner[:, 0] + away / cross[:, None]
    return np.where(flat[:, None], corner.mean(axis=1), centre)


def _crossings(
    xy: Points, corners: Indices, centre: Points, triangles: NDArray[np.void]
) -> Crossings:
    """Inner edges; side k of a triangle runs from corner k to k + 1 and has neighbour k."""
    neighbour = triangles["neighbors"].astype(np.int64)
    own = np.arange(len(corners))[:, None]
    inner = (neighbour != pythoncdt.NO_NEIGHBOR) & (neighbour > own)
    before, side = np.nonzero(inner)
    after = neighbour[before, side].astype(np.intp)
    right, left = corners[before, side], corners[before, (side + 1) % 3]
    return Crossings(
        before=before,
        after=after,
        left=left,
        right=right,
        seed=_seeds(xy[left], xy[right], centre[before], centre[after]),
    )


def _seeds(left: Points, right: Points, before: Points, after: Points) -> Points:
    """The point of each dual edge nearest to the chord it is dual to.

    The dual edge lies on the chord's bisector, between the circumcentres of the two triangles.
    """
    chord = left - right
    middle = 0.5 * (left + right)
    normal = np.column_stack((-chord[:, 1], chord[:, 0]))
    square = (chord**2).sum(axis=1)
    reach = [((centre - middle) * normal).sum(axis=1) / square for centre in (before, after)]
    nearest = np.clip(0.0, np.minimum(*reach), np.maximum(*reach))
    return middle + nearest[:, None] * normal
