"""Thermal fit: how far each hole moves against its stud as the sheet warms and cools.

The studs stay where the wall has them; each piece of the sheet grows about one hole, its fixed
point, which stays round and close. Every other hole moves straight away from it by
expansion x distance x change of temperature, and needs that room on both sides of its stud.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from holeplacer.errors import InputError


@dataclass(frozen=True)
class Change:
    """How warm and cold the sheet gets, and what that does to it.

    Attributes:
        expansion_per_k: The metal's linear thermal expansion.
        lowest_c, highest_c: Temperatures of the metal.
        installation_c: Its temperature when the studs were set by the sheet's holes.
    """

    expansion_per_k: float
    lowest_c: float
    highest_c: float
    installation_c: float

    @property
    def growth(self) -> float:
        """Strain at the highest temperature."""
        return self.expansion_per_k * (self.highest_c - self.installation_c)

    @property
    def shrinkage(self) -> float:
        """Strain at the lowest temperature, as a positive magnitude."""
        return self.expansion_per_k * (self.installation_c - self.lowest_c)


@dataclass(frozen=True)
class Movement:
    """One hole's movement against its stud.

    Attributes:
        about: Index of its piece's fixed point; None where it lies in no piece.
        is_fixed_point: Whether it is that hole itself.
        distance_mm: From the fixed point.
        direction_rad: From the fixed point to the hole, anticlockwise from x; of a slot, its
            length.
        out_mm: Away from the fixed point at the highest temperature.
        in_mm: Towards it at the lowest.
    """

    about: int | None
    is_fixed_point: bool
    distance_mm: float
    direction_rad: float
    out_mm: float
    in_mm: float

    @property
    def greatest_mm(self) -> float:
        """The greater of both."""
        return max(self.out_mm, self.in_mm)


STILL = Movement(None, False, 0.0, 0.0, 0.0, 0.0)
"""Of a hole that lies in no piece."""


def fixed_points(
    xy_mm: ArrayLike,
    pieces: Sequence[int],
    centres_mm: ArrayLike,
    wanted: Sequence[bool] | None = None,
) -> dict[int, int]:
    """The hole each piece grows about: the one nearest to its centre of gravity.

    Args:
        xy_mm: (n, 2) centres of the holes.
        pieces: Piece each hole lies in; -1 outside the metal.
        centres_mm: (m, 2) centre of gravity of each piece.
        wanted: Holes that the person wants as fixed points; in a piece that has some, only those
            are looked at.

    Returns:
        Index of a hole by piece, for every piece that has a hole; of two as near, the first.
    """
    places, centres = _points(xy_mm), _points(centres_mm)
    chosen = wanted or [False] * len(places)
    found: dict[int, tuple[bool, float, int]] = {}
    for index, (place, piece) in enumerate(zip(places, pieces, strict=True)):
        if piece < 0:
            continue
        key = (not chosen[index], math.dist(place, centres[piece]), index)
        found[piece] = min(found.get(piece, key), key)
    return {piece: key[2] for piece, key in found.items()}


def movements(
    xy_mm: ArrayLike, pieces: Sequence[int], about: dict[int, int], change: Change
) -> tuple[Movement, ...]:
    """How far each hole moves against its stud.

    Args:
        xy_mm: (n, 2) centres of the holes.
        pieces: Piece each hole lies in; -1 outside the metal.
        about: Fixed point by piece, see `fixed_points`.
        change: Temperatures and expansion.

    Raises:
        InputError: The temperature at installation is not between the other two.
    """
    if min(change.growth, change.shrinkage) < 0:
        raise InputError(
            f"{change.installation_c:g} °C at installation is not between {change.lowest_c:g} "
            f"and {change.highest_c:g} °C",
            where="temperature",
            remedy="change one of the three",
        )
    places = _points(xy_mm)
    return tuple(
        _movement(places, index, about.get(piece), change) for index, piece in enumerate(pieces)
    )


def _movement(
    places: list[tuple[float, float]], index: int, about: int | None, change: Change
) -> Movement:
    if about is None:
        return STILL
    (x, y), (x0, y0) = places[index], places[about]
    distance = math.hypot(x - x0, y - y0)
    return Movement(
        about=about,
        is_fixed_point=index == about,
        distance_mm=distance,
        direction_rad=math.atan2(y - y0, x - x0),
        out_mm=change.growth * distance,
        in_mm=change.shrinkage * distance,
    )


def _points(xy_mm: ArrayLike) -> list[tuple[float, float]]:
    return [(x, y) for x, y in np.reshape(np.asarray(xy_mm, float), (-1, 2)).tolist()]
