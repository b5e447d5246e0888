"""Gauge: a number that means another thickness for every metal."""

from dataclasses import dataclass
from functools import cache

from holeplacer import resources
from holeplacer.errors import InputError


@dataclass(frozen=True)
class Gauge:
    """One row of the gauge table.

    Attributes:
        metal: `steel`, `galvanized`, `stainless` or `aluminium`.
        number: Gauge number.
        thickness_mm: Sheet thickness; galvanized with its zinc.
        thickness_in: The same as printed, inches.
        nominal_lb_ft2: Weight the gauge is defined by, if it is; not the metal's density.
        source: Where the figure comes from.
        status: `P` read on a public page, `R` recomputed, `M` from memory: verify.
    """

    metal: str
    number: int
    thickness_mm: float
    thickness_in: float
    nominal_lb_ft2: float | None
    source: str
    status: str


@cache
def gauges(metal: str) -> tuple[Gauge, ...]:
    """All gauges of a metal, thickest first.

    Raises:
        InputError: The table has no such metal.
    """
    rows = [row for row in resources.table("gauges") if row["metal"] == metal]
    if not rows:
        raise InputError(f"there are no gauges for {metal!r}", remedy=f"take {_metals_listed()}")
    return tuple(
        Gauge(
            metal=metal,
            number=int(row["gauge"]),
            thickness_mm=float(row["thickness_mm"]),
            thickness_in=float(row["thickness_in"]),
            nominal_lb_ft2=float(row["nominal_lb_ft2"]) if row["nominal_lb_ft2"] else None,
            source=row["source"],
            status=row["status"],
        )
        for row in rows
    )


@cache
def metals() -> tuple[str, ...]:
    """Metals that have gauges, in the table's order."""
    return tuple(dict.fromkeys(row["metal"] for row in resources.table("gauges")))


def gauge(metal: str, number: int) -> Gauge:
    """One gauge of one metal. The same number is another thickness in another metal.

    Raises:
        InputError: The table has no such metal, or no such gauge of it.

    >>> gauge("steel", 16).thickness_mm, gauge("aluminium", 16).thickness_mm
    (1.519, 1.29)
    """
    rows = gauges(metal)
    for row in rows:
        if row.number == number:
            return row
    raise InputError(
        f"there is no {number} gauge for {metal}",
        remedy=f"take {rows[0].number} to {rows[-1].number}, or enter the thickness",
    )


def _metals_listed() -> str:
    return ", ".join(metals())
