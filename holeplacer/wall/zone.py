"""Zone: a part of the wall that is good to fasten to, blocked, or unknown."""

from dataclasses import dataclass
from typing import Literal, get_args

ZoneKind = Literal["good", "blocked", "unknown"]
"""What a fastener meets there: structure that holds it, something that must not be drilled, or
nobody knows."""

ZoneShape = Literal["rectangle", "polygon", "band"]
"""Two opposite corners; three points or more; a line of two points or more with a half width."""

Point = tuple[float, float]

ZONE_KINDS: tuple[ZoneKind, ...] = get_args(ZoneKind)
ZONE_SHAPES: tuple[ZoneShape, ...] = get_args(ZoneShape)
LEAST_POINTS: dict[ZoneShape, int] = {"rectangle": 2, "polygon": 3, "band": 2}


@dataclass(frozen=True)
class Zone:
    """One zone, in wall coordinates.

    Attributes:
        kind: Good, blocked or unknown.
        what: What is there, in the person's words: `beam`, `conduit`, `window`, `joint`.
        shape: How the points are meant.
        points_mm: Two opposite corners of a rectangle; a polygon's corners in order, not closed;
            a band's middle line.
        half_width_mm: Of a band, to either side of its line; 0 otherwise. A band ends square, at
            its line's ends.
    """

    kind: ZoneKind
    what: str
    shape: ZoneShape
    points_mm: tuple[Point, ...]
    half_width_mm: float = 0.0


@dataclass(frozen=True)
class Studs:
    """Upright framing at an even spacing, as the person entered it; every one is good to fasten to.

    Attributes:
        first_mm: From the wall's left edge to the middle of the first one.
        spacing_mm: Middle to middle.
        width_mm: Of one.
        count: How many; None: as far as the wall goes.
        bottom_mm, top_mm: Where they begin and end above the wall's lower edge; None: as high as
            the wall.
    """

    first_mm: float
    spacing_mm: float = 406.4
    width_mm: float = 38.1
    count: int | None = None
    bottom_mm: float = 0.0
    top_mm: float | None = None
