"""Coefficient: a figure that stands in a published strength formula."""

from dataclasses import dataclass
from functools import cache

from holeplacer import resources, units


@dataclass(frozen=True)
class Coefficient:
    """One figure.

    Attributes:
        value: In mm, N, MPa; pure numbers as printed.
        printed: As the source prints it, with its unit.
        source: Standard and clause.
        status: `P` read on a public page, `R` recomputed, `M` from memory: verify.
    """

    value: float
    printed: str
    source: str
    status: str


_PER_UNIT = {
    "": 1.0,
    "mm": 1.0,
    "1/mm": 1.0,
    "MPa": 1.0,
    "in": units.MM_PER_INCH,
    "1/in": 1 / units.MM_PER_INCH,
    "lb/in2": 1.0,
}
"""Millimetres in one inch, exactly; the wood formulas are inch-only and converted where they are
used."""


@cache
def coefficients(formula: str) -> dict[str, Coefficient]:
    """All figures of one formula by their names."""
    return {
        row["name"]: Coefficient(
            value=float(row["value"]) * _PER_UNIT[row["unit"]],
            printed=f"{row['value']} {row['unit']}".strip(),
            source=row["source"],
            status=row["status"],
        )
        for row in resources.table("strength_coefficients")
        if row["formula"] == formula
    }


@cache
def value(formula: str, name: str) -> float:
    """One figure in mm, N, MPa."""
    return coefficients(formula)[name].value


@cache
def statuses(formula: str, *names: str) -> tuple[str, ...]:
    """Statuses of the figures named; of all the formula's without names."""
    known = coefficients(formula)
    return tuple(known[name].status for name in (names or known))
