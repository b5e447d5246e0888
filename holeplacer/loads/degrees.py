"""Degrees: temperatures as people write them; inside, degrees Celsius."""

from holeplacer.errors import InputError
from holeplacer.loads.quantity import Quantity, decimals
from holeplacer.units import LengthUnit

COLDEST_C = -90.0
HOTTEST_C = 150.0
"""No wall was ever colder, no sheet in the sun hotter (common practice, no source)."""

_ZERO_C = {"c": 0.0, "degc": 0.0, "f": 32.0, "degf": 32.0, "k": 273.15}
_TEMPERATURE = Quantity(
    noun="a temperature",
    example="-20 °C or 100 °F",
    factors={"c": 1.0, "degc": 1.0, "f": 5 / 9, "degf": 5 / 9, "k": 1.0},
)


def parse_temperature(text: str, *, field: str = "temperature", bare: str = "") -> float:
    """Degrees Celsius of a temperature a person typed.

    Args:
        text: Such as `-20 °C`, `-20 C`, `100 F`, `293 K`.
        field: What it is of, named in the error.
        bare: Unit of a number without one (`c` or `f`), where a form shows it; empty: such a
            number is refused.

    Raises:
        InputError: It is not a temperature, has no unit, or no sheet on a wall has it.

    >>> parse_temperature("14 °F"), parse_temperature("-20 C")
    (-10.0, -20.0)
    """
    number, unit = _TEMPERATURE.parts(text, field=field, bare=bare)
    celsius = (number - _ZERO_C[unit]) * _TEMPERATURE.factors[unit]
    if not COLDEST_C <= celsius <= HOTTEST_C:
        raise InputError(
            f"{text!r} is no temperature of a sign",
            where=field,
            remedy=f"enter {format_temperature(COLDEST_C)} to {format_temperature(HOTTEST_C)}",
        )
    return celsius


def format_temperature(celsius: float, unit: LengthUnit = LengthUnit.MM) -> str:
    """A temperature for reading: `68 °F` where inches are shown, else `20 °C`."""
    if unit is LengthUnit.INCH:
        return f"{decimals(celsius * 9 / 5 + 32, 1)} °F"
    return f"{decimals(celsius, 1)} °C"


def format_change(kelvin: float, unit: LengthUnit = LengthUnit.MM) -> str:
    """A difference of temperatures for reading: `72 °F` where inches are shown, else `40 K`."""
    if unit is LengthUnit.INCH:
        return f"{decimals(kelvin * 9 / 5, 1)} °F"
    return f"{decimals(kelvin, 1)} K"
