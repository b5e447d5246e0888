"""Metal: what the sheet is made of, and what it weighs."""

from dataclasses import dataclass
from functools import cache

from holeplacer import resources

_MM3_PER_M3 = 1e9


@dataclass(frozen=True)
class Metal:
    """One metal.

    Attributes:
        name: `steel`, `galvanized`, `stainless` or `aluminium`.
        alloy: What the figures are of.
        density_kg_m3: Density.
        source: Where the figure comes from.
        status: `P` read on a public page, `R` recomputed, `M` from memory: verify.
    """

    name: str
    alloy: str
    density_kg_m3: float
    source: str
    status: str

    def mass_kg(self, area_mm2: float, thickness_mm: float) -> float:
        """Mass of an area of sheet by density, not by the gauge's nominal weight."""
        return area_mm2 * thickness_mm / _MM3_PER_M3 * self.density_kg_m3


@cache
def metals() -> tuple[Metal, ...]:
    """Every metal, in the table's order."""
    return tuple(
        Metal(
            name=row["metal"],
            alloy=row["alloy"],
            density_kg_m3=float(row["density_kg_m3"]),
            source=row["source"],
            status=row["status"],
        )
        for row in resources.table("metals")
    )


def metal(name: str) -> Metal:
    """The metal of that name.

    Raises:
        InputError: There is none.
    """
    return resources.by_name(metals(), name, "metal")
