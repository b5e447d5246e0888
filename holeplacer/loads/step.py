"""Step: one figure on the way from the wind to the pressure, so that nothing is hidden.

Every coefficient is a step with its source and status; one that the person entered says so. A
condition is what a step can't show: what must be true of the sign and its place for the figures to
hold.
"""

from dataclasses import dataclass

from holeplacer import units
from holeplacer.errors import InputError
from holeplacer.loads import pressure, speed
from holeplacer.loads.quantity import decimals
from holeplacer.units import LengthUnit

ENTERED = "entered"
ENTERED_STATUS = "E"

_KG_M3_PER_LB_FT3 = 0.45359237 / 0.3048**3


@dataclass(frozen=True)
class Step:
    """One figure of a reckoning.

    Attributes:
        symbol: As the source writes it.
        value: In `unit`.
        unit: `Pa`, `m/s`, `mm`, `mm2`, `kg/m3`, or empty for a plain number.
        meaning: What it is, with what was chosen.
        source: Standard and clause, or `entered`.
        status: `P` read on a public page, `R` recomputed, `M` from memory: verify; with what it is
            of in brackets. `E` where the person entered the figure.
        entered: The person's own figure in place of the table's.
    """

    symbol: str
    value: float
    unit: str
    meaning: str
    source: str
    status: str
    entered: bool = False


@dataclass(frozen=True)
class Condition:
    """What must be true for the figures to hold.

    Attributes:
        text: One sentence.
        met: Whether it is; None: the person must see to it.
        source: Standard and clause, or whose practice it is.
        status: As a step's.
    """

    text: str
    met: bool | None
    source: str
    status: str


@dataclass(frozen=True)
class NominalPressure:
    """What a standard gives, before any factor of a combination.

    Attributes:
        out_pa, in_pa: Off the wall and on to it, positive magnitudes.
        steps: How they come about, in order.
        conditions: What must hold.
    """

    out_pa: float
    in_pa: float
    steps: tuple[Step, ...]
    conditions: tuple[Condition, ...]


def chosen(by_table: Step, entered: float | None) -> Step:
    """The table's step, or the same with the figure that the person entered."""
    if entered is None:
        return by_table
    return Step(
        by_table.symbol,
        entered,
        by_table.unit,
        by_table.meaning,
        ENTERED,
        ENTERED_STATUS,
        entered=True,
    )


def given(symbol: str, value: float, unit: str, meaning: str) -> Step:
    """The step of a figure that only the person can know."""
    return Step(symbol, value, unit, meaning, ENTERED, ENTERED_STATUS, entered=True)


def asked(value: float | None, field: str, remedy: str) -> float:
    """A figure of the place that must have been entered.

    Raises:
        InputError: It wasn't; the remedy says where it is found.
    """
    if value is None:
        raise InputError("it is not entered", where=field, remedy=remedy)
    return value


def shown(step: Step, unit: LengthUnit = LengthUnit.MM) -> str:
    """The step's figure for reading: `115 mph` or `51.4 m/s`, `28.8 psf` or `1.38 kPa`."""
    inches = unit is LengthUnit.INCH
    match step.unit:
        case "Pa":
            return pressure.format_pressure(step.value, unit)
        case "m/s":
            return speed.format_speed(step.value, unit)
        case "mm":
            return units.format_way(step.value, unit)
        case "mm2":
            return units.format_area(step.value, unit)
        case "kg/m3":
            lb_ft3 = decimals(step.value / _KG_M3_PER_LB_FT3, 4)
            return f"{lb_ft3} lb/cu ft" if inches else f"{decimals(step.value, 3)} kg/m³"
        case _:
            return decimals(step.value, 3)
