"""Sections: what the person decided about dividing the sign onto the sheets at hand."""

from dataclasses import dataclass, field
from typing import Literal, get_args

from holeplacer.sheet.stock import Stock

Preparation = Literal["square", "bevel"]
"""How the edges of a seam are prepared for the weld."""

Turning = Literal["any", "quarter", "none"]
"""How a section may be turned on its sheet: freely, by quarter turns (brushed finish), not at
all."""

PREPARATIONS: tuple[Preparation, ...] = get_args(Preparation)
TURNINGS: tuple[Turning, ...] = get_args(Turning)


@dataclass(frozen=True)
class Feeds:
    """What a rough time is reckoned from; a figure that is None was not entered.

    Attributes:
        cut_mm_min: Speed of cutting.
        travel_mm_min: Speed between two contours.
        pierce_s: Time of one pierce.
        weld_mm_min: Speed of welding.
    """

    cut_mm_min: float | None = None
    travel_mm_min: float | None = None
    pierce_s: float | None = None
    weld_mm_min: float | None = None


@dataclass(frozen=True)
class CouponChoice:
    """The test plate on which holes are tried before the sign is cut.

    Attributes:
        step_mm: Between two diameters: half of what a plasma table repeats (common practice, no
            source).
        steps: Smaller and larger diameters than planned, so many of either.
        width_mm, height_mm: The plate, such as the drop at hand; None: as large as it needs.
    """

    step_mm: float = 0.2
    steps: int = 2
    width_mm: float | None = None
    height_mm: float | None = None


@dataclass(frozen=True)
class SectionsChoice:
    """Sheets at hand and how the sign is divided onto them.

    Attributes:
        stock: Sheets at hand; none: the sign is not divided.
        margin_mm: Kept free along every side of a sheet (clamps, burnt edges).
        seam_clear_mm: Least distance from a seam to a hole's edge, to a tip, and to the disc of a
            junction: heat, filler and grinding need room (common practice, no source).
        travel_width_mm, travel_height_mm: How far the table's torch travels; None: further than
            any sheet.
        apart_mm: Least distance between two sections on a sheet.
        root_gap_mm: Gap left for the weld; half of it is taken from either side of a seam.
        preparation: How the seam's edges are prepared.
        turning: How a section may be turned on its sheet.
        feeds: What a rough time is reckoned from.
        coupon: How the test plate is made.
    """

    stock: tuple[Stock, ...] = ()
    margin_mm: float = 10.0
    seam_clear_mm: float = 15.0
    travel_width_mm: float | None = None
    travel_height_mm: float | None = None
    apart_mm: float = 8.0
    root_gap_mm: float = 0.0
    preparation: Preparation = "square"
    turning: Turning = "any"
    feeds: Feeds = field(default_factory=Feeds)
    coupon: CouponChoice = field(default_factory=CouponChoice)
