"""Gauge: a number that means another thickness in every series, and each metal has its series."""

from dataclasses import dataclass
from functools import cache

from holeplacer import resources
from holeplacer.errors import InputError


@dataclass(frozen=True)
class Gauge:
    """One row of the gauge table.

    Attributes:
        series: `steel`, `galvanized`, `stainless` or `aluminium` (brass and copper go by it too).
        number: Gauge number.
        thickness_mm: Sheet thickness; galvanized with its zinc.
        thickness_in: The same as printed, inches.
        nominal_lb_ft2: Weight the gauge is defined by, if it is; not the metal's density.
        source: Where the figure comes from.
        status: `P` read on a public page, `R` recomputed, `M` from memory: verify.
    """

    series: str
    number: int
    thickness_mm: float
    thickness_in: float
    nominal_lb_ft2: float | None
    source: str
    status: str


@cache
def gauges(series: str) -> tuple[Gauge, ...]:
    """All gauges of a series, thickest first; none for a metal that is sold by thickness.

    Raises:
        InputError: The table has no such series.
    """
    if not series:
        return ()
    rows = [row for row in resources.table("gauges") if row["series"] == series]
    if not rows:
        raise InputError(
            f"there are no gauges for {series!r}", remedy=f"take {', '.join(all_series())}"
        )
    return tuple(
        Gauge(
            series=series,
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
def all_series() -> tuple[str, ...]:
    """Every series, in the table's order."""
    return tuple(dict.fromkeys(row["series"] for row in resources.table("gauges")))


def gauge(series: str, number: int, *, metal: str = "") -> Gauge:
    """One gauge of one series. The same number is another thickness in another one.

    Args:
        series: Of the metal, see `metal.Metal.gauge_series`.
        number: Gauge number.
        metal: The metal's name, for the error.

    Raises:
        InputError: There is no such series, or no such gauge in it.

    >>> gauge("steel", 16).thickness_mm, gauge("aluminium", 16).thickness_mm
    (1.519, 1.29)
    """
    rows = gauges(series)
    for row in rows:
        if row.number == number:
            return row
    if not rows:
        raise InputError(f"{metal or 'this metal'} has no gauges", remedy="enter its thickness")
    raise InputError(
        f"there is no {number} gauge for {metal or series}",
        remedy=f"take {rows[0].number} to {rows[-1].number}, or enter the thickness",
    )
