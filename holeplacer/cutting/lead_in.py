"""Lead-in: the way from the pierce to the contour, straight or along a quarter circle.

No lead-out: on small holes it would notch the edge (common practice, no source). A way never
touches metal that stays, of any part on the sheet, and the pierce keeps its clearance from it.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np
import shapely
from numpy.typing import NDArray

from holeplacer.cutting import contours
from holeplacer.cutting.contours import Contour, Kind, RoundHole, round_ring
from holeplacer.cutting.pierce import Ground
from holeplacer.geometry.curve import Points

Shape = Literal["arc", "straight"]

MOST_ENTRIES = 240
"""Places along a contour at which entering is tried."""

_LONGER = (1.0, 1.5, 2.25, 3.5)
"""Lengths tried, by the least that clears."""

_SLANTS = (0.0, 0.5, -0.5, 1.0, -1.0)
"""Straight ways off the square one, radians: into corners and between neighbours."""

_SMOOTH = 2 * math.cos(math.radians(15.0))
"""Sum of unit steps before and after a place to enter at: not in corners, where the way would
notch what stays or leave a burr."""

_STEP_MM = 2.0

_QUARTER = math.tan(math.pi / 8)
_ARC_CHORDS = 24


@dataclass(frozen=True, eq=False)
class LeadIn:
    """A pierce and the way to its contour.

    Attributes:
        pierce: (x, y) mm.
        entry: (x, y) where the path is met.
        bulge: Of the way: 0 straight, else tan(sweep/4).
        path: The path, turned so that it starts at the entry.
        clear_mm: Distance of the pierce's centre from the nearest metal that stays.
        needed_mm: What it should be.
    """

    pierce: tuple[float, float]
    entry: tuple[float, float]
    bulge: float
    path: Contour
    clear_mm: float
    needed_mm: float

    @property
    def fits(self) -> bool:
        """Whether the pierce keeps its clearance."""
        return self.clear_mm >= self.needed_mm - 1e-6


def lead_in(
    path: Contour, inset_mm: float, ground: Ground, at: tuple[float, float], shape: Shape = "arc"
) -> LeadIn | None:
    """The lead-in of a path that is nearest to where the torch stands.

    Args:
        path: What is to be followed: a contour, or its path half a kerf beside it.
        inset_mm: How far the path lies from the edge that stays: half a kerf, or 0 if the
            controller makes the offset.
        ground: What is metal and what stays.
        at: Where the torch stands.
        shape: What is tried first; a straight way serves where an arc has no room.

    Returns:
        None where no way clears the metal that stays.
    """
    if path.kind is Kind.HOLE and path.hole is not None:
        return _into_hole(path, path.hole, inset_mm, ground, shape)
    path = replace(path, xy=_with_places(path))
    entries, tangents = _entries(path)
    drop_side = np.column_stack([-tangents[:, 1], tangents[:, 0]])  # left of the travel
    base = ground.clearance_mm - inset_mm + ground.half_kerf_mm * 0.1
    order = np.argsort(np.hypot(*(path.xy[entries] - at).T), kind="stable")
    for kind in ("arc", "straight") if shape == "arc" else ("straight",):
        for longer in _LONGER:
            for slant in _SLANTS if kind == "straight" else (0.0,):
                found = _first(
                    path, entries[order], tangents[order], drop_side[order],
                    base * longer, kind, slant, inset_mm, ground,
                )  # fmt: skip
                if found is not None:
                    return found
    return None


def _first(
    path: Contour,
    entries: NDArray[np.intp],
    tangents: Points,
    drop_side: Points,
    length: float,
    kind: str,
    slant: float,
    inset_mm: float,
    ground: Ground,
) -> LeadIn | None:
    """The first entry that a way of one form leads to."""
    xy = path.xy[entries]
    if kind == "arc":
        pierces = xy + length * (drop_side - tangents)
    else:
        turned = math.cos(slant) * drop_side - math.sin(slant) * tangents
        pierces = xy + length * turned
    fits = np.flatnonzero(ground.pierce_fits(pierces))
    if not len(fits):
        return None
    short = max(ground.half_kerf_mm - inset_mm, 0.0)
    ways = np.array(
        [
            shapely.LineString(_way(pierces[i], xy[i], drop_side[i], length, kind, short))
            for i in fits
        ]
    )
    clear = fits[ground.way_is_clear(ways)]
    if not len(clear):
        return None
    i = int(clear[0])
    at = int(entries[i])
    start = Contour(path.kind, path.part, np.roll(path.xy, -at, axis=0), path.hole)
    return LeadIn(
        (float(pierces[i, 0]), float(pierces[i, 1])),
        (float(xy[i, 0]), float(xy[i, 1])),
        _QUARTER if kind == "arc" else 0.0,
        start,
        float(shapely.distance(ground.stays, shapely.Point(pierces[i]))),
        ground.clearance_mm,
    )


def way_points(lead: LeadIn) -> Points:
    """The whole way from pierce to entry as points."""
    start, end = np.array(lead.pierce), np.array(lead.entry)
    if lead.bulge == 0.0:
        return np.array([start, end])
    chord = end - start
    centre = (
        start
        + chord / 2
        + np.array([-chord[1], chord[0]]) * ((1 - lead.bulge**2) / (4 * lead.bulge))
    )
    sweep, around = 4 * math.atan(lead.bulge), start - centre
    first = math.atan2(around[1], around[0])
    angle = first + sweep * np.linspace(0.0, 1.0, _ARC_CHORDS + 1)
    return np.asarray(
        centre + math.hypot(*around) * np.column_stack([np.cos(angle), np.sin(angle)])
    )


def _way(
    pierce: Points, entry: Points, side: Points, length: float, kind: str, short: float
) -> Points:
    """Points of a way, moved into the drop by as much as the path itself will be."""
    if kind == "straight":
        return np.array([pierce, entry + short * side]) if short else np.array([pierce, entry])
    centre = entry + length * side
    angle = np.linspace(0.0, math.pi / 2, _ARC_CHORDS + 1)
    along = np.array([side[1], -side[0]])
    radius = length - short
    points = centre + radius * (-np.cos(angle)[:, None] * along - np.sin(angle)[:, None] * side)
    points[0] = pierce
    return np.asarray(points)


def _entries(path: Contour) -> tuple[NDArray[np.intp], Points]:
    """Vertices to enter at, spread along the path, and the direction of travel there."""
    xy = path.xy
    step = np.hypot(*(np.roll(xy, -1, axis=0) - xy).T)
    length = np.concatenate([[0.0], np.cumsum(step)])
    wanted = np.linspace(0.0, length[-1], MOST_ENTRIES, endpoint=False)
    entries = np.unique(np.minimum(np.searchsorted(length, wanted), len(xy) - 1))
    before, after = xy[entries] - xy[entries - 1], xy[(entries + 1) % len(xy)] - xy[entries]
    unit = [chord / np.hypot(*chord.T)[:, None] for chord in (before, after)]
    both = unit[0] + unit[1]
    size = np.hypot(*both.T)
    kept = size > _SMOOTH
    if not kept.any():
        kept = size > 0
    return entries[kept], both[kept] / size[kept, None]


def _with_places(path: Contour) -> Points:
    """The path's points with more on long straight steps, so that they can be entered midway."""
    ring = shapely.LinearRing(path.xy)
    step = max(float(ring.length) / MOST_ENTRIES, _STEP_MM)
    return contours.points_of(shapely.segmentize(ring, step))


def _into_hole(
    path: Contour, hole: RoundHole, inset_mm: float, ground: Ground, shape: Shape
) -> LeadIn:
    """From the centre to the edge: straight, or along a half circle that meets it tangentially."""
    radius = hole.diameter_mm / 2
    entry = (hole.x_mm + radius, hole.y_mm)
    return LeadIn(
        (hole.x_mm, hole.y_mm),
        entry,
        1.0 if shape == "arc" else 0.0,
        Contour(path.kind, path.part, round_ring(hole), hole),
        radius + inset_mm,
        ground.clearance_mm,
    )


def travels_mm(leads: Sequence[LeadIn | None]) -> float:
    """Length of all ways from pierce to path."""
    ways = (way_points(lead) for lead in leads if lead is not None)
    return float(sum(np.hypot(*np.diff(way, axis=0).T).sum() for way in ways))
