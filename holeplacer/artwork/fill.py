"""Fill: the area that one element's contours cover by its own rule.

Contours that neither cross themselves nor each other, as nearly all do, are sorted by what
contains what, and the winding number inside each follows from those around it. All others are cut
at their crossings into faces, each with its winding number; the faces that the rule fills are
united. Either way a vertex that was there before keeps its coordinates bit for bit.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import LineString, MultiPolygon, Polygon
from shapely.geometry.base import BaseGeometry

from holeplacer.artwork.crossings import refuse_tangle
from holeplacer.artwork.drawing import FillRule
from holeplacer.errors import ArtworkError
from holeplacer.geometry.curve import Points

MOST_NESTED = 500_000
_BATCH = 64


@dataclass(frozen=True, eq=False)
class Filled:
    """Area of one element.

    Attributes:
        region: Valid polygon or multipolygon; may be empty.
        crossing: Where its contours cross themselves or each other, one place, None if nowhere.
        turns_over: Whether an area larger than a crumb is wound against the rest, as the second
            loop of a figure of eight is.
    """

    region: BaseGeometry
    crossing: tuple[float, float] | None = None
    turns_over: bool = False


def fill(elements: Sequence[list[Points]], rules: Sequence[FillRule], crumb: float) -> list[Filled]:
    """Area that the contours of each element fill.

    Args:
        elements: Vertices of each contour of each element, first not repeated; contours under
            three vertices are ignored.
        rules: The elements' fill rules.
        crumb: Areas narrower than this on average don't count as turned over.
    """
    rings = [[ring for ring in element if len(ring) > 2] for element in elements]
    contours = simple_polygons([ring for element in rings for ring in element])
    valid = shapely.is_valid(contours)
    filled, at = [], 0
    for element, rule in zip(rings, rules, strict=True):
        some = slice(at, at + len(element))
        at += len(element)
        if valid[some].all():
            region = _nested(contours[some], element, rule)
            if region is not None and (len(element) < 2 or region.is_valid):
                filled.append(Filled(region))
                continue
        filled.append(_faced(element, rule, crumb))
    return filled


def simple_polygons(rings: Sequence[Points]) -> NDArray[np.object_]:
    """Each ring as a polygon of its own, valid or not."""
    if not rings:
        return np.zeros(0, dtype=object)
    owner = np.repeat(np.arange(len(rings)), [len(ring) for ring in rings])
    loops = shapely.linearrings(np.concatenate(rings), indices=owner)
    return np.asarray(shapely.polygons(loops), dtype=object)


def containing(contours: NDArray[np.object_]) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
    """Pairs (inner, outer) of simple contours that don't cross, the outer around the inner.

    Tested at one point inside the inner contour, among outer ones of larger area.

    Raises:
        ArtworkError: There are more than `MOST_NESTED` pairs.
    """
    area = shapely.area(contours)
    tree = shapely.STRtree(shapely.point_on_surface(contours))
    pairs, count = [], 0
    for begin in range(0, len(contours), _BATCH):
        outer, inner = tree.query(contours[begin : begin + _BATCH], predicate="contains")
        outer += begin
        larger = (area[outer] > area[inner]) | ((area[outer] == area[inner]) & (outer < inner))
        pairs.append(np.stack([inner[larger], outer[larger]]))
        count += int(larger.sum())
        if count > MOST_NESTED:
            raise ArtworkError(
                "its contours are nested in each other too deep",
                remedy="give the outline of the lettering, without hatching or texture",
            )
    inner, outer = np.concatenate(pairs, axis=1)
    return inner, outer


def _nested(
    contours: NDArray[np.object_], rings: list[Points], rule: FillRule
) -> BaseGeometry | None:
    """Area of contours that don't cross, from the winding number inside and around each.

    Where a contour that bounds no area crosses another, nothing is to be seen of it in the
    result, valid as that may be: None.
    """
    if len(rings) < 2:
        return contours[0] if rings else Polygon()
    turn = np.array([1 if is_anticlockwise(ring) else -1 for ring in rings])
    inner, outer = containing(contours)
    around = np.bincount(inner, weights=turn[outer], minlength=len(rings)).astype(int)
    depth = np.bincount(inner, minlength=len(rings))
    inside_filled, outside_filled = _filled(around + turn, rule), _filled(around, rule)
    shells = np.flatnonzero(inside_filled & ~outside_filled)
    counters = np.flatnonzero(~inside_filled & outside_filled)
    if _crosses_unseen(contours, np.flatnonzero(inside_filled == outside_filled)):
        return None
    holes: dict[int, list[Points]] = {}
    for counter, shell in zip(
        counters, _owners(counters, shells, inner, outer, depth), strict=True
    ):
        holes.setdefault(int(shell), []).append(rings[counter])
    parts = [Polygon(rings[shell], holes.get(int(shell), [])) for shell in shells]
    return parts[0] if len(parts) == 1 else MultiPolygon(parts)


def _crosses_unseen(contours: NDArray[np.object_], unseen: NDArray[np.intp]) -> bool:
    """Whether any of the contours numbered meets another contour's edge."""
    if len(unseen) == 0:
        return False
    edges = shapely.boundary(contours)
    one, other = shapely.STRtree(edges).query(edges[unseen], predicate="intersects")
    return bool((unseen[one] != other).any())


def _owners(
    counters: NDArray[np.intp],
    shells: NDArray[np.intp],
    inner: NDArray[np.intp],
    outer: NDArray[np.intp],
    depth: NDArray[np.intp],
) -> NDArray[np.intp]:
    """The innermost shell around each counter."""
    pair = np.isin(inner, counters) & np.isin(outer, shells)
    order = np.argsort(depth[outer[pair]], kind="stable")
    innermost = np.full(len(depth), -1, dtype=np.intp)
    innermost[inner[pair][order]] = outer[pair][order]
    return innermost[counters]


def _faced(rings: list[Points], rule: FillRule, crumb: float) -> Filled:
    """Area of contours that cross, face by face."""
    refuse_tangle(rings)
    noded = shapely.union_all([LineString(np.vstack([ring, ring[:1]])) for ring in rings])
    faces = shapely.get_parts(shapely.polygonize(shapely.get_parts(noded)))
    if len(faces) == 0:
        return Filled(Polygon())
    number = winding_numbers(shapely.get_coordinates(shapely.point_on_surface(faces)), rings)
    chosen = _filled(number, rule)
    region = shapely.coverage_union_all(faces[chosen]) if chosen.any() else Polygon()
    wide = 2 * shapely.area(faces) > crumb * shapely.length(faces)
    turns_over = bool((number[wide] > 0).any() and (number[wide] < 0).any())
    return Filled(region, _crossing(noded, rings), turns_over and rule is FillRule.NONZERO)


def winding_numbers(points: Points, rings: list[Points]) -> NDArray[np.intp]:
    """How often all rings together run round each point, anticlockwise counted positive.

    A ray from each point to the right; steps that cross it upwards count one, downwards less one.
    """
    start = np.concatenate(rings)
    end = np.concatenate([np.roll(ring, -1, axis=0) for ring in rings])
    steps = np.asarray(shapely.linestrings(np.stack([start, end], axis=1)), dtype=object)
    right = max(float(start[:, 0].max()), float(points[:, 0].max())) + 1.0
    ends = points.copy()
    ends[:, 0] = right
    rays = np.asarray(shapely.linestrings(np.stack([points, ends], axis=1)), dtype=object)
    point, step = shapely.STRtree(steps).query(rays)
    at, a, b = points[point], start[step], end[step]
    rising = (a[:, 1] <= at[:, 1]) & (b[:, 1] > at[:, 1])
    falling = (b[:, 1] <= at[:, 1]) & (a[:, 1] > at[:, 1])
    side = (b[:, 0] - a[:, 0]) * (at[:, 1] - a[:, 1]) - (at[:, 0] - a[:, 0]) * (b[:, 1] - a[:, 1])
    turn = (rising & (side > 0)).astype(float) - (falling & (side < 0)).astype(float)
    numbers: NDArray[np.intp] = np.bincount(point, weights=turn, minlength=len(points)).astype(
        np.intp
    )
    return numbers


def is_anticlockwise(ring: Points) -> bool:
    """Whether a ring's signed area is positive."""
    x, y = (ring - ring[0]).T
    return bool((x * np.roll(y, -1) - np.roll(x, -1) * y).sum() > 0)


def _filled(number: NDArray[np.intp], rule: FillRule) -> NDArray[np.bool_]:
    return np.asarray(number % 2 != 0 if rule is FillRule.EVENODD else number != 0)


def _crossing(noded: BaseGeometry, rings: list[Points]) -> tuple[float, float] | None:
    """A place where cutting put a vertex that was not drawn, None if there is none."""
    drawn = {tuple(point) for ring in rings for point in ring.tolist()}
    for line in shapely.get_parts(noded):
        for end in shapely.get_coordinates(line)[[0, -1]].tolist():
            if tuple(end) not in drawn:
                return end[0], end[1]
    return None
