"""Uniting: the areas of all elements made one region, and what that mended.

Areas that overlap are united; nothing is snapped to a grid, so a vertex that was drawn keeps its
coordinates bit for bit. Crumbs, pieces and counters narrower than the tolerance, are dropped.
"""

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from holeplacer.artwork.crossings import refuse_tangle
from holeplacer.errors import ArtworkError
from holeplacer.geometry.curve import Points

Place = tuple[float, float]

MOST_OVERLAPS = 50_000
_MOST_PLACES = 100
_BATCH = 32


@dataclass(frozen=True, eq=False)
class United:
    """One region and what was done to make it.

    Attributes:
        polygons: Disjoint pieces of metal; they may touch in single points.
        overlaps: A place in each overlap of two areas that was united.
        crumbs: A place of each piece or counter that was dropped as too narrow.
        touching: Single points in which two pieces meet, or a piece meets itself.
    """

    polygons: tuple[Polygon, ...]
    overlaps: tuple[Place, ...]
    crumbs: tuple[Place, ...]
    touching: tuple[Place, ...]


def unite(regions: list[BaseGeometry], tolerance: float) -> United:
    """Union of valid regions without crumbs.

    Args:
        regions: Polygons or multipolygons.
        tolerance: Pieces and counters whose mean width is less are dropped.

    Raises:
        ArtworkError: They cross each other thousandfold.
    """
    parts, owner = shapely.get_parts(np.array(regions, dtype=object), return_index=True)
    wide = shapely.area(parts) > 0
    parts, owner = parts[wide], owner[wide]
    one, other = _overlapping(parts, owner)
    if len(one):
        involved = np.unique(np.concatenate([one, other]))
        refuse_tangle([ring for part in parts[involved] for ring in rings_of(part)])
        united = shapely.union_all(parts[involved])
        pieces = np.concatenate([shapely.get_parts(united), np.delete(parts, involved)])
    else:
        pieces = parts
    polygons, crumbs = _without_crumbs(pieces, tolerance)
    return United(polygons, _centres(parts, one, other), crumbs, _touching(polygons))


def rings_of(polygon: Polygon) -> list[Points]:
    """Vertices of a polygon's contours, outer one first, closing vertices left out."""
    return [shapely.get_coordinates(ring)[:-1] for ring in (polygon.exterior, *polygon.interiors)]


def _overlapping(
    parts: NDArray[np.object_], owner: NDArray[np.intp]
) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
    """Pairs of areas that meet, each pair once; those of one region meet in points at most."""
    tree = shapely.STRtree(parts)
    pairs, count = [np.zeros((2, 0), dtype=np.intp)], 0
    for begin in range(0, len(parts), _BATCH):
        one, other = tree.query(parts[begin : begin + _BATCH], predicate="intersects")
        one += begin
        once = (one < other) & (owner[one] != owner[other])
        pairs.append(np.stack([one[once], other[once]]))
        count += int(once.sum())
        if count > MOST_OVERLAPS:
            raise ArtworkError(
                f"more than {MOST_OVERLAPS} of its shapes overlap",
                remedy="give the outline of the lettering, without hatching or texture",
            )
    one, other = np.concatenate(pairs, axis=1)
    return one, other


def _centres(
    parts: NDArray[np.object_], one: NDArray[np.intp], other: NDArray[np.intp]
) -> tuple[Place, ...]:
    """Middle of what two areas have in common, roughly, for those that share area."""
    one, other = one[:_MOST_PLACES], other[:_MOST_PLACES]
    shared = shapely.relate_pattern(parts[one], parts[other], "T********")
    first, second = shapely.bounds(parts[one[shared]]), shapely.bounds(parts[other[shared]])
    low = np.maximum(first[:, :2], second[:, :2])
    high = np.minimum(first[:, 2:], second[:, 2:])
    return tuple((x, y) for x, y in ((low + high) / 2).tolist())


def _without_crumbs(
    parts: NDArray[np.object_], tolerance: float
) -> tuple[tuple[Polygon, ...], tuple[Place, ...]]:
    kept: list[Polygon] = []
    crumbs: list[Place] = []
    for part in parts.tolist():
        if _is_narrow(part, tolerance):
            crumbs.append(_vertex(part))
            continue
        narrow = [_is_narrow(Polygon(ring), tolerance) for ring in part.interiors]
        if any(narrow):
            pairs = list(zip(part.interiors, narrow, strict=True))
            crumbs += [_vertex(ring) for ring, is_narrow in pairs if is_narrow]
            part = Polygon(part.exterior, [ring for ring, is_narrow in pairs if not is_narrow])
        kept.append(part)
    return tuple(kept), tuple(crumbs)


def _is_narrow(area: Polygon, tolerance: float) -> bool:
    return bool(2 * area.area < tolerance * area.length)


def _vertex(shape: BaseGeometry) -> Place:
    x, y = shapely.get_coordinates(shape)[0].tolist()
    return x, y


def _touching(polygons: tuple[Polygon, ...]) -> tuple[Place, ...]:
    """Vertices that occur twice: where contours meet in a point."""
    rings = [ring for polygon in polygons for ring in rings_of(polygon)]
    if not rings:
        return ()
    vertices = np.ascontiguousarray(np.concatenate(rings) + 0.0)
    places, count = np.unique(vertices.view(np.complex128).ravel(), return_counts=True)
    return tuple((place.real, place.imag) for place in places[count > 1].tolist())
