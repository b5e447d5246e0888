"""Marks on a part: its label, its holes to drill, and match marks across each seam."""

import math

import numpy as np
import shapely

from holeplacer.cutting.contours import Part, RoundHole, SeamEdge
from holeplacer.documents import single_line
from holeplacer.geometry.curve import Points

LABEL_MM = 10.0
LEAST_LABEL_MM = 2.5
"""Height of labels, and the least that is still read on metal: common practice, no source."""

_TICK_MM = (2.0, 8.0)
"""A match mark begins and ends so far from the seam: clear of the weld's preparation, and short."""

_PLACES = (0.3, 0.5)
"""Of match marks along a seam; not alike from both ends, so that no part is taken the wrong way."""

_NUMBER_MM = 4.0
_KEEP_MM = 1.0


def centre_mark(hole: RoundHole) -> tuple[Points, ...]:
    """A cross that stays inside the hole."""
    x, y, reach = hole.x_mm, hole.y_mm, hole.diameter_mm / 4
    return (
        np.array([(x - reach, y), (x + reach, y)]),
        np.array([(x, y - reach), (x, y + reach)]),
    )


def label(part: Part) -> tuple[Points, ...]:
    """The part's label where its metal is widest, as large as fits; none if too small to read."""
    free = _free(part)
    middle, radius = _widest(free)
    unit = single_line.width_mm(part.label, 1.0)
    height = min(LABEL_MM, 2 * radius / math.hypot(unit, 1.0))
    if not part.label or height < LEAST_LABEL_MM:
        return ()
    start = (middle[0] - unit * height / 2, middle[1] - height / 2)
    return single_line.strokes_of(part.label, height, start)


def match_marks(part: Part) -> tuple[Points, ...]:
    """Short lines square to each seam, at the same places on both parts, and its number."""
    inner = shapely.buffer(_free(part), -_KEEP_MM)
    found: list[Points] = []
    for seam in part.seams:
        found += _ticks(seam, part, inner)
    return tuple(found)


def _ticks(seam: SeamEdge, part: Part, inner: shapely.Geometry) -> list[Points]:
    start, end = np.array(seam.start), np.array(seam.end)
    length = math.hypot(*(end - start))
    square = np.array([-(end - start)[1], (end - start)[0]]) / length
    middle = (start + end) / 2
    if not shapely.contains_xy(part.polygon, *(middle + _KEEP_MM * square)):
        square = -square
    found: list[Points] = []
    for share in _PLACES:
        at = start + share * (end - start)
        line = shapely.LineString([at + reach * square for reach in _TICK_MM])
        kept = shapely.intersection(line, inner)
        found += [np.asarray(shapely.get_coordinates(kept))] if kept.length > _KEEP_MM else []
    return found + _number(str(seam.number), middle + _TICK_MM[1] * square, square, inner)


def _number(text: str, at: Points, square: Points, inner: shapely.Geometry) -> list[Points]:
    """The seam's number behind its marks, smaller where it does not fit."""
    for height in (_NUMBER_MM, LEAST_LABEL_MM):
        width = single_line.width_mm(text, height)
        reach = math.hypot(width, height) / 2 + _KEEP_MM
        x, y = (at + reach * square).tolist()
        strokes = single_line.strokes_of(text, height, (x - width / 2, y - height / 2))
        if strokes and shapely.covers(inner, shapely.MultiLineString(list(strokes))):
            return list(strokes)
    return []


def _free(part: Part) -> shapely.Geometry:
    """The part's metal without its holes."""
    holes = [shapely.Point(h.x_mm, h.y_mm).buffer(h.diameter_mm / 2) for h in part.holes]
    return shapely.difference(part.polygon, shapely.union_all(holes)) if holes else part.polygon


def _widest(region: shapely.Geometry) -> tuple[tuple[float, float], float]:
    """Centre and radius of the largest disc in a region."""
    areas = [part for part in shapely.get_parts(region) if isinstance(part, shapely.Polygon)]
    largest = max(areas, key=lambda area: float(area.area))
    line = shapely.maximum_inscribed_circle(largest, tolerance=0.5)
    x, y = shapely.get_coordinates(line)[0].tolist()
    return (x, y), float(line.length)
