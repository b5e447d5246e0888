"""Colour scale: even steps of colour for a figure, told apart with any kind of colour vision.

A straight line from blue to yellow in CIELAB (CIE 15, D65), a space in which equal ways look like
equal differences. Lightness rises along it as evenly as colour does, and the two ends differ along
the blue and yellow axis, which the common kinds of colour blindness keep. More is darker on light
ground and lighter on dark ground, so that the greatest figures stand out most in both.
"""

from __future__ import annotations

import math
from functools import cache

STEPS = 10
"""Classes of a scale."""

Lab = tuple[float, float, float]

_BLUE: Lab = (27.0, 18.0, -46.0)
_YELLOW: Lab = (92.0, -3.0, 38.0)
_WHITE = (0.95047, 1.0, 1.08883)  # D65, 2 degrees
_KNEE = 6.0 / 29.0
_TO_RGB = (  # IEC 61966-2-1
    (3.2404542, -1.5371385, -0.4985314),
    (-0.9692660, 1.8760108, 0.0415560),
    (0.0556434, -0.2040259, 1.0572252),
)


@cache
def colours(*, dark: bool) -> tuple[str, ...]:
    """One colour for each class, the least figures first, as `#rrggbb`.

    Args:
        dark: For a dark ground.
    """
    steps = tuple(hex_of(lab) for lab in labs())
    return steps if dark else steps[::-1]


def labs() -> tuple[Lab, ...]:
    """The same in CIELAB, from blue to yellow."""
    shares = (step / (STEPS - 1) for step in range(STEPS))
    return tuple(_between(share) for share in shares)


def hex_of(lab: Lab) -> str:
    """A CIELAB colour as sRGB, clipped where the screen can't show it."""
    parts = (round(255 * min(max(part, 0.0), 1.0)) for part in srgb(lab))
    return "#" + "".join(f"{part:02x}" for part in parts)


def srgb(lab: Lab) -> tuple[float, ...]:
    """Values in sRGB of a CIELAB colour, 0 to 1 where a screen can show it."""
    lightness, a, b = lab
    middle = (lightness + 16.0) / 116.0
    xyz = [
        white * _uncurved(part)
        for white, part in zip(
            _WHITE, (middle + a / 500.0, middle, middle - b / 200.0), strict=True
        )
    ]
    return tuple(
        _encoded(sum(factor * part for factor, part in zip(row, xyz, strict=True)))
        for row in _TO_RGB
    )


def _between(share: float) -> Lab:
    one, two, three = (
        start + share * (end - start) for start, end in zip(_BLUE, _YELLOW, strict=True)
    )
    return one, two, three


def _uncurved(part: float) -> float:
    return part**3 if part > _KNEE else 3.0 * _KNEE**2 * (part - 4.0 / 29.0)


def _encoded(linear: float) -> float:
    if linear <= 0.0031308:
        return 12.92 * linear
    return 1.055 * math.pow(linear, 1.0 / 2.4) - 0.055
