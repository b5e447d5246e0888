"""Thin strokes: metal too narrow to take a hole at all."""

from dataclasses import dataclass

import shapely

from holeplacer.outline.offset import quarter_segments
from holeplacer.outline.outline import Outline

_SPECK_SHARE = 0.1
"""Parts smaller than this share of the width squared are the corners of a stroke's end: a disc
leaves 0.054 of it in a square corner."""

_SLACK_MM = 0.02
"""Opening is done with chords; metal this close to a wide enough stroke belongs to it."""


@dataclass(frozen=True, eq=False)
class ThinStroke:
    """One connected part of metal narrower than asked.

    Attributes:
        polygon: The part.
        piece: Index of the piece it belongs to.
        xy_mm: A place in it.
        area_mm2: Its area.
    """

    polygon: shapely.Polygon
    piece: int
    xy_mm: tuple[float, float]
    area_mm2: float


def thin_strokes(outline: Outline, width_mm: float) -> tuple[ThinStroke, ...]:
    """Metal that no disc of a diameter within the outline reaches, the largest part first.

    Args:
        outline: The outline.
        width_mm: Clear width asked: twice the least edge distance of a hole.
    """
    radius = width_mm / 2
    segments = quarter_segments(radius, _SLACK_MM / 4)
    found = []
    for index, piece in enumerate(outline.pieces):
        metal = piece.polygon.simplify(_SLACK_MM / 4)
        wide = metal.buffer(-radius, quad_segs=segments)
        rest = metal.difference(wide.buffer(radius + _SLACK_MM, quad_segs=segments))
        for part in shapely.get_parts(rest):
            if part.area > _SPECK_SHARE * width_mm**2:
                place = part.representative_point()
                found.append(ThinStroke(part, index, (place.x, place.y), float(part.area)))
    return tuple(sorted(found, key=lambda stroke: -stroke.area_mm2))
