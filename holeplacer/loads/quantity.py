"""Quantity: a number with its unit as people write it, and never without one.

A length without a unit can be taken as millimetres and its size be seen at once on the screen; a
pressure or a speed can't, and in the wrong unit it is wrong by a factor of fifty. So a unit is
asked for, and a comma that may part thousands as well as decimals is not guessed at.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass

from holeplacer.errors import InputError

_LONGEST_TEXT = 60
_WRITTEN = re.compile(r"(?P<number>[-+]?(?:\d+[.,]?\d*|[.,]\d+)(?:[eE][-+]?\d+)?)(?P<unit>.*)")
_THOUSANDS = re.compile(r"[-+]?[1-9]\d{0,2},\d{3}(?!\d)")
_PLAIN_SIGNS = str.maketrans({"−": "-", "²": "2", "³": "3", "^": "", "·": "", "°": ""})


@dataclass(frozen=True)
class Quantity:
    """One kind of quantity and how it may be written.

    Attributes:
        noun: What it is, with its article: `a pressure`.
        factors: Base units in one unit, by the unit's name in lower case without spaces.
        example: How to write it, for the error.
    """

    noun: str
    factors: Mapping[str, float]
    example: str

    def value(self, text: str, *, field: str = "", bare: str = "") -> float:
        """What was typed, in the base unit.

        Args:
            text: What was typed.
            field: What it is of, named in the error.
            bare: Unit of a number that bears none, where the form shows it; empty: refused.

        Raises:
            InputError: It is no such quantity, bears no unit, or its comma can be read two ways.
        """
        number, unit = self.parts(text, field=field, bare=bare)
        return number * self.factors[unit]

    def parts(self, text: str, *, field: str = "", bare: str = "") -> tuple[float, str]:
        """The number and its unit's name.

        Raises:
            InputError: As `value`.
        """
        body = "".join(text.translate(_PLAIN_SIGNS).split())
        match = _WRITTEN.fullmatch(body)
        if match is None or len(text) > _LONGEST_TEXT:
            raise self._refused(text, field)
        if _THOUSANDS.match(match["number"]):
            raise InputError(
                f"the comma of {text!r} may part thousands or decimals",
                where=field,
                remedy="write it without, or with a point",
            )
        unit = match["unit"].lower() or bare
        if not unit:
            raise InputError(
                f"{text!r} has no unit", where=field, remedy=f"write it like {self.example}"
            )
        if unit not in self.factors:
            raise self._refused(text, field)
        number = float(match["number"].replace(",", "."))
        if abs(number) == float("inf"):
            raise self._refused(text, field)
        return number, unit

    def _refused(self, text: str, field: str) -> InputError:
        return InputError(
            f"{text[:_LONGEST_TEXT]!r} is not {self.noun}",
            where=field,
            remedy=f"write it like {self.example}",
        )


def decimals(value: float, places: int) -> str:
    """A number with up to so many decimals, none of them a closing nought.

    >>> decimals(20.0, 2), decimals(0.125, 2), decimals(-0.001, 2)
    ('20', '0.13', '0')
    """
    text = f"{value + (1e-9 if value > 0 else -1e-9):.{places}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text == "-0" else text
