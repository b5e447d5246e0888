"""Landing: what a fastener meets at a place of the wall: held, blocked, unknown, or nothing.

All zones of one kind are one region. Blocked goes before unknown, unknown before good: who has
drawn a conduit through a stud means the conduit.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import Literal

import numpy as np
import shapely
from numpy.typing import ArrayLike, NDArray
from shapely.geometry import LineString, Polygon, box
from shapely.geometry.base import BaseGeometry

from holeplacer.wall.wall import Elevation, Wall
from holeplacer.wall.zone import Studs, Zone, ZoneKind

Ground = Literal["good", "blocked", "unknown", "none"]
"""What is met; `none`: a part of the wall of which nothing was said."""

_SLACK_MM = 1e-6
_MOST_REMEMBERED = 10_000
_QUARTER = 32
"""Sides of a polygon in a quarter of a circle."""


@dataclass(frozen=True)
class Landing:
    """What one place meets.

    Attributes:
        ground: What a fastener there is taken to meet.
        what: What that is, in the person's words; empty where nothing was said.
        blocked_mm: From the place to the nearest blocked zone, negative inside one; None without
            any.
        blocked_by: What that zone is.
        inside_mm: How far inside a good zone the place lies, negative outside; None without any.
    """

    ground: Ground
    what: str
    blocked_mm: float | None
    blocked_by: str
    inside_mm: float | None


def zones_of(wall: Wall) -> tuple[Zone, ...]:
    """All zones: those entered, then every stud of every row as a band."""
    return regions(wall).zones


def _bands(row: Studs, elevation: Elevation | None) -> list[Zone]:
    """The studs of one row as far as count and wall go."""
    reach = elevation.width_mm if elevation is not None else np.inf
    top = row.top_mm
    if top is None:
        top = elevation.height_mm if elevation is not None else row.bottom_mm
    end = np.floor((reach - row.first_mm) / row.spacing_mm + 1e-9) + 1
    count = row.count if row.count is not None else (int(max(end, 0)) if np.isfinite(end) else 0)
    if top <= row.bottom_mm:
        return []
    middles = row.first_mm + row.spacing_mm * np.arange(count)
    return [
        Zone("good", "stud", "band", ((x, row.bottom_mm), (x, top)), row.width_mm / 2)
        for x in middles.tolist()
    ]


@lru_cache(maxsize=4096)
def region(zone: Zone) -> BaseGeometry:
    """A zone as an area of the wall; a crossed polygon counts with all it encloses."""
    if zone.shape == "rectangle":
        (x1, y1), (x2, y2) = zone.points_mm
        return box(min(x1, x2), min(y1, y2), max(x1, x2), max(y1, y2))
    if zone.shape == "band":
        return LineString(zone.points_mm).buffer(
            zone.half_width_mm, cap_style="flat", join_style="mitre"
        )
    return shapely.make_valid(Polygon(zone.points_mm))


@dataclass(frozen=True, eq=False)
class Regions:
    """The zones of each kind as one region, ready to be asked. Compared by identity.

    Attributes:
        zones: All of them.
    """

    zones: tuple[Zone, ...]

    def of(self, kind: ZoneKind) -> BaseGeometry | None:
        """The region of a kind; None without zones of it."""
        return self._unions.get(kind)

    @cached_property
    def _unions(self) -> dict[str, BaseGeometry]:
        found = {}
        for kind in ("good", "blocked", "unknown"):
            parts = [region(zone) for zone in self.zones if zone.kind == kind]
            if parts:
                found[kind] = shapely.union_all(parts)
                shapely.prepare(found[kind])
        return found

    @cached_property
    def _boundaries(self) -> dict[str, BaseGeometry]:
        lines = {kind: area.boundary for kind, area in self._unions.items()}
        for line in lines.values():
            shapely.prepare(line)
        return lines

    def clear_mm(self, kind: ZoneKind, xy: ArrayLike) -> NDArray[np.float64]:
        """(n,) from places to the nearest zone of a kind, negative inside, infinite without any.

        Args:
            kind: Of zones.
            xy: (n, 2) wall coordinates.
        """
        places = np.asarray(xy, float).reshape(-1, 2)
        area = self.of(kind)
        if area is None:
            return np.full(len(places), np.inf)
        points = shapely.points(places)
        away = np.asarray(shapely.distance(self._boundaries[kind], points))
        return np.where(shapely.intersects(area, points), -away, away)

    def name_at(self, kind: ZoneKind, x_mm: float, y_mm: float) -> str:
        """What the nearest zone of a kind is; empty without any."""
        own = [zone for zone in self.zones if zone.kind == kind]
        point = shapely.Point(x_mm, y_mm)
        return min(own, key=lambda zone: region(zone).distance(point)).what if own else ""

    @cached_property
    def _known(self) -> dict[tuple[float, ...], Landing]:
        return {}

    def landing(
        self, x_mm: float, y_mm: float, *, radius_mm: float, clear_mm: float, inside_mm: float
    ) -> Landing:
        """What one place meets; remembered, since of many holes one is dragged.

        Args:
            x_mm: Wall coordinates.
            y_mm: The same.
            radius_mm: Of the drilled hole.
            clear_mm: Least distance of its edge from what is blocked.
            inside_mm: Least distance inside what is good.
        """
        key = (x_mm, y_mm, radius_mm, clear_mm, inside_mm)
        if key not in self._known:
            if len(self._known) >= _MOST_REMEMBERED:
                self._known.clear()
            self._known[key] = self._found(*key)
        return self._known[key]

    def _found(
        self, x_mm: float, y_mm: float, radius_mm: float, clear_mm: float, inside_mm: float
    ) -> Landing:
        at = (x_mm, y_mm)
        blocked, unknown, good = (
            float(self.clear_mm(kind, at)[0]) for kind in ("blocked", "unknown", "good")
        )
        ground: Ground = "none"
        what, blocked_by = "", self.name_at("blocked", x_mm, y_mm)
        if blocked < radius_mm + clear_mm - _SLACK_MM:
            ground, what = "blocked", blocked_by
        elif unknown < radius_mm - _SLACK_MM:
            ground, what = "unknown", self.name_at("unknown", x_mm, y_mm)
        elif -good >= inside_mm - _SLACK_MM:
            ground, what = "good", self.name_at("good", x_mm, y_mm)
        return Landing(
            ground=ground,
            what=what,
            blocked_mm=blocked if np.isfinite(blocked) else None,
            blocked_by=blocked_by,
            inside_mm=-good if np.isfinite(good) else None,
        )


@lru_cache(maxsize=8)
def _regions(
    zones: tuple[Zone, ...], studs: tuple[Studs, ...], elevation: Elevation | None
) -> Regions:
    return Regions(zones + tuple(band for row in studs for band in _bands(row, elevation)))


def regions(wall: Wall) -> Regions:
    """The wall's zones, ready to be asked, kept for as long as they stay the same."""
    return _regions(wall.zones, wall.studs, wall.elevation)


def any_zones(wall: Wall) -> bool:
    """Whether anything was said of what is in the wall."""
    return bool(wall.zones or wall.studs)


def blocks(wall: Wall, radius_mm: float, xy: ArrayLike) -> NDArray[np.bool_]:
    """(n,) whether a hole drilled there comes too near what is blocked.

    Args:
        wall: The wall.
        radius_mm: Of the drilled hole.
        xy: (n, 2) wall coordinates.
    """
    asked = radius_mm + wall.clear_mm - _SLACK_MM
    return np.asarray(regions(wall).clear_mm("blocked", xy) < asked)


def holds(wall: Wall, radius_mm: float, xy: ArrayLike) -> NDArray[np.bool_]:
    """(n,) whether a fastener there is held by a good zone, clear of what is unknown.

    Args:
        wall: The wall.
        radius_mm: Of the drilled hole.
        xy: (n, 2) wall coordinates.
    """
    known = regions(wall)
    inside = -known.clear_mm("good", xy) >= wall.inside_mm - _SLACK_MM
    return np.asarray(inside & (known.clear_mm("unknown", xy) >= radius_mm - _SLACK_MM))


def landings(wall: Wall, radius_mm: float, places: Sequence[tuple[float, float]]) -> list[Landing]:
    """What each place meets.

    Args:
        wall: The wall.
        radius_mm: Of the drilled hole.
        places: Wall coordinates.
    """
    known = regions(wall)
    return [
        known.landing(x, y, radius_mm=radius_mm, clear_mm=wall.clear_mm, inside_mm=wall.inside_mm)
        for x, y in places
    ]


def forbidden(wall: Wall, radius_mm: float, margin_mm: float = 0.0) -> BaseGeometry | None:
    """Where no hole's centre may lie: all that is blocked, drawn out; None if nothing is.

    Its round corners are polygons that hold the true ones.

    Args:
        wall: The wall.
        radius_mm: Of the drilled hole.
        margin_mm: Kept free beyond that.
    """
    area = regions(wall).of("blocked")
    return None if area is None else drawn_out(area, radius_mm + wall.clear_mm + margin_mm)


def firm(wall: Wall, radius_mm: float, margin_mm: float = 0.0) -> BaseGeometry | None:
    """Where a hole's centre is held by good zones, clear of what is blocked or unknown.

    Args:
        wall: The wall.
        radius_mm: Of the drilled hole.
        margin_mm: Kept free beyond that.

    Returns:
        None without good zones; it may be empty.
    """
    known = regions(wall)
    area, unknown = known.of("good"), known.of("unknown")
    if area is None:
        return None
    area = area.buffer(-(wall.inside_mm + margin_mm), quad_segs=_QUARTER)
    if unknown is not None:
        area = area.difference(drawn_out(unknown, radius_mm + margin_mm))
    blocked = forbidden(wall, radius_mm, margin_mm)
    return area if blocked is None else area.difference(blocked)


def drawn_out(area: BaseGeometry, mm: float) -> BaseGeometry:
    """An area and all that is nearer to it than a length, and a little more at corners."""
    return area.buffer(mm / np.cos(np.pi / (4 * _QUARTER)), quad_segs=_QUARTER)
