"""Lengths as people write them: inches with fractions, feet, millimetres; inside, always mm."""

import re
from enum import Enum
from fractions import Fraction

from holeplacer.errors import InputError

MM_PER_INCH = 25.4
_KG_PER_POUND = 0.45359237


class LengthUnit(Enum):
    """A unit a length is shown in."""

    MM = "mm"
    INCH = "in"


DRAWING_UNITS_MM = {
    "mm": 1.0,
    "cm": 10.0,
    "dm": 100.0,
    "m": 1000.0,
    "um": 0.001,
    "in": MM_PER_INCH,
    "ft": 304.8,
    "yd": 914.4,
    "mil": 0.0254,
    "px": MM_PER_INCH / 96,
    "pt": MM_PER_INCH / 72,
}
"""Millimetres in one drawing unit, by the name a person gives it (`--units`)."""

_SPELLINGS = {
    "mm": "mm",
    "millimeter": "mm",
    "millimeters": "mm",
    "millimetre": "mm",
    "millimetres": "mm",
    "cm": "cm",
    "m": "m",
    "meter": "m",
    "metre": "m",
    "in": "in",
    "inch": "in",
    "inches": "in",
    '"': "in",
    "''": "in",
    "″": "in",
    "”": "in",
    "ft": "ft",
    "foot": "ft",
    "feet": "ft",
    "'": "ft",
    "′": "ft",
    "’": "ft",
}
_VULGAR = {
    "½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8",
}  # fmt: skip
_NUMBER = r"\d+\s*/\s*\d+|\d+[\s-]+\d+\s*/\s*\d+|\d*[.,]\d+|\d+[.,]?"
_UNIT = r"millimet(?:er|re)s?|inch(?:es)?|foot|feet|met(?:er|re)|mm|cm|ft|in|m|''|[\"'″”′’]"
_TERM = re.compile(rf"\s*(?P<number>{_NUMBER})\s*-?\s*(?P<unit>{_UNIT})?\s*", re.IGNORECASE)
_MIXED = re.compile(r"(\d+)[\s-]+(\d+)\s*/\s*(\d+)$")
_LONGEST_MM = 1e6
_LONGEST_TEXT = 60


def parse_length(text: str, *, bare: LengthUnit = LengthUnit.MM, field: str = "") -> float:
    r"""Millimetres of a length a person typed.

    Takes `9.5 mm`, `3/8"`, `1 1/2 in`, `1-1/2"`, `6' 2 1/2"`, `2 cm`, `0,5 in`. A fraction
    without a unit is inches, since only inches are written so; any other number without a unit
    is in `bare`.

    Args:
        text: What was typed.
        bare: The unit of a number that bears none.
        field: What the length is of, named in the error.

    Raises:
        InputError: It is not a length, or is longer than a kilometre.

    >>> parse_length('1 1/2 in')
    38.1
    >>> round(parse_length("6' 2 1/2\""), 3)
    1892.3
    >>> parse_length('3/8')
    9.525
    """
    if len(text) > _LONGEST_TEXT:
        raise _not_a_length(text, field)
    body = _with_plain_fractions(text).strip()
    negative = body.startswith(("-", "−"))
    rest = body[1:] if negative else body.removeprefix("+")
    total, position, feet = Fraction(0), 0, False
    while position < len(rest):
        match = _TERM.match(rest, position)
        if match is None or (position > 0 and not feet):
            raise _not_a_length(text, field)
        unit = _unit_of(match, bare, after_feet=feet)
        if feet and unit != "in":
            raise _not_a_length(text, field)
        total += _number(match["number"], text, field) * Fraction(str(DRAWING_UNITS_MM[unit]))
        feet, position = unit == "ft", match.end()
    if not rest or not total <= _LONGEST_MM:
        raise _not_a_length(text, field)
    return float(-total if negative else total)


def format_length(mm: float, unit: LengthUnit = LengthUnit.MM, *, sixteenths: int = 4) -> str:
    """A length for reading: `12.7 mm`, or inches to the nearest fraction, `1 1/2 in`.

    Args:
        mm: The length.
        unit: What to show it in.
        sixteenths: The finest fraction is 1 / (16 * sixteenths) of an inch. Where the fraction
            would be off by more than 0.05 mm or 2 %, decimals are shown instead.
    """
    if unit is LengthUnit.MM:
        return f"{_trimmed(mm, 2 if abs(mm) < 10 else 1)} mm"
    inches = mm / MM_PER_INCH
    fraction = Fraction(round(inches * 16 * sixteenths), 16 * sixteenths)
    if abs(float(fraction) * MM_PER_INCH - mm) > min(0.05, 0.02 * abs(mm)):
        return f"{_trimmed(inches, 3 if abs(inches) >= 0.1 else 4)} in"
    whole, part = divmod(abs(fraction), 1)
    sign = "-" if fraction < 0 else ""
    pieces = [str(whole)] if whole or not part else []
    if part:
        pieces.append(f"{part.numerator}/{part.denominator}")
    return f"{sign}{' '.join(pieces)} in"


def format_way(mm: float, unit: LengthUnit = LengthUnit.MM) -> str:
    """A length of many metres: `14.59 m` or `47.9 ft`."""
    return f"{mm / 1000:.2f} m" if unit is LengthUnit.MM else f"{mm / (12 * MM_PER_INCH):.1f} ft"


def format_area(mm2: float, unit: LengthUnit = LengthUnit.MM) -> str:
    """An area of sheet: `0.229 m²` or `2.47 sq ft`."""
    if unit is LengthUnit.MM:
        return f"{mm2 / 1e6:.3f} m²"
    return f"{mm2 / (12 * MM_PER_INCH) ** 2:.2f} sq ft"


def format_mass(kg: float, unit: LengthUnit = LengthUnit.MM) -> str:
    """A mass: `2.73 kg` or `6.02 lb` (1 lb is 0.45359237 kg)."""
    return f"{kg:.2f} kg" if unit is LengthUnit.MM else f"{kg / _KG_PER_POUND:.2f} lb"


def _trimmed(value: float, decimals: int) -> str:
    # Half a hundredth rounds up, as people do it, though 9.525 in binary is a little less.
    text = f"{value + (1e-9 if value > 0 else -1e-9):.{decimals}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text == "-0" else text


def _with_plain_fractions(text: str) -> str:
    for sign, plain in _VULGAR.items():
        text = text.replace(sign, f" {plain}")
    return text.replace("⁄", "/")


def _unit_of(match: re.Match[str], bare: LengthUnit, *, after_feet: bool) -> str:
    if match["unit"]:
        return _SPELLINGS[match["unit"].lower()]
    return "in" if after_feet or "/" in match["number"] else bare.value


def _number(text: str, whole_text: str, field: str) -> Fraction:
    mixed = _MIXED.match(text)
    whole, fraction = (int(mixed[1]), f"{mixed[2]}/{mixed[3]}") if mixed else (0, text)
    if "/" not in fraction:
        return Fraction(fraction.replace(",", "."))
    over, under = (int(part) for part in fraction.split("/"))
    if under == 0:
        raise _not_a_length(whole_text, field)
    return whole + Fraction(over, under)


def _not_a_length(text: str, field: str) -> InputError:
    return InputError(
        f"{text[:60]!r} is not a length",
        where=field,
        remedy='write it like 9.5 mm, 3/8" or 1 1/2 in',
    )
