"""Nesting: the area that contours enclose where the format knows no fill.

A contour inside an odd number of others is a counter, any other is metal: common practice, no
source. Contours of neighbouring glyphs cross where script letters join; each is filled with its
own counters, and the areas are united afterwards, so that no crossing turns metal into a hole.
"""

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import MultiPolygon, Polygon
from shapely.geometry.base import BaseGeometry

from holeplacer.artwork.drawing import FillRule
from holeplacer.artwork.fill import containing, fill
from holeplacer.geometry.curve import Points

_FEW = 8
_MOST_KINDS = 4
"""Contours of the same bounds but different course that are told apart: more is no lettering."""


@dataclass(frozen=True, eq=False)
class Nested:
    """Areas of contours by containment.

    Attributes:
        regions: Valid; they may overlap where glyphs do.
        crossing: A place for each contour that crosses itself, and whether it turns over there.
        repeated: A vertex of each contour that was drawn before, and left out.
    """

    regions: tuple[BaseGeometry, ...]
    crossing: tuple[tuple[tuple[float, float], bool], ...]
    repeated: tuple[tuple[float, float], ...]


def nest(rings: list[Points], tolerance: float, crumb: float) -> Nested:
    """Areas that contours without a fill rule enclose.

    Args:
        rings: Vertices of each contour, first not repeated; those under three are ignored.
        tolerance: Contours that lie on each other within this are the same one, drawn twice.
        crumb: Areas narrower than this on average don't count.
    """
    filled = fill([[ring] for ring in rings], [FillRule.NONZERO] * len(rings), crumb)
    crossing = tuple((part.crossing, part.turns_over) for part in filled if part.crossing)
    areas = np.array([part.region for part in filled if part.region.area > 0], dtype=object)
    if len(areas) == 0:
        return Nested((), crossing, ())
    again = repeated(areas, tolerance)
    twice = tuple(place_of(area) for area in areas[again])
    areas = areas[~again]
    solid = np.array([_solid(area) for area in areas], dtype=object)
    inner, outer = _truly_inside(solid, *containing(solid))
    depth = _depths(len(areas), inner, outer)
    regions = []
    for shell in np.flatnonzero(depth % 2 == 0):
        inside = inner[outer == shell]
        counters = areas[inside[depth[inside] == depth[shell] + 1]]
        regions.append(_without(areas[shell], counters))
    return Nested(tuple(regions), crossing, twice)


def place_of(area: BaseGeometry) -> tuple[float, float]:
    """A vertex of an area, to point at it."""
    x, y = shapely.get_coordinates(area)[0].tolist()
    return x, y


def repeated(areas: NDArray[np.object_], tolerance: float) -> NDArray[np.bool_]:
    """Which areas are the same as an earlier one within a tolerance."""
    bounds = shapely.bounds(areas)
    same = np.zeros(len(areas), dtype=bool)
    for shift in (0.0, 0.5):
        cell = np.floor(bounds / max(4 * tolerance, 1e-12) + shift)
        order = np.lexsort(cell.T)
        begins = np.flatnonzero(np.any(np.diff(cell[order], axis=0) != 0, axis=1)) + 1
        for group in np.split(order, begins):
            if len(group) > 1:
                _mark_repeated(areas, np.sort(group), tolerance, same)
    return same


def _mark_repeated(
    areas: NDArray[np.object_], group: NDArray[np.intp], tolerance: float, same: NDArray[np.bool_]
) -> None:
    """Compare areas of equal bounds by their boundaries, each with the first few of other shape."""
    size, slack = shapely.area(areas[group]), tolerance * shapely.length(areas[group])
    kept: list[int] = []
    for at, index in enumerate(group.tolist()):
        if same[index]:
            continue
        alike = [first for first in kept if abs(size[at] - size[first]) <= slack[at]]
        boundary = areas[index].boundary
        if any(_lie_together(areas[group[first]].boundary, boundary, tolerance) for first in alike):
            same[index] = True
        elif len(kept) < _MOST_KINDS:
            kept.append(at)


def _lie_together(one: BaseGeometry, other: BaseGeometry, tolerance: float) -> bool:
    """Whether every vertex of each boundary is within the tolerance of the other one."""
    for line, vertices in ((one, other), (other, one)):
        xy = shapely.get_coordinates(vertices)
        few = shapely.points(xy[:: len(xy) // _FEW + 1])
        if not shapely.dwithin(line, few, tolerance).all():  # most pairs end here, unprepared
            return False
        shapely.prepare(line)
        at = shapely.points(xy)
        if not shapely.dwithin(line, at, tolerance).all():
            return False
    return True


def _solid(area: BaseGeometry) -> BaseGeometry:
    """An area without its openings."""
    parts = [Polygon(part.exterior) for part in shapely.get_parts(area)]
    return parts[0] if len(parts) == 1 else MultiPolygon(parts)


def _truly_inside(
    solid: NDArray[np.object_], inner: NDArray[np.intp], outer: NDArray[np.intp]
) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
    """Pairs whose inner contour doesn't cross the outer one by more than rounding."""
    shapely.prepare(solid)
    inside = shapely.contains(solid[outer], solid[inner])
    for pair in np.flatnonzero(~inside):
        one, around = solid[inner[pair]], solid[outer[pair]]
        inside[pair] = shapely.intersection(one, around).area > one.area * (1 - 1e-9)
    return inner[inside], outer[inside]


def _depths(count: int, inner: NDArray[np.intp], outer: NDArray[np.intp]) -> NDArray[np.intp]:
    """Length of the longest chain of contours around each: those that cross are no chain."""
    depth = np.zeros(count, dtype=np.intp)
    while True:
        deeper = depth.copy()
        np.maximum.at(deeper, inner, depth[outer] + 1)
        if np.array_equal(deeper, depth):
            return depth
        depth = deeper


def _without(area: BaseGeometry, counters: NDArray[np.object_]) -> BaseGeometry:
    """An area less its counters, as rings where that is valid, so that no vertex is touched."""
    if len(counters) == 0:
        return area
    if isinstance(area, Polygon) and all(isinstance(part, Polygon) for part in counters):
        plain = Polygon(
            area.exterior,
            [*area.interiors, *(part.exterior for part in counters)],
        )
        if plain.is_valid and not any(part.interiors for part in counters):
            return plain
    return shapely.difference(area, shapely.union_all(counters))
