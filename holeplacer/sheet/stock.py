"""Stock: the sheets at hand, by their measured size."""

import re
from dataclasses import dataclass

from holeplacer.errors import InputError
from holeplacer.units import LengthUnit, parse_length

_LARGEST_MM = 1e5
_LONGEST_TEXT = 80
_COUNTED = re.compile(r"\s*(?P<count>\d{1,6})\s+of\s+(?P<size>.+)", re.IGNORECASE | re.DOTALL)
_BY = re.compile(r"\s*(?:x|×|\*|\bby\b)\s*", re.IGNORECASE)
_BARE = re.compile(r"[\d\s.,/½¼¾⅛⅜⅝⅞⁄-]+")
_UNIT = re.compile(r"[^\d\s.,/½¼¾⅛⅜⅝⅞⁄-]+\s*$")


@dataclass(frozen=True)
class Stock:
    """Sheets of one size.

    Attributes:
        width_mm, height_mm: Size as measured; as bought where it was not measured.
        measured: Whether somebody held a tape to it; nominal sheets are often smaller.
        nominal: What it was bought as, for reading; may be empty.
        count: How many there are; None: as many as needed.
    """

    width_mm: float
    height_mm: float
    measured: bool
    nominal: str = ""
    count: int | None = None


def parse_stock(text: str, *, bare: LengthUnit = LengthUnit.MM, measured: bool = True) -> Stock:
    """The stock a person typed: `48 x 48 in`, `47 1/8 in x 48 in`, `3 of 1250 x 2500 mm`.

    A unit after the second size only is that of both.

    Args:
        text: What was typed.
        bare: Unit of sizes that bear none (fractions are inches).
        measured: Whether it was measured; else what was typed is kept as the nominal size, too.

    Raises:
        InputError: It is not two lengths, one is zero or less or over 100 m, or the count is 0.

    >>> parse_stock("48 x 47 1/8 in")
    Stock(width_mm=1219.2, height_mm=1196.975, measured=True, nominal='', count=None)
    """
    if len(text) > _LONGEST_TEXT:
        raise _not_a_sheet(text)
    counted = _COUNTED.fullmatch(text)
    count, size = (int(counted["count"]), counted["size"]) if counted else (None, text)
    parts = _BY.split(size.strip())
    if len(parts) != 2 or not all(parts) or count == 0:
        raise _not_a_sheet(text)
    width, height = (
        parse_length(part, bare=bare, field="sheet size") for part in _with_units(*parts)
    )
    if not (0 < width <= _LARGEST_MM and 0 < height <= _LARGEST_MM):
        raise InputError(
            f"a sheet of {text.strip()!r} is not possible", remedy="each side is above 0, to 100 m"
        )
    return Stock(width, height, measured, "" if measured else size.strip(), count)


def _with_units(width: str, height: str) -> tuple[str, str]:
    """Both sizes, the second one's unit given to the first where it has none."""
    if not _BARE.fullmatch(width):
        return width, height
    unit = _UNIT.search(height)
    if unit is not None:
        return f"{width} {unit[0]}", height
    if _fraction(width) or _fraction(height):
        return f"{width} in", f"{height} in"
    return width, height


def _fraction(text: str) -> bool:
    return any(sign in text for sign in "/½¼¾⅛⅜⅝⅞⁄")


def _not_a_sheet(text: str) -> InputError:
    return InputError(
        f"{text[:60]!r} is not a sheet size",
        remedy="write it like 48 x 48 in, 47 1/8 x 48 in or 3 of 1250 x 2500 mm",
    )
