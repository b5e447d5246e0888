"""Outline: all contours of the sign, true size, closed, y up, mm."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely
from numpy.typing import ArrayLike, NDArray
from shapely.geometry import MultiPolygon, Polygon
from shapely.geometry.base import BaseGeometry
from shapely.geometry.polygon import orient

from holeplacer.geometry.curve import Points

_MOST_REMEMBERED = 10_000


@dataclass(frozen=True, eq=False)
class Piece:
    """One connected area of metal: outer contour (anticlockwise) and counters (clockwise)."""

    polygon: Polygon

    @property
    def area_mm2(self) -> float:
        """Area of metal."""
        return float(self.polygon.area)

    @cached_property
    def centre_of_gravity_mm(self) -> tuple[float, float]:
        """Centre of the metal's area."""
        centre = self.polygon.centroid
        return centre.x, centre.y

    @property
    def counters(self) -> int:
        """Number of enclosed openings."""
        return len(self.polygon.interiors)

    @property
    def bounds_mm(self) -> tuple[float, float, float, float]:
        """Left, bottom, right, top."""
        return self.polygon.bounds


@dataclass(frozen=True)
class EdgePoint:
    """How a place lies to the cut edges.

    Attributes:
        distance_mm: To the nearest cut edge, negative outside the metal.
        nearest_mm: The point of the cut edges that is nearest.
        piece: Index of the piece it lies in, -1 outside the metal.
    """

    distance_mm: float
    nearest_mm: tuple[float, float]
    piece: int


@dataclass(frozen=True, eq=False)
class Outline:
    """All pieces of the sign. Compared and cached by identity.

    Attributes:
        pieces: Disjoint, in order of their left edge (then bottom).
    """

    pieces: tuple[Piece, ...]

    @staticmethod
    def from_geometry(region: BaseGeometry) -> "Outline":
        """Outline of a valid polygon, multipolygon or collection; only areas count."""
        polygons = [
            orient(part)
            for part in shapely.get_parts(region)
            if isinstance(part, Polygon) and not part.is_empty
        ]
        polygons.sort(key=lambda polygon: polygon.bounds[:2])
        return Outline(tuple(Piece(polygon) for polygon in polygons))

    @cached_property
    def region(self) -> MultiPolygon:
        """All metal as one prepared geometry."""
        region = MultiPolygon([piece.polygon for piece in self.pieces])
        shapely.prepare(region)
        return region

    @cached_property
    def boundary(self) -> BaseGeometry:
        """All cut edges as one prepared geometry."""
        boundary = self.region.boundary
        shapely.prepare(boundary)
        return boundary

    @property
    def area_mm2(self) -> float:
        """Area of metal."""
        return float(self.region.area)

    @property
    def perimeter_mm(self) -> float:
        """Length of all cut edges."""
        return float(self.region.length)

    @property
    def bounds_mm(self) -> tuple[float, float, float, float]:
        """Left, bottom, right, top."""
        return self.region.bounds

    @property
    def vertex_count(self) -> int:
        """Vertices of all contours, closing ones not counted."""
        return sum(
            len(ring.coords) - 1
            for piece in self.pieces
            for ring in (piece.polygon.exterior, *piece.polygon.interiors)
        )

    def edge_distance(self, xy: ArrayLike) -> NDArray[np.float64]:
        """Distance from each point to the nearest cut edge, negative outside the metal.

        Args:
            xy: (n, 2) or (2,) points, mm.

        Returns:
            (n,) mm; a hole centred there has the ligament `distance - diameter / 2`.
        """
        at = np.atleast_2d(np.asarray(xy, float))
        line = shapely.shortest_line(self.boundary, shapely.points(at))
        distance = shapely.length(line)
        inside = shapely.contains_xy(self.region, at[:, 0], at[:, 1])
        return np.where(inside, distance, -distance)

    def around(self, places: Sequence[tuple[float, float]]) -> tuple["EdgePoint", ...]:
        """Edge distance, nearest edge point and piece of each place, such as every hole's centre.

        Places asked for again are remembered, so that while one hole is dragged the others cost
        nothing.
        """
        known = self._known
        missing = [place for place in dict.fromkeys(places) if place not in known]
        if len(known) + len(missing) > _MOST_REMEMBERED:
            known.clear()
            missing = list(dict.fromkeys(places))
        if missing:
            at = np.array(missing)
            nearest = self.nearest_edge(at)
            piece = self.piece_at(at)
            apart = np.hypot(*(nearest - at).T)
            distance = np.where(piece >= 0, apart, -apart).tolist()
            for place, *figures in zip(
                missing, distance, nearest.tolist(), piece.tolist(), strict=True
            ):
                known[place] = EdgePoint(figures[0], (figures[1][0], figures[1][1]), figures[2])
        return tuple(known[place] for place in places)

    @cached_property
    def _known(self) -> dict[tuple[float, float], "EdgePoint"]:
        return {}

    def nearest_edge(self, xy: ArrayLike) -> Points:
        """Nearest point of the cut edges to each point, (n, 2) mm."""
        at = shapely.points(np.atleast_2d(np.asarray(xy, float)))
        lines = shapely.shortest_line(self.boundary, at)
        return np.ascontiguousarray(shapely.get_coordinates(lines)[::2])

    def piece_at(self, xy: ArrayLike) -> NDArray[np.intp]:
        """Index of the piece each point lies in, -1 outside all metal."""
        at = np.atleast_2d(np.asarray(xy, float))
        found = np.full(len(at), -1, dtype=np.intp)
        for index, piece in enumerate(self.pieces):
            shapely.prepare(piece.polygon)
            found[shapely.contains_xy(piece.polygon, at[:, 0], at[:, 1])] = index
        return found
