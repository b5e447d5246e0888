"""Placing: the translation that hangs the sign on its wall, its level line and its datum."""

from holeplacer.wall.wall import Elevation, Placing, Wall
from holeplacer.wall.zone import Point

Bounds = tuple[float, float, float, float]
"""Left, bottom, right, top of the sign in its own coordinates, mm."""


def translation(wall: Wall, bounds: Bounds) -> Point:
    """What is added to sign coordinates to get wall coordinates, mm.

    Args:
        wall: The wall; without an elevation the sign's coordinates are the wall's.
        bounds: The sign's.

    >>> translation(Wall(Elevation(6000.0, 3000.0)), (0.0, 0.0, 2000.0, 600.0))
    (2000.0, 1200.0)
    """
    if wall.elevation is None:
        return 0.0, 0.0
    return (
        _across(wall.elevation, wall.placing, bounds[0], bounds[2]),
        _up(wall.elevation, wall.placing, bounds),
    )


def level_mm(placing: Placing, bounds: Bounds) -> float:
    """The level line's y in sign coordinates: the entered one, or the sign's lower edge."""
    return bounds[1] if placing.level_mm is None else placing.level_mm


def datum_mm(placing: Placing, bounds: Bounds) -> Point:
    """Origin of listed dimensions in sign coordinates: as entered, or the level line's left end."""
    return (bounds[0], level_mm(placing, bounds)) if placing.datum_mm is None else placing.datum_mm


def over_ground_mm(wall: Wall, bounds: Bounds) -> float | None:
    """Height of the sign's lower edge above the ground; None without an elevation."""
    if wall.elevation is None:
        return None
    return bounds[1] + translation(wall, bounds)[1] - wall.elevation.ground_mm


def overlap_mm(wall: Wall, bounds: Bounds) -> float:
    """How far the sign reaches beyond the wall's edges at most; 0 where it lies inside."""
    if wall.elevation is None:
        return 0.0
    dx, dy = translation(wall, bounds)
    return max(
        0.0,
        -(bounds[0] + dx),
        -(bounds[1] + dy),
        bounds[2] + dx - wall.elevation.width_mm,
        bounds[3] + dy - wall.elevation.height_mm,
    )


def _across(elevation: Elevation, placing: Placing, left: float, right: float) -> float:
    if placing.across == "left":
        return placing.across_mm - left
    if placing.across == "right":
        return elevation.width_mm - placing.across_mm - right
    return elevation.width_mm / 2 + placing.across_mm - (left + right) / 2


def _up(elevation: Elevation, placing: Placing, bounds: Bounds) -> float:
    bottom, top = bounds[1], bounds[3]
    if placing.up == "bottom":
        return placing.up_mm - bottom
    if placing.up == "top":
        return elevation.height_mm - placing.up_mm - top
    if placing.up == "ground":
        return elevation.ground_mm + placing.up_mm - bottom
    if placing.up == "level":
        return elevation.ground_mm + placing.up_mm - level_mm(placing, bounds)
    return elevation.height_mm / 2 + placing.up_mm - (bottom + top) / 2
