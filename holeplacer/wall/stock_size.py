"""Stock size: the next length or drill that is sold."""

from dataclasses import dataclass
from functools import cache
from typing import Literal

from holeplacer import resources, units

System = Literal["inch", "metric"]

_SAME_MM = 0.02
_SIXTEENTH_MM = units.MM_PER_INCH / 16
_NUMBERED_MM = (2.845, 3.505, 4.166, 4.826, 5.486)
"""#4, #6, #8, #10, #12: inch sizes by number (ASME B18.6; from memory)."""


@dataclass(frozen=True)
class StockSize:
    """A size that is sold.

    Attributes:
        mm: Length or diameter.
        name: As the trade calls it.
        source: Where the row comes from.
        status: `P` read on a public page, `R` recomputed, `M` from memory: verify.
    """

    mm: float
    name: str
    source: str
    status: str


def system_of(diameter_mm: float) -> System:
    """Whether a stud of this diameter is sold in inches: sixteenths, or a number."""
    near = round(diameter_mm / _SIXTEENTH_MM) * _SIXTEENTH_MM
    inches = abs(near - diameter_mm) <= _SAME_MM and near > 0
    numbered = any(abs(diameter_mm - size) <= _SAME_MM for size in _NUMBERED_MM)
    return "inch" if inches or numbered else "metric"


def inch_name(diameter_mm: float) -> str:
    """An inch size as the trade writes it: `1/2 in`, or `0.19 in` where it is no sixteenth."""
    return units.format_length(diameter_mm, units.LengthUnit.INCH)


def next_length(what: str, system: System, least_mm: float) -> StockSize | None:
    """The shortest length sold that is long enough; None if the longest is too short.

    Args:
        what: `lag screw`, `wood screw`, `stud` or `bolt`.
        system: Inch or metric.
        least_mm: How long it must be.
    """
    return next((size for size in lengths(what, system) if size.mm >= least_mm - _SAME_MM), None)


def next_drill(material: str, system: System, least_mm: float) -> StockSize | None:
    """The smallest drill sold that is large enough; None if the largest is too small."""
    return next((d for d in drills(material, system) if d.mm >= least_mm - _SAME_MM), None)


def nearest_drill(material: str, system: System, mm: float) -> StockSize:
    """The drill sold that is nearest; of two as near the smaller."""
    return min(drills(material, system), key=lambda drill: (round(abs(drill.mm - mm), 6), drill.mm))


@cache
def lengths(what: str, system: System) -> tuple[StockSize, ...]:
    """Every length sold, rising."""
    return _sizes("stock_lengths", "what", what, system, "length_mm")


@cache
def drills(material: str, system: System) -> tuple[StockSize, ...]:
    """Every drill sold for a material, rising."""
    return _sizes("drills", "material", material, system, "diameter_mm")


def _sizes(table: str, key: str, value: str, system: System, figure: str) -> tuple[StockSize, ...]:
    found = [
        StockSize(float(row[figure]), row["name"], row["source"], row["status"])
        for row in resources.table(table)
        if row[key] == value and row["system"] == system
    ]
    return tuple(sorted(found, key=lambda size: size.mm))
