"""Single-line font: texts as strokes that a torch, a pen or an engraver can follow."""

import json
import math
from dataclasses import dataclass
from functools import cache

import numpy as np

from holeplacer import resources
from holeplacer.geometry.curve import Points

_GAP = 1.2
"""Between signs, in the font's units."""

_UNKNOWN = "?"


@dataclass(frozen=True, eq=False)
class Sign:
    """One sign of the font.

    Attributes:
        width: In units of capital height.
        strokes: (n, 2) points each, base line at y = 0.
    """

    width: float
    strokes: tuple[Points, ...]


@cache
def signs() -> dict[str, Sign]:
    """Every sign, capitals 1 high."""
    font = json.loads(resources.resource_path("fonts", "single_line.json").read_text("utf-8"))
    height = font["height"]
    return {
        name: Sign(width / height, tuple(_stroke(text) / height for text in strokes))
        for name, (width, *strokes) in font["signs"].items()
    } | {"\0": Sign(_GAP / height, ())}


def strokes_of(
    text: str, height_mm: float, at: tuple[float, float] = (0.0, 0.0), angle_rad: float = 0.0
) -> tuple[Points, ...]:
    """A line of text as strokes.

    Args:
        text: Small letters are shown as capitals, signs that the font lacks as a question mark.
        height_mm: Height of capitals.
        at: Left end of the base line, mm.
        angle_rad: Direction of the base line.
    """
    cos, sin = math.cos(angle_rad), math.sin(angle_rad)
    turn = np.array([[cos, sin], [-sin, cos]]) * height_mm
    found: list[Points] = []
    x = 0.0
    for sign in _spelled(text):
        found += [(stroke + np.array([x, 0.0])) @ turn + at for stroke in sign.strokes]
        x += sign.width + signs()["\0"].width
    return tuple(found)


def width_mm(text: str, height_mm: float) -> float:
    """Width of a line of text."""
    spelled = _spelled(text)
    gaps = max(len(spelled) - 1, 0) * signs()["\0"].width
    return height_mm * (sum(sign.width for sign in spelled) + gaps)


def _spelled(text: str) -> list[Sign]:
    known = signs()
    return [known.get(letter, known[_UNKNOWN]) for letter in text.upper()]


def _stroke(text: str) -> Points:
    return np.array([[float(value) for value in point.split(",")] for point in text.split()])
