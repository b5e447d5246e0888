"""Offset: all strokes made fatter or thinner by the same amount on every side."""

import math
from dataclasses import dataclass

import shapely

from holeplacer.errors import InputError
from holeplacer.outline.outline import Outline

TOLERANCE_MM = 0.002
"""Furthest that a round join strays inside its arc: so fine, since it costs a twentieth more
vertices only, and a stroke made fatter by what a hole lacks must give it that."""

STRAY_MM = 0.01
"""Furthest that the new edge lies from its true place: joins, and inner corners that the library
simplifies; 0.005 mm is the worst that was measured on lettering."""

_LEAST_MM = 1e-6
"""A smaller offset is lost in the coordinates' rounding."""


@dataclass(frozen=True)
class OffsetChange:
    """Something an offset did besides moving the edge.

    Attributes:
        what: `counter closed`, `pieces joined`, `piece lost`, `piece parted`.
        xy_mm: Where.
    """

    what: str
    xy_mm: tuple[float, float]


def offset(outline: Outline, mm: float) -> Outline:
    """The outline with every edge moved outwards, corners rounded.

    The distance of any place in the metal from the cut edge grows by `mm`, within `STRAY_MM`
    (by more where a gap closes); with a negative `mm` it shrinks.

    Args:
        outline: The outline.
        mm: Outwards if positive, inwards if negative.

    Raises:
        InputError: No metal is left, or `mm` is not a number.
    """
    if not math.isfinite(mm):
        raise InputError(f"{mm} is not a length", where="offset", remedy="enter a number")
    if abs(mm) < _LEAST_MM:
        return outline
    region = outline.region.buffer(mm, quad_segs=quarter_segments(abs(mm)))
    if region.is_empty:
        raise InputError(
            f"strokes thinner by {-mm:g} mm a side leave no metal",
            where="offset",
            remedy="take less",
        )
    return Outline.from_geometry(region)


def changes(before: Outline, after: Outline) -> tuple[OffsetChange, ...]:
    """Counters that closed, and pieces that were joined, lost or parted, each with its place."""
    found = [
        OffsetChange("counter closed", _place(counter))
        for piece in before.pieces
        for counter in _counters(piece.polygon)
        if shapely.contains(after.region, counter)
    ]
    old = [piece.polygon for piece in before.pieces]
    new = [piece.polygon for piece in after.pieces]
    tree = shapely.STRtree(new)
    kin: dict[int, list[int]] = {index: [] for index in range(len(new))}
    for index, polygon in enumerate(old):
        children = tree.query(polygon, predicate="intersects").tolist()
        if not children:
            found.append(OffsetChange("piece lost", _place(polygon)))
        if len(children) > 1:
            found.append(OffsetChange("piece parted", _place(polygon)))
        for child in children:
            kin[child].append(index)
    found += (
        OffsetChange("pieces joined", _between(old[parents[0]], old[parents[1]]))
        for parents in kin.values()
        if len(parents) > 1
    )
    return tuple(found)


def quarter_segments(radius_mm: float, tolerance_mm: float = TOLERANCE_MM) -> int:
    """Chords a quarter circle needs so that none strays further than the tolerance."""
    if radius_mm <= tolerance_mm:
        return 2
    return max(2, math.ceil(math.pi / 4 / math.acos(1 - tolerance_mm / radius_mm)))


def _counters(polygon: shapely.Polygon) -> list[shapely.Polygon]:
    return [shapely.Polygon(ring) for ring in polygon.interiors]


def _place(polygon: shapely.Polygon) -> tuple[float, float]:
    point = polygon.representative_point()
    return point.x, point.y


def _between(one: shapely.Polygon, two: shapely.Polygon) -> tuple[float, float]:
    middle = shapely.shortest_line(one, two).interpolate(0.5, normalized=True)
    return middle.x, middle.y
