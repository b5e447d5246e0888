"""Contours: the closed lines that the torch follows, by kind, each in its direction.

Outer contours run clockwise, holes and counters anticlockwise, so that the metal that stays is on
the right of the travel, where a plasma cut is squarer (cut charts of the trade; normal swirl).
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import IntEnum

import numpy as np
import shapely
from shapely.geometry.polygon import orient

from holeplacer.geometry.curve import Points

_STEPS = 96
"""Points that stand for a round hole wherever only its region matters."""


class Kind(IntEnum):
    """What a contour bounds, in the order of cutting."""

    HOLE = 0
    COUNTER = 1
    OUTER = 2


@dataclass(frozen=True)
class SeamEdge:
    """A seam as it lies on a part's edge.

    Attributes:
        number: The seam's number, the same on both parts.
        start, end: Its ends in mm, in the same order on both parts.
    """

    number: int
    start: tuple[float, float]
    end: tuple[float, float]


@dataclass(frozen=True)
class RoundHole:
    """A hole of a part.

    Attributes:
        x_mm, y_mm: Centre.
        diameter_mm: Its diameter.
        number: The hole's number.
    """

    x_mm: float
    y_mm: float
    diameter_mm: float
    number: int


@dataclass(frozen=True, eq=False)
class Part:
    """One piece of metal as it lies on the sheet.

    Attributes:
        label: What is written on it.
        polygon: Its metal, holes not taken out.
        holes: Its holes.
        seams: Edges to be welded.
    """

    label: str
    polygon: shapely.Polygon
    holes: tuple[RoundHole, ...] = ()
    seams: tuple[SeamEdge, ...] = ()


@dataclass(frozen=True, eq=False)
class Contour:
    """A closed line to cut.

    Attributes:
        kind: What it bounds.
        part: Index of its part.
        xy: (n, 2) points in the direction of travel, the first not repeated.
        hole: The hole, if it is one.
    """

    kind: Kind
    part: int
    xy: Points
    hole: RoundHole | None = None

    @property
    def region(self) -> shapely.Polygon:
        """What lies within."""
        return shapely.Polygon(self.xy)


def contours_of(parts: Sequence[Part], least_hole_mm: float | None) -> tuple[Contour, ...]:
    """Every contour of the parts, part by part: holes, counters, outer.

    Args:
        parts: On one sheet.
        least_hole_mm: Holes under this diameter are marked, not cut; None: all of them.
    """
    found: list[Contour] = []
    for index, part in enumerate(parts):
        found += [
            Contour(Kind.HOLE, index, round_ring(hole), hole)
            for hole in part.holes
            if is_cut(hole, least_hole_mm)
        ]
        polygon = orient(part.polygon, -1.0)
        found += [Contour(Kind.COUNTER, index, points_of(ring)) for ring in polygon.interiors]
        found.append(Contour(Kind.OUTER, index, points_of(polygon.exterior)))
    return tuple(found)


def is_cut(hole: RoundHole, least_hole_mm: float | None) -> bool:
    """Whether the process cuts a hole; it marks the centre of one that is to be drilled."""
    return least_hole_mm is not None and hole.diameter_mm >= least_hole_mm - 1e-9


def round_ring(hole: RoundHole, start_rad: float = 0.0) -> Points:
    """A hole's edge as points, anticlockwise."""
    angle = start_rad + np.linspace(0.0, 2 * math.pi, _STEPS, endpoint=False)
    circle = np.column_stack([np.cos(angle), np.sin(angle)]) * hole.diameter_mm / 2
    return np.ascontiguousarray(circle + np.array([hole.x_mm, hole.y_mm]))


def points_of(ring: shapely.LinearRing) -> Points:
    """A ring's points, the first not repeated."""
    return np.ascontiguousarray(shapely.get_coordinates(ring)[:-1])


def signed_area_mm2(xy: Points) -> float:
    """Area within a closed line, negative if it runs clockwise."""
    x, y = (xy - xy[0]).T
    return float(x @ np.roll(y, -1) - y @ np.roll(x, -1)) / 2
