"""Blank: what is laid on a sheet, at the angles it may be turned by."""

import math
from dataclasses import dataclass, replace

import numpy as np
from shapely import affinity
from shapely.geometry import Polygon

from holeplacer.cutting import raster
from holeplacer.geometry.curve import Points
from holeplacer.seams import stock_fit
from holeplacer.seams.stock_fit import Usable

EXACT_MM = 1e-5
"""What turning and moving may cost by rounding."""

_QUARTER = math.pi / 2
_STEPS = 24
"""Angles tried all round a turn where any is allowed, beside those of the smallest rectangle."""

_SIMPLER_MM = 0.1
"""How much wider the area that blanks are pushed together by may be than the blank itself."""


@dataclass(frozen=True, eq=False)
class Blank:
    """What is laid on a sheet.

    Attributes:
        number: Of its section.
        area: Its outer contour, filled: a counter is left empty, since the torch pierces there.
        wide: A simpler area that covers it.
        hull: (n, 2) corners of its convex hull.
        angles: Angles it may be turned by, radians.
    """

    number: int
    area: Polygon
    wide: Polygon
    hull: Points
    angles: tuple[float, ...]

    def size_at(self, angle_rad: float) -> tuple[float, float, float, float]:
        """Left, bottom, width and height when turned about 0, 0."""
        xy = raster.turned(self.hull, angle_rad)
        (left, bottom), (right, top) = xy.min(axis=0), xy.max(axis=0)
        return float(left), float(bottom), float(right - left), float(top - bottom)

    @property
    def flat_size(self) -> tuple[float, float]:
        """Longer and shorter side of its smallest rectangle."""
        _, _, width, height = self.size_at(flat_angle(self.hull))
        return width, height


@dataclass(frozen=True)
class Place:
    """Where a blank lies: turned about 0, 0, then moved.

    Attributes:
        x_mm, y_mm: How far it is moved.
        angle_rad: How far it is turned, anticlockwise.
    """

    x_mm: float
    y_mm: float
    angle_rad: float

    def of(self, polygon: Polygon) -> Polygon:
        """The area as it lies on the sheet."""
        cos, sin = math.cos(self.angle_rad), math.sin(self.angle_rad)
        return affinity.affine_transform(polygon, [cos, -sin, sin, cos, self.x_mm, self.y_mm])

    def point(self, x_mm: float, y_mm: float) -> tuple[float, float]:
        """A point of the blank as it lies on the sheet."""
        cos, sin = math.cos(self.angle_rad), math.sin(self.angle_rad)
        return cos * x_mm - sin * y_mm + self.x_mm, sin * x_mm + cos * y_mm + self.y_mm


def blank_of(number: int, polygon: Polygon, turning: str) -> Blank:
    """A blank with the angles it may be turned by.

    Args:
        number: Of its section.
        polygon: In sign coordinates.
        turning: `any`: the four that lay it along its smallest rectangle, then every 15 degrees;
            `quarter`: quarter turns; `none`: as it is in the sign.
    """
    area = Polygon(polygon.exterior)
    near = area.simplify(_SIMPLER_MM / 2).buffer(_SIMPLER_MM / 2, quad_segs=2)
    hull = raster.hull_of(polygon)
    return Blank(number, area, Polygon(near.exterior), hull, _angles(hull, turning))


def fitting(blank: Blank, usable: Usable) -> Blank:
    """The blank with one angle more if none of its own lets it into a rectangle but another does.

    A long blank may fit only across the corners.
    """
    if fits_in(blank, usable):
        return blank
    found = stock_fit.angles(blank.hull, usable)
    return replace(blank, angles=(*blank.angles, float(found[0]))) if len(found) else blank


def fits_in(blank: Blank, usable: Usable) -> bool:
    """Whether the blank fits a rectangle at one of its angles."""
    sizes = (blank.size_at(angle)[2:] for angle in blank.angles)
    return any(
        w <= usable.width_mm + EXACT_MM and h <= usable.height_mm + EXACT_MM for w, h in sizes
    )


def flat_angle(hull: Points) -> float:
    """Angle that lays the longer side of the smallest rectangle round a hull along x."""
    steps = np.diff(np.vstack([hull, hull[:1]]), axis=0)
    angles = -np.arctan2(steps[:, 1], steps[:, 0]) % _QUARTER
    cos, sin = np.cos(angles)[:, None], np.sin(angles)[:, None]
    wide = np.ptp(cos * hull[:, 0] - sin * hull[:, 1], axis=1)
    high = np.ptp(sin * hull[:, 0] + cos * hull[:, 1], axis=1)
    best = int(np.argmin(wide * high))
    return float(angles[best]) + (0.0 if wide[best] >= high[best] else _QUARTER)


def _angles(hull: Points, turning: str) -> tuple[float, ...]:
    if turning == "none":
        return (0.0,)
    quarters = tuple(index * _QUARTER for index in range(4))
    if turning == "quarter":
        return quarters
    flat = flat_angle(hull)
    steps = (2 * math.pi * index / _STEPS for index in range(_STEPS))
    angles = (*(flat + quarter for quarter in quarters), *steps)
    return tuple(dict.fromkeys(round(angle, 12) for angle in angles))
