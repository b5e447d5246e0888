"""Pressure: a wind's push or pull on a unit of area, as people write it; inside, pascals."""

from holeplacer.errors import InputError
from holeplacer.loads.quantity import Quantity, decimals
from holeplacer.units import LengthUnit

PA_PER_PSF = 4.4482216152605 / 0.3048**2
"""One pound-force on a square foot, both exact by definition."""

PA_PER_MPA = 1e6

LARGEST_PA = 100_000.0
"""A whole atmosphere: more than any wind, so that a larger figure is a slip of the unit."""

_PRESSURE = Quantity(
    noun="a pressure",
    example="20 psf, 958 Pa, 1 kPa or 0.001 N/mm2",
    factors={
        "pa": 1.0,
        "n/m2": 1.0,
        "hpa": 100.0,
        "mbar": 100.0,
        "kpa": 1e3,
        "kn/m2": 1e3,
        "mpa": PA_PER_MPA,
        "n/mm2": PA_PER_MPA,
        "kgf/m2": 9.80665,
        "kg/m2": 9.80665,
        "psf": PA_PER_PSF,
        "lb/ft2": PA_PER_PSF,
        "lbf/ft2": PA_PER_PSF,
        "lb/sqft": PA_PER_PSF,
        "ksf": 1e3 * PA_PER_PSF,
        "psi": 144 * PA_PER_PSF,
        "lb/in2": 144 * PA_PER_PSF,
    },
)


def parse_pressure(text: str, *, field: str = "pressure", bare: str = "") -> float:
    """Pascals of a pressure a person typed.

    Args:
        text: Such as `20 psf`, `958 Pa`, `1 kPa`, `0.001 N/mm2`.
        field: What it is of, named in the error.
        bare: Unit of a number without one, where a form shows it; empty: such a number is refused.

    Raises:
        InputError: It is not a pressure, has no unit, is negative, or is more than any wind.

    >>> round(parse_pressure("20 psf"), 1), parse_pressure("1 kPa")
    (957.6, 1000.0)
    """
    if text.replace(" ", "").endswith("mPa"):
        raise InputError(
            f"{text[:60]!r} is thousandths of a pascal",
            where=field,
            remedy="write MPa for N/mm2, or Pa",
        )
    pa = _PRESSURE.value(text, field=field, bare=bare)
    if pa < 0:
        raise InputError(
            f"{text!r} is negative",
            where=field,
            remedy="enter the size; the pressures off the wall and on to it are two entries",
        )
    if pa > LARGEST_PA:
        raise InputError(
            f"{text!r} is more than any wind",
            where=field,
            remedy=f"see whether the unit is right; at most {LARGEST_PA / 1e3:g} kPa",
        )
    return pa


def format_pressure(pa: float, unit: LengthUnit = LengthUnit.MM) -> str:
    """A pressure for reading: `20 psf` where inches are shown, else `958 Pa` or `1.25 kPa`."""
    if unit is LengthUnit.INCH:
        psf = pa / PA_PER_PSF
        return f"{decimals(psf, 1 if abs(psf) >= 10 else 2)} psf"
    if abs(pa) >= 999.5:
        return f"{decimals(pa / 1e3, 2 if abs(pa) < 99_950 else 1)} kPa"
    return f"{decimals(pa, 0 if abs(pa) >= 100 else 1)} Pa"
