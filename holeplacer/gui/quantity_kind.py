"""Quantity kinds: how pressures, speeds, feeds, forces and numbers are typed and shown."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from holeplacer.errors import InputError
from holeplacer.loads import degrees, force, pressure, speed
from holeplacer.loads.quantity import Quantity, decimals
from holeplacer.units import MM_PER_INCH, LengthUnit, format_area

_MM2_PER_FT2 = (12 * MM_PER_INCH) ** 2
_AREA = Quantity(
    noun="an area",
    example="0.5 m2 or 5 sq ft",
    factors={"mm2": 1.0, "cm2": 100.0, "m2": 1e6, "in2": MM_PER_INCH**2, "sqin": MM_PER_INCH**2,
             "ft2": _MM2_PER_FT2, "sqft": _MM2_PER_FT2},
)  # fmt: skip
_FEED = Quantity(
    noun="a feed",
    example="2500 mm/min, 2.5 m/min or 100 in/min",
    factors={"mm/min": 1.0, "m/min": 1000.0, "mm/s": 60.0, "in/min": MM_PER_INCH,
             "ipm": MM_PER_INCH},
)  # fmt: skip
_DURATION = Quantity(
    noun="a time",
    example="0.8 s",
    factors={"s": 1.0, "sec": 1.0, "ms": 0.001, "min": 60.0},
)


@dataclass(frozen=True)
class QuantityKind:
    """One kind of figure.

    Attributes:
        parse: The figure of a text; named arguments `field` and `bare`.
        show: The figure with its unit.
        bare: Unit taken where none is typed, in millimetres and in inches; empty: it is asked for.
    """

    parse: Callable[..., float]
    show: Callable[[float, LengthUnit], str]
    bare: tuple[str, str] = ("", "")

    def read(self, text: str, field: str, unit: LengthUnit) -> float:
        """The figure that was typed.

        Raises:
            InputError: It is no such figure.
        """
        return self.parse(text, field=field, bare=self.bare[unit is LengthUnit.INCH])


def _parse_area(text: str, *, field: str, bare: str) -> float:
    area = _AREA.value(text, field=field, bare=bare)
    if area <= 0:
        raise InputError(f"{text!r} is no area", where=field, remedy="enter more than 0")
    return area


def _parse_number(text: str, *, field: str, bare: str) -> float:
    del bare
    try:
        value = float(text.replace(",", "."))
    except ValueError:
        value = float("nan")
    if not abs(value) < float("inf"):
        raise InputError(f"{text[:60]!r} is no number", where=field, remedy="write it like 0.85")
    return value


def _parse_feed(text: str, *, field: str, bare: str) -> float:
    feed = _FEED.value(text, field=field, bare=bare)
    if feed <= 0:
        raise InputError(f"{text!r} is no feed", where=field, remedy="enter more than 0")
    return feed


def _show_feed(mm_min: float, unit: LengthUnit) -> str:
    if unit is LengthUnit.INCH:
        return f"{decimals(mm_min / MM_PER_INCH, 1)} in/min"
    return f"{decimals(mm_min, 0)} mm/min"


def _parse_duration(text: str, *, field: str, bare: str) -> float:
    seconds = _DURATION.value(text, field=field, bare=bare)
    if seconds < 0:
        raise InputError(f"{text!r} is no time", where=field, remedy="enter 0 or more")
    return seconds


def _show_duration(seconds: float, _unit: LengthUnit) -> str:
    return f"{decimals(seconds, 2)} s"


def _show_number(value: float, _unit: LengthUnit) -> str:
    return decimals(value, 4)


PRESSURE = QuantityKind(pressure.parse_pressure, pressure.format_pressure)
SPEED = QuantityKind(speed.parse_speed, speed.format_speed, ("m/s", "mph"))
FORCE = QuantityKind(force.parse_force, force.format_force, ("n", "lb"))
TEMPERATURE = QuantityKind(degrees.parse_temperature, degrees.format_temperature, ("c", "f"))
AREA = QuantityKind(_parse_area, format_area, ("m2", "ft2"))
NUMBER = QuantityKind(_parse_number, _show_number)
FEED = QuantityKind(_parse_feed, _show_feed, ("mm/min", "in/min"))
DURATION = QuantityKind(_parse_duration, _show_duration, ("s", "s"))
