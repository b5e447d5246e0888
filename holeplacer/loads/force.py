"""Force: what an anchor carries, as people write it; inside, newtons."""

from holeplacer.errors import InputError
from holeplacer.loads.quantity import Quantity, decimals
from holeplacer.units import LengthUnit

N_PER_POUND = 4.4482216152605

LARGEST_N = 1e6
"""A hundred tons: no standoff's anchor carries more."""

_FORCE = Quantity(
    noun="a force",
    example="200 lb, 900 N or 0.9 kN",
    factors={
        "n": 1.0,
        "kn": 1e3,
        "kgf": 9.80665,
        "kg": 9.80665,
        "lb": N_PER_POUND,
        "lbs": N_PER_POUND,
        "lbf": N_PER_POUND,
        "kip": 1e3 * N_PER_POUND,
        "kips": 1e3 * N_PER_POUND,
    },
)


def parse_force(text: str, *, field: str = "force", bare: str = "") -> float:
    """Newtons of a force a person typed.

    Args:
        text: Such as `200 lb`, `900 N`, `0.9 kN`.
        field: What it is of, named in the error.
        bare: Unit of a number without one, where a form shows it; empty: such a number is refused.

    Raises:
        InputError: It is not a force, has no unit, is not above 0, or is more than any anchor's.

    >>> round(parse_force("200 lb"), 1)
    889.6
    """
    newtons = _FORCE.value(text, field=field, bare=bare)
    if not 0 < newtons <= LARGEST_N:
        raise InputError(
            f"{text!r} is no anchor's force",
            where=field,
            remedy=f"enter more than 0 and at most {format_force(LARGEST_N)}",
        )
    return newtons


def format_force(newtons: float, unit: LengthUnit = LengthUnit.MM) -> str:
    """A force for reading: `200 lb` where inches are shown, else `890 N` or `1.25 kN`."""
    if unit is LengthUnit.INCH:
        pounds = newtons / N_PER_POUND
        return f"{decimals(pounds, 0 if abs(pounds) >= 100 else 1)} lb"
    if abs(newtons) >= 999.5:
        return f"{decimals(newtons / 1e3, 2)} kN"
    return f"{decimals(newtons, 0 if abs(newtons) >= 100 else 1)} N"
