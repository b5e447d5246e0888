"""Wording: sentences of the core, which reckons in millimetres, in the unit the person chose."""

from __future__ import annotations

import re

from holeplacer.units import LengthUnit, format_length

_NUMBER = r"(-?\d+(?:\.\d+)?)"
_PLACE = re.compile(rf"x {_NUMBER}, y {_NUMBER} mm\b")
_LENGTH = re.compile(rf"(?<![\w.]){_NUMBER} mm\b")


def in_unit(sentence: str, unit: LengthUnit) -> str:
    """The sentence with its lengths in this unit.

    >>> in_unit('Hole 3: ligament 6.35 mm, at x 25.4, y 50.8 mm', LengthUnit.INCH)
    'Hole 3: ligament 1/4 in, at x 1 in, y 2 in'
    """
    if unit is LengthUnit.MM:
        return sentence

    def shown(text: str) -> str:
        return format_length(float(text), unit)

    places = _PLACE.sub(lambda found: f"x {shown(found[1])}, y {shown(found[2])}", sentence)
    return _LENGTH.sub(lambda found: shown(found[1]), places)
