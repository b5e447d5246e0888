"""Entry: wall, place, zones and layers as a person types them.

20 x 10 ft                          the wall's width and height
left 12in, ground 8ft               where the sign hangs
beam: 40in, 20in to 60in, 24in      a rectangle between two opposite corners
conduit: 40in, 0 to 40in, 8ft wide 1in      a band along a line
vent: 0, 0; 300, 0; 300, 200        a polygon
16in from 4in wide 1 1/2in          studs: spacing, first middle, width
soft 3/4in: foam                    a layer
"""

import re

from holeplacer import units
from holeplacer.errors import InputError
from holeplacer.units import LengthUnit
from holeplacer.wall.layer import LAYER_KINDS, Layer
from holeplacer.wall.wall import Across, Elevation, Placing, Up
from holeplacer.wall.zone import LEAST_POINTS, Studs, Zone, ZoneKind, ZoneShape

LONGEST = 4000
"""Letters that are looked at."""

_BY = re.compile(r"\s*(?:x|×|\bby\b)\s*", re.IGNORECASE)
_UNIT = re.compile(r"[a-z\"'″”′’]+\s*$", re.IGNORECASE)
_POINTS = re.compile(r"\s+to\s+|;", re.IGNORECASE)
_WIDE = re.compile(r"\s+wide\s+", re.IGNORECASE)
_FROM = re.compile(r"\s+from\s+", re.IGNORECASE)
_ACROSS: dict[str, Across] = {"centred": "centred", "left": "left", "right": "right"}
_UP: dict[str, Up] = {
    "middle": "centred",
    "bottom": "bottom",
    "top": "top",
    "ground": "ground",
    "level": "level",
}


def parse_elevation(
    text: str, *, ground_mm: float = 0.0, bare: LengthUnit = LengthUnit.MM
) -> Elevation:
    """The wall's size: `6 m x 3 m`, `20 x 10 ft`.

    Args:
        text: What was typed. A unit after the second length only is that of both.
        ground_mm: Height of the ground over the wall's lower edge.
        bare: Unit of lengths that bear none.

    Raises:
        InputError: It is not two lengths above nothing.

    >>> parse_elevation("20 x 10 ft")
    Elevation(width_mm=6096.0, height_mm=3048.0, ground_mm=0.0)
    """
    parts = _BY.split(_checked(text).strip())
    if len(parts) != 2:
        raise InputError(
            f"{text[:60]!r} is not a wall's size", remedy="write it like 20 x 10 ft or 6 m x 3 m"
        )
    unit = _UNIT.search(parts[1])
    width_text = parts[0] if unit is None or _UNIT.search(parts[0]) else f"{parts[0]} {unit[0]}"
    width = units.parse_length(width_text, bare=bare, field="wall, width")
    height = units.parse_length(parts[1], bare=bare, field="wall, height")
    if not (width > 0 and height > 0):
        raise InputError(f"{text[:60]!r} is no wall", remedy="both lengths must be above nothing")
    return Elevation(width, height, ground_mm)


def parse_placing(text: str, *, bare: LengthUnit = LengthUnit.MM) -> Placing:
    """Where the sign hangs: `centred`, `left 12in, ground 8ft`, `right 1 m, level 2.4 m`.

    Sideways `centred`, `left` or `right`; upwards `middle`, `bottom`, `top`, `ground` (the sign's
    lower edge above it) or `level` (its level line above the ground); each with a length.

    Raises:
        InputError: A word or length is none, or one direction is given twice.
    """
    across: tuple[Across, float] | None = None
    up: tuple[Up, float] | None = None
    for part in _checked(text).split(","):
        word, _, rest = part.strip().partition(" ")
        mm = units.parse_length(rest, bare=bare, field=f"place, {word}") if rest.strip() else 0.0
        kind = word.lower()
        if kind in _ACROSS and across is None:
            across = (_ACROSS[kind], mm)
        elif kind in _UP and up is None:
            up = (_UP[kind], mm)
        else:
            raise InputError(
                f"{part.strip()[:40]!r} is no place on the wall",
                remedy="write it like centred, or left 12in, ground 8ft; each direction once",
            )
    one, two = across or ("centred", 0.0), up or ("centred", 0.0)
    return Placing(one[0], one[1], two[0], two[1])


def parse_zone(kind: ZoneKind, text: str, *, bare: LengthUnit = LengthUnit.MM) -> Zone:
    """A zone: `beam: 40in, 20in to 60in, 24in`, with `wide 1in` a band, with `;` a polygon.

    Args:
        kind: Good, blocked or unknown.
        text: What was typed; what it is stands before a colon and may be left out.
        bare: Unit of lengths that bear none.

    Raises:
        InputError: It is none.
    """
    what, rest = _named(_checked(text))
    line, *wide = _WIDE.split(rest.strip())
    points = tuple(_point(part, text, bare) for part in _POINTS.split(line))
    shape: ZoneShape = "band" if wide else ("rectangle" if len(points) == 2 else "polygon")
    if len(wide) > 1 or len(points) < LEAST_POINTS[shape]:
        raise _no_zone(text)
    half = units.parse_length(wide[0], bare=bare, field="zone, width") / 2 if wide else 0.0
    return Zone(kind, what, shape, points, half)


def parse_studs(text: str, *, bare: LengthUnit = LengthUnit.MM) -> Studs:
    """Framing: `16in from 4in wide 1 1/2in`; the width may be left out.

    Raises:
        InputError: It is none.
    """
    body, *wide = _WIDE.split(_checked(text).strip())
    spacing, *first = _FROM.split(body)
    if len(first) != 1 or len(wide) > 1:
        raise InputError(
            f"{text[:60]!r} is no framing",
            remedy="write spacing and the first one's middle, like 16in from 4in wide 1 1/2in",
        )
    found = Studs(
        units.parse_length(first[0], bare=bare, field="studs, first"),
        units.parse_length(spacing, bare=bare, field="studs, spacing"),
    )
    if not wide:
        return found
    width = units.parse_length(wide[0], bare=bare, field="studs, width")
    return Studs(found.first_mm, found.spacing_mm, width)


def parse_layer(text: str, *, bare: LengthUnit = LengthUnit.MM) -> Layer:
    """A layer: `soft 3/4in: foam`; what it is may be left out.

    Raises:
        InputError: It is none.

    >>> parse_layer("soft 3/4in: foam")
    Layer(kind='soft', thickness_mm=19.05, name='foam')
    """
    body, _, name = _checked(text).partition(":")
    word, _, thickness = body.strip().partition(" ")
    kind = next((kind for kind in LAYER_KINDS if kind == word.lower()), None)
    if kind is None:
        raise InputError(
            f"{word[:40]!r} is no kind of layer", remedy=f"take {', '.join(LAYER_KINDS)}"
        )
    mm = units.parse_length(thickness, bare=bare, field=f"{kind}, thickness")
    if not mm > 0:
        raise InputError(f"{mm:g} mm is no thickness", where=kind, remedy="enter more than nothing")
    return Layer(kind, mm, name.strip())


def _named(text: str) -> tuple[str, str]:
    what, colon, rest = text.rpartition(":")
    return (what.strip(), rest) if colon else ("", text)


def _point(part: str, whole: str, bare: LengthUnit) -> tuple[float, float]:
    pair = part.split(",")
    if len(pair) != 2:
        raise _no_zone(whole)
    x, y = (units.parse_length(value, bare=bare, field="zone") for value in pair)
    return x, y


def _no_zone(text: str) -> InputError:
    return InputError(
        f"{text[:60]!r} is no zone",
        remedy="write it like beam: 40in, 20in to 60in, 24in, or conduit: 40in, 0 to 40in, 8ft "
        "wide 1in, or vent: 0, 0; 300, 0; 300, 200",
    )


def _checked(text: str) -> str:
    if len(text) > LONGEST:
        raise InputError(f"more than {LONGEST} letters", where="wall")
    return text
