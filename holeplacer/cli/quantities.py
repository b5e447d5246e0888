"""Quantities on the command line: lengths with units, factors, angles; a name or a length."""

import math
from collections.abc import Iterable
from dataclasses import dataclass

import click

from holeplacer import units
from holeplacer.errors import InputError
from holeplacer.sheet import metal


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


@dataclass(frozen=True)
class NameOrLength:
    """What `Named` takes: a name from a table, or a length of one's own.

    Attributes:
        name: The name; None where a length was given.
        mm: The length; None where a name was given.
    """

    name: str | None
    mm: float | None


class Named(click.ParamType[NameOrLength]):
    """A name out of a few, or a length in its place.

    Args:
        names: The names there are.
    """

    name = "name or length"

    def __init__(self, names: Iterable[str]) -> None:
        self._names = tuple(names)

    def convert(
        self, value: str | NameOrLength, param: click.Parameter | None, ctx: click.Context | None
    ) -> NameOrLength:
        """The name, or else millimetres of what was typed."""
        if isinstance(value, NameOrLength):
            return value
        for name in self._names:
            if name.casefold() == value.casefold():
                return NameOrLength(name, None)
        try:
            mm = units.parse_length(value)
        except InputError:
            mm = -1.0
        if mm < 0:
            listed = ", ".join(self._names)
            self.fail(f"{value[:60]!r} is neither of {listed}, nor a length", param, ctx)
        return NameOrLength(None, mm)


class MetalName(click.ParamType[str]):
    """A metal by any of its names."""

    name = "metal"

    def convert(
        self,
        value: str,
        param: click.Parameter | None,
        ctx: click.Context | None,
    ) -> str:
        """The name that plans know it by."""
        try:
            return metal.metal(value).name
        except InputError as error:
            self.fail(f"{error.what}; {error.remedy}", param, ctx)


POSITIVE = Length(above=True)
NOT_NEGATIVE = Length()
ANY = Length(-units.parse_length("1 m") * 10)
