"""Triangles: one piece's metal cut into triangles, which tile it exactly."""

from typing import Any

import numpy as np
import pythoncdt
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon

from holeplacer.geometry.curve import Points

Floats = NDArray[np.float64]
Indices = NDArray[np.intp]


def triangles(polygon: Polygon, inner: Points | None = None) -> tuple[Points, Indices]:
    """Constrained Delaunay triangles of a valid polygon.

    Args:
        polygon: The metal.
        inner: (k, 2) more corners inside it.

    Returns:
        (n, 2) corners, first those of the polygon, ring by ring, then the inner ones; (m, 3) the
        triangles, anticlockwise.
    """
    rings = [shapely.get_coordinates(r)[:-1] for r in (polygon.exterior, *polygon.interiors)]
    origin = np.array(polygon.bounds).reshape(2, 2).mean(axis=0)
    xy = np.concatenate([*rings, np.empty((0, 2)) if inner is None else inner])
    xy, _, where = np.unique(xy, axis=0, return_index=True, return_inverse=True)
    sizes = np.array([len(ring) for ring in rings])
    starts = np.cumsum(sizes) - sizes
    ahead = np.concatenate(
        [start + (np.arange(size) + 1) % size for start, size in zip(starts, sizes, strict=True)]
    )
    where = where.reshape(-1)
    edges = np.column_stack([where[: len(ahead)], where[ahead]])
    cdt = pythoncdt.Triangulation(
        pythoncdt.VertexInsertionOrder.AUTO, pythoncdt.IntersectingConstraintEdges.TRY_RESOLVE, 1e-9
    )
    points: Any = np.ascontiguousarray(xy - origin)
    fixed: Any = np.ascontiguousarray(edges[edges[:, 0] != edges[:, 1]]).astype(np.uint32)
    cdt.insert_vertices(points)
    cdt.insert_edges(fixed)
    cdt.erase_outer_triangles_and_holes()
    found = cdt.vertices_array()
    corners = cdt.triangles_array()["vertices"].astype(np.intp)
    at = np.column_stack([found["x"], found["y"]]) if found.dtype.names else np.asarray(found)
    return at + origin, corners


def areas(xy: Points, corners: Indices) -> Floats:
    """(m,) areas of triangles, mm2."""
    a, b, c = xy[corners[:, 0]], xy[corners[:, 1]], xy[corners[:, 2]]
    one, two = b - a, c - a
    area: Floats = 0.5 * (one[:, 0] * two[:, 1] - one[:, 1] * two[:, 0])
    return area


def divided(corners_xy: Floats, longest_mm: float) -> Floats:
    """Triangles halved across their longest side until no side is longer than asked.

    Args:
        corners_xy: (m, 3, 2).
        longest_mm: Longest side left.
    """
    done: list[Floats] = []
    left = corners_xy
    while len(left):
        side = np.roll(left, -1, axis=1) - left
        length = np.hypot(side[..., 0], side[..., 1])
        longest = length.argmax(axis=1)
        long = length.max(axis=1) > longest_mm
        done.append(left[~long])
        left, longest = left[long], longest[long]
        row = np.arange(len(left))
        a, b, c = left[row, longest], left[row, (longest + 1) % 3], left[row, (longest + 2) % 3]
        middle = 0.5 * (a + b)
        left = np.concatenate([np.stack([a, middle, c], axis=1), np.stack([middle, b, c], axis=1)])
    return np.concatenate(done) if done else corners_xy
