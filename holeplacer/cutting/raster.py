"""Raster: an area as the cells of a square grid that it may touch."""

import math

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon

from holeplacer.geometry.curve import Points

Cells = NDArray[np.bool_]
"""Cells of a grid: rows from the bottom up, columns from left to right."""

_SIMPLER_BY = 0.2
_QUADRANT = 4


def reach_of(polygon: Polygon, cell_mm: float, apart_mm: float = 0.0) -> Points:
    """A ring round all centres of cells that come as near to an area as `apart_mm`.

    Counters count as area: nothing is laid into them, since the torch pierces there. The ring is
    drawn a little wide (at most a fifth of a cell) and with few vertices.

    Args:
        polygon: The area.
        cell_mm: Edge of a cell.
        apart_mm: How near still counts.

    Returns:
        (n, 2) mm, closed: the first vertex is repeated.
    """
    slack = _SIMPLER_BY * cell_mm
    radius = (apart_mm + cell_mm * math.sqrt(0.5)) / math.cos(math.pi / 4 / _QUADRANT) + slack / 2
    filled = Polygon(polygon.exterior).simplify(slack / 2)
    grown = filled.buffer(radius + slack / 2, quad_segs=_QUADRANT)
    return shapely.get_coordinates(shapely.get_exterior_ring(grown).simplify(slack / 2))


def cells_within(ring: Points, cell_mm: float, rows: int, columns: int) -> Cells:
    """Cells whose centre lies inside a ring, by counting the ring's crossings left of it.

    Args:
        ring: (n, 2) closed, mm; the grid's lower left corner is at 0, 0.
        cell_mm: Edge of a cell.
        rows: Of the grid.
        columns: Of the grid.
    """
    y = ring[:, 1] / cell_mm - 0.5
    first = np.ceil(y).astype(np.intp)
    low, high = np.minimum(first[:-1], first[1:]), np.maximum(first[:-1], first[1:])
    low, high = np.clip(low, 0, rows), np.clip(high, 0, rows)
    counts = high - low
    edge = np.repeat(np.arange(len(counts)), counts)
    row = np.arange(counts.sum()) - np.repeat(np.cumsum(counts) - counts, counts) + low[edge]
    x = ring[:, 0] / cell_mm - 0.5
    slope = (x[1:] - x[:-1])[edge] / (y[1:] - y[:-1])[edge]
    at = x[:-1][edge] + slope * (row - y[:-1][edge])
    column = np.clip(np.ceil(at), 0, columns).astype(np.intp)
    crossings = np.zeros((rows, columns + 1), np.int32)
    np.add.at(crossings, (row, column), 1)
    inside: Cells = np.cumsum(crossings, axis=1)[:, :columns] % 2 == 1
    return inside


def turned(points: Points, angle_rad: float) -> Points:
    """Points turned about 0, 0, anticlockwise."""
    cos, sin = math.cos(angle_rad), math.sin(angle_rad)
    moved: Points = points @ np.array([[cos, sin], [-sin, cos]])
    return moved


def hull_of(polygon: Polygon) -> Points:
    """Corners of an area's convex hull, (n, 2) mm: all that its size at any angle depends on."""
    return shapely.get_coordinates(polygon.convex_hull)[:-1]
