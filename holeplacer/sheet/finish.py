"""Finish: what is put on the sheet after cutting, as a thickness on every side it covers."""

from dataclasses import dataclass
from functools import cache

from holeplacer import resources

ENTERED = "entered"
"""Name of a finish whose thickness the person gave."""

ENTERED_DENSITY_KG_M3 = 1400.0
"""Of a finish whose thickness was entered: ordinary paint, dry (common practice, no source)."""


@dataclass(frozen=True)
class Finish:
    """One finish.

    Attributes:
        name: What plan and command line call it, such as `powder`; or `entered`.
        title: For reading.
        per_side_mm: Thickness on every side it covers, hole walls included.
        density_kg_m3: Of the dry coat.
        source: Where the figures come from.
        status: `P` read on a public page, `R` recomputed, `M` from memory: verify.
    """

    name: str
    title: str
    per_side_mm: float
    density_kg_m3: float
    source: str
    status: str


@cache
def finishes() -> tuple[Finish, ...]:
    """Every finish, in the table's order."""
    return tuple(
        Finish(
            name=row["finish"],
            title=row["title"],
            per_side_mm=float(row["per_side_mm"]),
            density_kg_m3=float(row["density_kg_m3"]),
            source=row["source"],
            status=row["status"],
        )
        for row in resources.table("finishes")
    )


def finish(name: str) -> Finish:
    """The finish of that name.

    Raises:
        InputError: There is none.
    """
    return resources.by_name(finishes(), name, "finish")


def density_kg_m3(name: str) -> float:
    """Density of a finish's dry coat, of one entered too.

    Raises:
        InputError: There is no finish of that name.
    """
    return ENTERED_DENSITY_KG_M3 if name == ENTERED else finish(name).density_kg_m3
