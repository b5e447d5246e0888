"""Quantity kinds: how pressures, speeds, forces and plain numbers are typed and shown in a form."""

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


def _show_number(value: float, _unit: LengthUnit) -> str:
    return decimals(value, 4)


PRESSURE = QuantityKind(pressure.parse_pressure, pressure.format_pressure)
SPEED = QuantityKind(speed.parse_speed, speed.format_speed, ("m/s", "mph"))
FORCE = QuantityKind(force.parse_force, force.format_force, ("n", "lb"))
TEMPERATURE = QuantityKind(degrees.parse_temperature, degrees.format_temperature, ("c", "f"))
AREA = QuantityKind(_parse_area, format_area, ("m2", "ft2"))
NUMBER = QuantityKind(_parse_number, _show_number)
