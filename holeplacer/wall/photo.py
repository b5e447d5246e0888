"""Photo: a picture of the wall, with the points that say where on the wall it lies."""

from dataclasses import dataclass

LARGEST_BYTES = 24_000_000
"""Of a picture's file. It is kept in the plan, so that the plan opens whole anywhere."""


@dataclass(frozen=True)
class PhotoPoint:
    """A point seen in the picture and found on the wall.

    Attributes:
        x_px, y_px: In the picture, from its upper left corner, y down.
        x_mm, y_mm: On the wall.
    """

    x_px: float
    y_px: float
    x_mm: float
    y_mm: float


@dataclass(frozen=True)
class Photo:
    """A photograph as backdrop.

    Attributes:
        name: Its file's name.
        data: Its file's bytes.
        points: Two points scale it, four square it up.
    """

    name: str
    data: bytes
    points: tuple[PhotoPoint, ...] = ()
