"""Stock fit: whether a section lies within the usable part of a sheet at some rotation.

Usable is the sheet less its margin on all sides, and no more than the table's torch travels. Only
the convex hull counts. Width and height of the hull over the angle are, between two critical
angles (an edge of the hull level or upright), those of one pair of corners each: a cosine. Where
both are within the sheet is therefore bounded by critical angles and by crossings in closed form,
so that looking at these is exact (rotating calipers).
"""

import math
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon

from holeplacer.geometry.curve import Points
from holeplacer.plan.sections import SectionsChoice, Turning
from holeplacer.sheet.stock import Stock

_SLACK_MM = 1e-6
_SAME_RAD = 1e-12


@dataclass(frozen=True)
class Usable:
    """The usable part of one size of sheet, and how it may be used.

    Attributes:
        width_mm, height_mm: Its size.
        turning: How a section may be turned in it.
    """

    width_mm: float
    height_mm: float
    turning: Turning


def usable_sizes(choice: SectionsChoice) -> tuple[Usable, ...]:
    """Usable parts of all sheets at hand, each once; a sheet with none left over is left out.

    A sheet may lie either way on the table, which matters where the table is the smaller.
    """
    found: dict[Usable, None] = {}
    for stock in choice.stock:
        if stock.count == 0:
            continue
        for width, height in _on_table(stock, choice):
            if width > 0 and height > 0:
                found[Usable(width, height, choice.turning)] = None
    return tuple(found)


def angles(hull: Points, usable: Usable) -> NDArray[np.float64]:
    """Angles, among those that bound what is feasible, at which a hull fits, rising.

    Args:
        hull: (n, 2) corners of a convex hull, n >= 1, in any order.
        usable: Where it is to lie.

    Returns:
        Radians by which to turn the section anticlockwise; empty where it fits at none.
    """
    if usable.turning == "none":
        tried = np.array([0.0])
    elif usable.turning == "quarter":
        tried = np.array([0.0, math.pi / 2])
    else:
        tried = np.union1d([0.0, math.pi / 2], _critical(hull, usable))
    width, height = extent(hull, tried)
    fits = (width <= usable.width_mm + _SLACK_MM) & (height <= usable.height_mm + _SLACK_MM)
    return tried[fits]


def fits(hull: Points, sizes: tuple[Usable, ...]) -> bool:
    """Whether a hull fits one of the sizes at some angle."""
    return any(_may_fit(hull, size) and len(angles(hull, size)) > 0 for size in sizes)


def hull_of(polygon: Polygon) -> Points:
    """(n, 2) corners of a polygon's convex hull."""
    return np.ascontiguousarray(shapely.get_coordinates(shapely.convex_hull(polygon)))


def corners(points: Points) -> Points:
    """(n, 2) corners of the convex hull of points."""
    return np.ascontiguousarray(
        shapely.get_coordinates(shapely.convex_hull(shapely.multipoints(points)))
    )


def _on_table(stock: Stock, choice: SectionsChoice) -> list[tuple[float, float]]:
    width = stock.width_mm - 2 * choice.margin_mm
    height = stock.height_mm - 2 * choice.margin_mm
    across = math.inf if choice.travel_width_mm is None else choice.travel_width_mm
    along = math.inf if choice.travel_height_mm is None else choice.travel_height_mm
    return [
        (min(width, across), min(height, along)),
        (min(width, along), min(height, across)),
    ]


def _may_fit(hull: Points, usable: Usable) -> bool:
    """False only where the hull is longer than the diagonal."""
    low, high = hull.min(axis=0), hull.max(axis=0)
    most = math.hypot(usable.width_mm, usable.height_mm) + _SLACK_MM
    return bool(max(high - low) <= most)


def extent(hull: Points, angle: NDArray[np.float64]) -> tuple[NDArray[np.float64], ...]:
    """Width and height of the hull turned by each angle."""
    cosine, sine = np.cos(angle), np.sin(angle)
    across = np.outer(hull[:, 0], cosine) - np.outer(hull[:, 1], sine)
    up = np.outer(hull[:, 0], sine) + np.outer(hull[:, 1], cosine)
    return np.ptp(across, axis=0), np.ptp(up, axis=0)


def _critical(hull: Points, usable: Usable) -> NDArray[np.float64]:
    """Critical angles and, between them, where width or height is just that of the sheet."""
    edges = np.roll(hull, -1, axis=0) - hull
    edges = edges[np.hypot(edges[:, 0], edges[:, 1]) > 0]
    level = -np.arctan2(edges[:, 1], edges[:, 0]) % (math.pi / 2)
    bounds = np.unique(np.concatenate([level, level + math.pi / 2, [0.0, math.pi]]))
    low, high = bounds[:-1], bounds[1:]
    middle = (low + high) / 2
    cosine, sine = np.cos(middle), np.sin(middle)
    across = np.outer(cosine, hull[:, 0]) - np.outer(sine, hull[:, 1])
    up = np.outer(sine, hull[:, 0]) + np.outer(cosine, hull[:, 1])
    return np.concatenate(
        [
            bounds,
            _crossings(_diagonal(hull, across), usable.width_mm, 0.0, low, high),
            _crossings(_diagonal(hull, up), usable.height_mm, math.pi / 2, low, high),
        ]
    )


def _diagonal(hull: Points, along: NDArray[np.float64]) -> Points:
    return np.asarray(hull[along.argmax(axis=1)] - hull[along.argmin(axis=1)], float)


def _crossings(
    diagonal: Points,
    size_mm: float,
    quarter: float,
    low: NDArray[np.float64],
    high: NDArray[np.float64],
) -> NDArray[np.float64]:
    """Angles in each interval at which its diagonal's extent is just the size.

    A diagonal of length d and direction p turned by a has the extent d cos(a + p) across, and
    d cos(a + p - pi/2) up.
    """
    length = np.hypot(diagonal[:, 0], diagonal[:, 1])
    direction = np.arctan2(diagonal[:, 1], diagonal[:, 0]) - quarter
    long = length > size_mm
    opening = np.arccos(np.divide(size_mm, length, out=np.ones_like(length), where=long))
    found = []
    for sign in (-1.0, 1.0):
        at = (sign * opening - direction) % (2 * math.pi)
        inside = long & (at >= low - _SAME_RAD) & (at <= high + _SAME_RAD)
        found.append(at[inside])
    return np.concatenate(found)
