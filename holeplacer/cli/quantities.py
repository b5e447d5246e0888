"""Quantities on the command line: lengths with units, factors, angles."""

import math

import click

from holeplacer import units
from holeplacer.errors import InputError


class Length(click.ParamType[float]):
    """A length such as `9.5 mm`, `3/8"` or `1 1/2 in`; a bare number is mm, a bare fraction inches.

    Args:
        least_mm: Smallest that is taken.
        above: Whether it must be more than `least_mm`, not equal to it.
    """

    name = "length"

    def __init__(self, least_mm: float = 0.0, *, above: bool = False) -> None:
        self._least = least_mm
        self._above = above

    def convert(
        self, value: str | float, param: click.Parameter | None, ctx: click.Context | None
    ) -> float:
        """Millimetres of what was typed."""
        if isinstance(value, float):
            return value
        try:
            mm = units.parse_length(str(value))
        except InputError as error:
            self.fail(f"{error.what}; {error.remedy}", param, ctx)
        if mm < self._least or (self._above and mm == self._least):
            than = "more than" if self._above else "at least"
            self.fail(f"{value!r} must be {than} {units.format_length(self._least)}", param, ctx)
        return mm


class Factor(click.ParamType[float]):
    """A plain factor such as `2`, `0.5` or `1:12`."""

    name = "factor"

    def convert(
        self, value: str | float, param: click.Parameter | None, ctx: click.Context | None
    ) -> float:
        """The factor; more than nothing and less than a million."""
        try:
            over, _, under = str(value).replace("/", ":").partition(":")
            factor = float(over) / float(under or "1")
        except (ValueError, ZeroDivisionError):
            self.fail(f"{value!r} is not a factor; write it like 2, 0.5 or 1:12", param, ctx)
        if not 1e-6 <= factor <= 1e6:
            self.fail(f"{value!r} is no usable factor; take 0.000001 to 1000000", param, ctx)
        return factor


class Angle(click.ParamType[float]):
    """An angle in degrees, + anticlockwise; radians inside."""

    name = "degrees"

    def convert(
        self, value: str | float, param: click.Parameter | None, ctx: click.Context | None
    ) -> float:
        """Radians of what was typed."""
        try:
            degrees = float(str(value).removesuffix("°"))
        except ValueError:
            degrees = math.nan
        if not abs(degrees) <= 360:
            self.fail(f"{value!r} is not an angle of -360 to 360 degrees", param, ctx)
        return math.radians(degrees)


POSITIVE = Length(above=True)
NOT_NEGATIVE = Length()
ANY = Length(-units.parse_length("1 m") * 10)
