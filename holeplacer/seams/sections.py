"""Sections: the parts into which seams divide the outline, with the holes and seams of each."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon
from shapely.geometry.polygon import orient

from holeplacer.outline.outline import Outline
from holeplacer.plan.hole import Hole
from holeplacer.plan.seam import Seam

_BEYOND_MM = 0.01
"""A cut reaches this far past both ends, so that rounding leaves no bridge; what lies there is
air."""

_TOUCHING_MM = 1e-6
_LEAST_MM2 = 1e-6


@dataclass(frozen=True, eq=False)
class Section:
    """A part cut from one sheet.

    Attributes:
        number: Counted from 1, in order of the left edge, then of the bottom.
        polygon: Its metal in sign coordinates, half a root gap taken away along every seam.
        piece: Index of the outline's piece it is of.
        holes: Numbers of the holes in it.
        seams: Indices of the seams along its edge (or, where one parts nothing, within it).
        area_mm2: Area of the polygon.
    """

    number: int
    polygon: Polygon
    piece: int
    holes: tuple[int, ...]
    seams: tuple[int, ...]
    area_mm2: float


def sections(
    outline: Outline,
    seams: Sequence[Seam],
    holes: Sequence[Hole] = (),
    *,
    root_gap_mm: float = 0.0,
) -> tuple[Section, ...]:
    """The outline divided along its seams.

    Args:
        outline: The cut outline.
        seams: Where to cut; one that does not reach from edge to edge parts nothing.
        holes: Holes to be told of by section.
        root_gap_mm: Left open along every seam; 0 makes the sections' union the outline.
    """
    parts = [
        (index, part)
        for index, piece in enumerate(outline.pieces)
        for part in divided(piece.polygon, seams)
    ]
    parts.sort(key=lambda item: item[1].bounds[:2])
    polygons = np.array([part for _, part in parts], dtype=object)
    at = shapely.points(np.array([(hole.x_mm, hole.y_mm) for hole in holes]).reshape(-1, 2))
    of_hole = _first_holding(polygons, np.asarray(at, object))
    along = [_on_seam(seam, polygons) for seam in seams]
    found = []
    for place, (piece, part) in enumerate(parts):
        own = tuple(index for index, touched in enumerate(along) if touched[place])
        polygon = _less_root_gap(part, [seams[index] for index in own], root_gap_mm)
        numbers = tuple(
            hole.number for hole, of in zip(holes, of_hole.tolist(), strict=True) if of == place
        )
        found.append(Section(place + 1, polygon, piece, numbers, own, float(polygon.area)))
    return tuple(found)


def divided(polygon: Polygon, seams: Sequence[Seam]) -> list[Polygon]:
    """A polygon cut along the seams that reach it; their edges meet exactly."""
    lines = _lines(seams, _BEYOND_MM)
    shapely.prepare(polygon)
    lines = lines[shapely.intersects(polygon, lines)]
    if len(lines) == 0:
        return [polygon]
    noded = shapely.union_all([polygon.boundary, *lines])
    faces = shapely.get_parts(shapely.polygonize(shapely.get_parts(noded)))
    inside = shapely.contains(polygon, shapely.point_on_surface(faces))
    metal = faces[inside & (shapely.area(faces) > _LEAST_MM2)]
    return [orient(face) for face in metal]


def weld_lengths(outline: Outline, seams: Sequence[Seam]) -> NDArray[np.float64]:
    """Length of each seam within metal, mm."""
    if not seams:
        return np.empty(0)
    within = shapely.intersection(_lines(seams, 0.0), outline.region)
    return np.asarray(shapely.length(within), float)


def _lines(seams: Sequence[Seam], beyond_mm: float) -> NDArray[np.object_]:
    rows = [(s.x1_mm, s.y1_mm, s.x2_mm, s.y2_mm) for s in seams]
    ends = np.array(rows, float).reshape(-1, 2, 2)
    way = ends[:, 1] - ends[:, 0]
    length = np.hypot(way[:, 0], way[:, 1])[:, None]
    reach = beyond_mm * np.divide(way, length, out=np.zeros_like(way), where=length > 0)
    return np.asarray(
        shapely.linestrings(np.stack([ends[:, 0] - reach, ends[:, 1] + reach], axis=1)), object
    )


def _first_holding(polygons: NDArray[np.object_], points: NDArray[np.object_]) -> NDArray[np.intp]:
    """Index of the first polygon that covers each point, -1 where none does."""
    found = np.full(len(points), -1, dtype=np.intp)
    for index in range(len(polygons) - 1, -1, -1):
        found[shapely.covers(polygons[index], points)] = index
    return found


def _on_seam(seam: Seam, polygons: NDArray[np.object_]) -> NDArray[np.bool_]:
    """Which polygons a seam runs along or into, told at points between its ends."""
    share = np.linspace(0.1, 0.9, 9)[:, None]
    start, end = np.array([seam.x1_mm, seam.y1_mm]), np.array([seam.x2_mm, seam.y2_mm])
    points = shapely.points(start + share * (end - start))
    near = np.asarray(shapely.distance(polygons[:, None], points[None, :])) < _TOUCHING_MM
    return np.asarray(near.any(axis=1), bool)


def _less_root_gap(polygon: Polygon, seams: Sequence[Seam], gap_mm: float) -> Polygon:
    """A section without half the root gap along its seams; what that severs is too small to be."""
    if gap_mm <= 0.0 or not seams:
        return polygon
    strips = shapely.buffer(_lines(seams, gap_mm), gap_mm / 2, cap_style="flat")
    rest = shapely.get_parts(shapely.difference(polygon, shapely.union_all(strips)))
    areas = [part for part in rest if isinstance(part, Polygon)]
    return orient(max(areas, key=lambda part: part.area)) if areas else polygon
