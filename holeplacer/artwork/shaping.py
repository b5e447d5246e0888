"""Shaping: a drawing at a given size to one region of metal.

Curves are mapped, loose ones chained, all flattened, each element filled by its own rule (or
contours nested where the format knows none), and the areas united.
"""

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from shapely.geometry.base import BaseGeometry

from holeplacer.artwork.account import Entry
from holeplacer.artwork.accounting import (
    ignored_by_chaining,
    mended_by_chaining,
    mended_by_uniting,
    placed_entries,
)
from holeplacer.artwork.chaining import chained
from holeplacer.artwork.drawing import Drawing, DrawnContour, DrawnSegment, FillRule, LooseLines
from holeplacer.artwork.fill import fill
from holeplacer.artwork.nesting import nest, place_of, repeated
from holeplacer.artwork.rings import Rings, flattened_rings
from holeplacer.artwork.uniting import United, unite
from holeplacer.errors import ArtworkError
from holeplacer.geometry.curve import CircularArc, Curve, EllipticArc, Points, Polyline, Spline
from holeplacer.geometry.transform import IDENTITY, Matrix, moved, transformed

LARGEST_COORDINATE_MM = 1e9
"""Beyond this a sign has no place, and rounding eats micrometres."""

LARGEST_CURVE_MM = 2e7
"""A curve of 20 km is a mistake, and a few of them would take millions of points."""

MOST_CONTOURS = 3_000
"""Lettering has hundreds of contours; each costs about a millisecond until the outline stands."""

_OUT_OF_RANGE = "with coordinates out of range"
_TURNED_OVER = "contour crosses itself and turns over, both loops kept: look whether that is meant"
_CROSSED = "contour crosses itself, overlap united"


@dataclass(frozen=True, eq=False)
class Shaped:
    """A drawing at a size: flattened, filled, united.

    Attributes:
        segments: Every curve that bounds a contour, numbered as `rings.curve` counts them.
        rings: The flattened contours.
        united: The region.
        mended: What was changed, with places.
        ignored: What was left out, with places.
    """

    segments: tuple[DrawnSegment, ...]
    rings: Rings
    united: United
    mended: tuple[Entry, ...]
    ignored: tuple[Entry, ...]


def shape(drawing: Drawing, to_sign: Matrix, *, tolerance: float, reach: float) -> Shaped:
    """Make the region of a drawing.

    Args:
        drawing: In drawing units.
        to_sign: Map from there to the size at which tolerance and reach hold.
        tolerance: Furthest that a flattened curve may stray.
        reach: Widest gap that chaining closes.

    Raises:
        ArtworkError: The drawing is too tangled or too fine for a sign.
    """
    lost: Counter[tuple[str, str]] = Counter()
    contours = [
        DrawnContour(parts, contour.fill)
        for contour in drawing.contours
        if (parts := _mapped(contour.segments, to_sign, lost))
    ]
    loose = [part for one in drawing.loose for part in _mapped((one,), to_sign, lost)]
    lines = [_mapped_lines(bulk, to_sign, lost) for bulk in drawing.lines]
    chains = chained(loose, [bulk for bulk in lines if len(bulk.xy)], reach)
    contours += chains.contours
    if len(contours) > MOST_CONTOURS:
        raise ArtworkError(
            f"the drawing holds {len(contours)} closed contours, more than the {MOST_CONTOURS} "
            "that are read",
            remedy="give the outline of the lettering, without hatching or texture",
        )
    rings = flattened_rings(contours, tolerance)
    regions, mended = _regions(contours, rings.rings, drawing.fills, tolerance)
    united = unite(regions, tolerance)
    return Shaped(
        segments=tuple(part for contour in contours for part in contour.segments),
        rings=rings,
        united=united,
        mended=(*mended_by_chaining(chains), *mended, *mended_by_uniting(united)),
        ignored=(
            *(Entry(what, layer, count) for (what, layer), count in lost.items()),
            *ignored_by_chaining(chains),
        ),
    )


def _mapped(
    segments: Sequence[DrawnSegment], by: Matrix, lost: Counter[tuple[str, str]]
) -> tuple[DrawnSegment, ...]:
    """Segments under a map; none, and an entry, if one of them is out of all range."""
    reach = LARGEST_COORDINATE_MM / float(np.abs(by[:, :2]).sum())
    for part in segments:
        if not _extent(part.curve) < reach:
            lost[f"{part.kind} {_OUT_OF_RANGE}", part.layer] += 1
            return ()
    if np.array_equal(by, IDENTITY):
        return tuple(segments)
    return tuple(
        DrawnSegment(transformed(part.curve, by), part.layer, part.kind) for part in segments
    )


def _mapped_lines(bulk: LooseLines, by: Matrix, lost: Counter[tuple[str, str]]) -> LooseLines:
    reach = LARGEST_COORDINATE_MM / float(np.abs(by[:, :2]).sum())
    good = (np.abs(bulk.xy) < reach).all(axis=(1, 2))
    if not good.all():
        lost[f"{bulk.kind} {_OUT_OF_RANGE}", bulk.layer] += int((~good).sum())
    xy = moved(bulk.xy[good].reshape(-1, 2), by).reshape(-1, 2, 2)
    return LooseLines(xy, bulk.layer, bulk.kind)


def _extent(curve: Curve) -> float:
    """The largest coordinate, or as much more as the curve's size is nearer its own limit.

    Not a number if one of the coordinates is none.
    """
    match curve:
        case Polyline():
            points = curve.xy
        case Spline():
            points = curve.control
        case CircularArc():
            points = np.array(curve.centre) + curve.radius * np.array([[-1.0], [1.0]])
        case EllipticArc():
            reach = abs(curve.major[0]) + abs(curve.major[1])
            points = np.array(curve.centre) + reach * np.array([[-1.0], [1.0]])
    if not np.isfinite(points).all():
        return math.nan
    size = float(np.ptp(points, axis=0).max())
    return max(float(np.abs(points).max()), size * LARGEST_COORDINATE_MM / LARGEST_CURVE_MM)


def _regions(
    contours: list[DrawnContour],
    rings: tuple[Points, ...],
    fills: tuple[FillRule, ...],
    tolerance: float,
) -> tuple[list[BaseGeometry], list[Entry]]:
    """Area of each element by its rule, and of all contours that have none by nesting."""
    by_fill: dict[int | None, list[Points]] = {}
    for contour, ring in zip(contours, rings, strict=True):
        by_fill.setdefault(contour.fill, []).append(ring)
    unruled = by_fill.pop(None, [])
    regions: list[BaseGeometry] = []
    crossings: list[tuple[tuple[float, float], bool]] = []
    rules = [fills[number] for number in by_fill if number is not None]
    for filled in fill(list(by_fill.values()), rules, tolerance):
        regions.append(filled.region)
        if filled.crossing is not None:
            crossings.append((filled.crossing, filled.turns_over))
    areas = np.array([region for region in regions if region.area > 0], dtype=object)
    again = repeated(areas, tolerance)
    twice = [place_of(area) for area in areas[again]]
    nested = nest(unruled, tolerance, tolerance)
    crossings += nested.crossing
    mended = [
        *placed_entries(_CROSSED, [place for place, turns_over in crossings if not turns_over]),
        *placed_entries(_TURNED_OVER, [place for place, turns_over in crossings if turns_over]),
        *placed_entries("shape drawn twice, dropped once", twice),
        *placed_entries("contour drawn twice, dropped once", nested.repeated),
    ]
    return [*areas[~again].tolist(), *nested.regions], mended
