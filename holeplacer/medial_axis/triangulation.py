"""Constrained Delaunay triangles of the metal between samples, and the crossings of the axis."""

from dataclasses import dataclass
from typing import Any

import numpy as np
import pythoncdt
from numpy.typing import NDArray

from holeplacer.geometry.curve import Points
from holeplacer.medial_axis.boundary import Flags, Floats, Indices
from holeplacer.medial_axis.samples import Samples

SUPER_CORNERS = 3


class TouchingRings(Exception):  # noqa: N818 (says what is the matter; handled inside the package)
    """Two rings share a point or cross, so no triangulation keeps them apart."""


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
    points: Any = np.ascontiguousarray(samples.xy)
    edges: Any = np.column_stack((np.arange(len(samples.xy)), samples.following)).astype(np.uint32)
    try:
        cdt.insert_vertices(points)
        cdt.insert_edges(edges)
    except RuntimeError as error:
        raise TouchingRings(str(error)) from error
    every = cdt.triangles_array()
    # the first three vertices span the triangle that the library begins with
    corners = every["vertices"].astype(np.intp) - SUPER_CORNERS
    neighbour = np.where(
        every["neighbors"] == pythoncdt.NO_NEIGHBOR, -1, every["neighbors"].astype(np.int64)
    ).astype(np.intp)
    metal = _metal(corners, neighbour, samples.following)
    number = np.cumsum(metal) - 1
    corners, neighbour = corners[metal], neighbour[metal]
    neighbour = np.where(metal[neighbour], number[neighbour], -1)
    centre = _circumcentres(samples.xy[corners])
    return Triangulation(corners, centre, _crossings(samples, corners, centre, neighbour))


def _metal(corners: Indices, neighbour: Indices, following: Indices) -> Flags:
    """Which triangles lie inside: left of a side along a ring, or next to such a one.

    Raises:
        TouchingRings: The rings do not part inside from outside.
    """
    start, end = corners, np.roll(corners, -1, axis=1)
    real = (start >= 0) & (end >= 0)
    along = real & (following[start] == end)
    against = real & (following[end] == start)
    side = np.zeros(len(corners), dtype=np.int8)
    side[against.any(axis=1) | (corners < 0).any(axis=1)] = -1
    if (side[along.any(axis=1)] != 0).any():
        raise TouchingRings("a triangle lies on both sides of the contour")
    side[along.any(axis=1)] = 1
    open_side = ~(along | against) & (neighbour >= 0)
    unknown = np.flatnonzero(side == 0)
    while len(unknown):
        beyond = np.where(open_side[unknown], side[neighbour[unknown]], 0)
        if (beyond.max(axis=1) - beyond.min(axis=1) > 1).any():
            raise TouchingRings("a triangle lies on both sides of the contour")
        side[unknown] = beyond.sum(axis=1).clip(-1, 1)
        left = unknown[side[unknown] == 0]
        if len(left) == len(unknown):
            raise TouchingRings("triangles without contour")
        unknown = left
    return side > 0


def stroke_width(samples: Samples, crossings: Crossings) -> Floats:
    """(n,) length of the shortest crossing at each sample, infinite where there is none."""
    apart = samples.xy[crossings.left] - samples.xy[crossings.right]
    length = np.hypot(apart[:, 0], apart[:, 1])
    width = np.full(len(samples.xy), np.inf)
    np.minimum.at(width, crossings.left, length)
    np.minimum.at(width, crossings.right, length)
    return width


def _circumcentres(corner: NDArray[np.float64]) -> Points:
    b, c = corner[:, 1] - corner[:, 0], corner[:, 2] - corner[:, 0]
    cross = 2.0 * (b[:, 0] * c[:, 1] - b[:, 1] * c[:, 0])
    bb, cc = (b**2).sum(axis=1), (c**2).sum(axis=1)
    flat = np.abs(cross) <= 1e-12 * np.maximum(bb, cc)
    cross = np.where(flat, np.inf, cross)
    away = np.column_stack((c[:, 1] * bb - b[:, 1] * cc, b[:, 0] * cc - c[:, 0] * bb))
    centre = corner[:, 0] + away / cross[:, None]
    return np.where(flat[:, None], corner.mean(axis=1), centre)


def _crossings(samples: Samples, corners: Indices, centre: Points, neighbour: Indices) -> Crossings:
    """Inner edges; side k of a triangle runs from corner k to k + 1 and has neighbour k."""
    start, end = corners, np.roll(corners, -1, axis=1)
    inner = (neighbour > np.arange(len(corners))[:, None]) & (samples.following[start] != end)
    before, side = np.nonzero(inner)
    after = neighbour[before, side]
    right, left = start[before, side], end[before, side]
    xy = samples.xy
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
    seeds: Points = middle + nearest[:, None] * normal
    return seeds
