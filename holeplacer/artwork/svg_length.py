"""SVG lengths, view boxes and transforms: attribute text to numbers and maps.

Source: SVG 2 (W3C Candidate Recommendation, 4 October 2018), sections 8.5 to 8.9; CSS Values and
Units 3, section 6.2: 1 in = 2.54 cm = 96 px. Status R.
"""

import math
import re
from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from holeplacer.geometry.transform import IDENTITY, Matrix, combined, matrix
from holeplacer.units import DRAWING_UNITS_MM

NUMBER = r"[-+]?+(?:\d++\.?+\d*+|\.\d++)(?:[eE][-+]?+\d++)?+"
"""A number, never split in two: `12` is not `1` and `2` where a second one is wanted."""

_LENGTH = re.compile(rf"\s*({NUMBER})\s*(%|[A-Za-z]*)\s*$")
_NUMBERS = re.compile(NUMBER)
_TRANSFORM = re.compile(r"\s*,?\s*([A-Za-z]+)\s*\(([^()]*)\)\s*")
_ARGUMENT = re.compile(rf"({NUMBER})\s*([A-Za-z]*)")
_PX_MM = DRAWING_UNITS_MM["px"]
_PHYSICAL_MM = {
    "mm": 1.0,
    "cm": 10.0,
    "in": 25.4,
    "pt": 25.4 / 72,
    "pc": 25.4 / 6,
    "q": 0.25,
}
_FONT_PX = {"em": 16.0, "rem": 16.0, "ex": 8.0, "ch": 8.0}
_DEGREES = {"": 1.0, "deg": 1.0, "rad": 180 / math.pi, "grad": 0.9, "turn": 360.0}


@dataclass(frozen=True)
class Length:
    """A length as written.

    Attributes:
        value: The number.
        unit: Lower case, "" if bare, "%" for a share of the viewport.
    """

    value: float
    unit: str

    @property
    def mm(self) -> float | None:
        """Millimetres if the unit is a physical one."""
        factor = _PHYSICAL_MM.get(self.unit)
        return None if factor is None else self.value * factor

    def user_units(self, whole: float) -> float:
        """User units; `whole` is what 100 % is."""
        if self.unit == "%":
            return self.value / 100 * whole
        if self.mm is not None:
            return self.mm / _PX_MM
        return self.value * _FONT_PX.get(self.unit, 1.0)


def length(text: str | None) -> Length | None:
    """A length, or None if there is none, or it is not one (`auto`, nonsense, not finite)."""
    match = _LENGTH.match(text or "")
    if match is None:
        return None
    value = float(match[1])
    return Length(value, match[2].lower()) if math.isfinite(value) else None


@dataclass(frozen=True)
class Viewport:
    """What percentages are shares of, user units."""

    width: float
    height: float

    @property
    def diagonal(self) -> float:
        """What a percentage that is neither of width nor of height is a share of."""
        return math.hypot(self.width, self.height) / math.sqrt(2)


@dataclass(frozen=True)
class ViewBox:
    """The rectangle of user space that is fitted into a viewport."""

    x: float
    y: float
    width: float
    height: float

    def fitted(self, viewport: Viewport, aspect: str | None) -> Matrix:
        """Map from the view box to a viewport whose upper left corner is the origin.

        Args:
            viewport: To be filled.
            aspect: `preserveAspectRatio` as written: `none`, or an alignment such as
                `xMidYMid` (the default), with `meet` (the default) or `slice`.
        """
        words = (aspect or "").split()
        words = words[1:] if words[:1] == ["defer"] else words
        align = words[0] if words else "xMidYMid"
        sx, sy = viewport.width / self.width, viewport.height / self.height
        if align != "none":
            sx = sy = max(sx, sy) if words[1:2] == ["slice"] else min(sx, sy)
        share = {"min": 0.0, "mid": 0.5, "max": 1.0}
        left = share.get(align[1:4].lower(), 0.5) * (viewport.width - sx * self.width)
        top = share.get(align[5:8].lower(), 0.5) * (viewport.height - sy * self.height)
        if align == "none":
            left = top = 0.0
        return matrix(sx, 0.0, 0.0, sy, left - sx * self.x, top - sy * self.y)


def view_box(text: str | None) -> ViewBox | None:
    """A view box, or None if there is none or it has no area."""
    numbers = [float(number) for number in _NUMBERS.findall(text or "")]
    if len(numbers) != 4 or not all(map(math.isfinite, numbers)) or min(numbers[2:]) <= 0:
        return None
    return ViewBox(*numbers)


@lru_cache(maxsize=1024)
def transform(text: str | None) -> Matrix | None:
    """Map of a `transform` attribute or property; None where it is broken or not affine."""
    if not text or text.strip() == "none":
        return IDENTITY
    result, position = IDENTITY, 0
    while position < len(text):
        match = _TRANSFORM.match(text, position)
        step = _step(match[1], match[2]) if match else None
        if match is None or step is None:
            return None
        with np.errstate(over="ignore", invalid="ignore"):
            result, position = combined(result, step), match.end()
    result.setflags(write=False)
    return result if np.isfinite(result).all() else None


def _step(name: str, arguments: str) -> Matrix | None:
    """One function of a transform list."""
    pairs = _ARGUMENT.findall(arguments)
    make = _STEPS.get((name, len(pairs)))
    if make is None:
        return None
    numbers = [float(number) * _to_user_units(unit) for number, unit in pairs]
    if name.startswith(("rotate", "skew")):
        numbers[0] = float(pairs[0][0]) * _DEGREES.get(pairs[0][1], 1.0)
    return make(*numbers)


def _to_user_units(unit: str) -> float:
    return _PHYSICAL_MM.get(unit.lower(), _PX_MM) / _PX_MM


def _rotation(degrees: float, x: float = 0.0, y: float = 0.0) -> Matrix:
    """Turn about a point; quarter turns are exact."""
    quarter = degrees / 90
    if quarter == round(quarter):
        cos, sin = ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))[round(quarter) % 4]
    else:
        cos, sin = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return matrix(cos, sin, -sin, cos, x - cos * x + sin * y, y - sin * x - cos * y)


def _tangent(degrees: float) -> float:
    return math.tan(math.radians(degrees))


_STEPS: dict[tuple[str, int], Callable[..., Matrix]] = {
    ("matrix", 6): matrix,
    ("translate", 1): lambda x: matrix(1, 0, 0, 1, x, 0),
    ("translate", 2): lambda x, y: matrix(1, 0, 0, 1, x, y),
    ("translateX", 1): lambda x: matrix(1, 0, 0, 1, x, 0),
    ("translateY", 1): lambda y: matrix(1, 0, 0, 1, 0, y),
    ("scale", 1): lambda s: matrix(s, 0, 0, s, 0, 0),
    ("scale", 2): lambda x, y: matrix(x, 0, 0, y, 0, 0),
    ("scaleX", 1): lambda x: matrix(x, 0, 0, 1, 0, 0),
    ("scaleY", 1): lambda y: matrix(1, 0, 0, y, 0, 0),
    ("rotate", 1): _rotation,
    ("rotate", 3): _rotation,
    ("skewX", 1): lambda degrees: matrix(1, 0, _tangent(degrees), 1, 0, 0),
    ("skewY", 1): lambda degrees: matrix(1, _tangent(degrees), 0, 1, 0, 0),
}
"""Each transform function by name and number of arguments."""
