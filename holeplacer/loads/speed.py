"""Speed: a wind's, as people write it; inside, metres a second."""

from holeplacer.errors import InputError
from holeplacer.loads.quantity import Quantity, decimals
from holeplacer.units import LengthUnit

M_S_PER_MPH = 0.44704

LARGEST_M_S = 150.0
"""336 mph: above every basic wind speed of both standards' maps."""

_SPEED = Quantity(
    noun="a speed",
    example="115 mph, 51 m/s or 185 km/h",
    factors={
        "m/s": 1.0,
        "mps": 1.0,
        "km/h": 1 / 3.6,
        "kmh": 1 / 3.6,
        "kph": 1 / 3.6,
        "mph": M_S_PER_MPH,
        "mi/h": M_S_PER_MPH,
        "ft/s": 0.3048,
        "kn": 1852 / 3600,
        "kt": 1852 / 3600,
        "knots": 1852 / 3600,
    },
)


def parse_speed(text: str, *, field: str = "wind speed", bare: str = "") -> float:
    """Metres a second of a wind speed a person typed.

    Args:
        text: Such as `115 mph`, `51 m/s`, `185 km/h`.
        field: What it is of, named in the error.
        bare: Unit of a number without one, where a form shows it; empty: such a number is refused.

    Raises:
        InputError: It is not a speed, has no unit, or no wind has it.

    >>> round(parse_speed("115 mph"), 4)
    51.4096
    """
    m_s = _SPEED.value(text, field=field, bare=bare)
    if not 0 < m_s <= LARGEST_M_S:
        raise InputError(
            f"{text!r} is no wind speed",
            where=field,
            remedy=f"enter more than 0 and at most {format_speed(LARGEST_M_S)}",
        )
    return m_s


def format_speed(m_s: float, unit: LengthUnit = LengthUnit.MM) -> str:
    """A wind speed for reading: `115 mph` where inches are shown, else `51.4 m/s`."""
    if unit is LengthUnit.INCH:
        return f"{decimals(m_s / M_S_PER_MPH, 1)} mph"
    return f"{decimals(m_s, 2 if m_s < 10 else 1)} m/s"
