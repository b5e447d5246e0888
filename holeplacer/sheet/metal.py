"""Metal: what the sheet is made of: what it weighs, how stiff and strong it is, how it grows."""

from dataclasses import dataclass, replace
from functools import cache
from typing import Any, Literal

from holeplacer import resources

_MM3_PER_M3 = 1e9

Family = Literal["steel", "stainless", "aluminium", "copper"]
"""Which design rules a metal is held to."""


@dataclass(frozen=True)
class Metal:
    """One metal, of the table or one's own.

    Attributes:
        name: What plan and command line call it, such as `steel` or `aluminium-6061`.
        alloy: What the figures are of.
        family: Which design rules it is held to.
        gauge_series: Gauges it is sold by (see `gauge.series`); empty: by thickness alone.
        density_kg_m3: Density.
        elastic_mpa: Modulus of elasticity, E.
        shear_mpa: Shear modulus, G.
        poisson: Poisson's ratio.
        expansion_per_k: Linear thermal expansion.
        yield_mpa: Yield stress (0.2 % proof stress); least specified where the source names one.
        ultimate_mpa: Tensile strength; likewise.
        coating_mm: Part of the sheet's thickness that is zinc, both sides, and carries nothing.
        source: Where the figures come from.
        status: `P` read on a public page, `R` recomputed, `M` from memory: verify; `E` entered.
        from_memory: Names of the figures above that are from memory.
    """

    name: str
    alloy: str
    family: Family
    gauge_series: str
    density_kg_m3: float
    elastic_mpa: float
    shear_mpa: float
    poisson: float
    expansion_per_k: float
    yield_mpa: float
    ultimate_mpa: float
    coating_mm: float = 0.0
    source: str = "entered"
    status: str = "E"
    from_memory: tuple[str, ...] = ()

    def mass_kg(self, area_mm2: float, thickness_mm: float) -> float:
        """Mass of an area of sheet by density, not by the gauge's nominal weight."""
        return area_mm2 * thickness_mm / _MM3_PER_M3 * self.density_kg_m3

    def as_own(self) -> "Metal":
        """The same as one's own, under a name that is not the table's."""
        if self.name not in {item.name for item in metals()}:
            return self
        return replace(self, name=f"own {self.name}", source=f"{self.source}; changed by you")

    def with_figure(self, figure: str, value: float) -> "Metal":
        """The metal with one figure entered; G follows E and Poisson's ratio, E / 2 (1 + nu).

        Args:
            figure: One of `FIGURES`.
            value: The figure.
        """
        entered: dict[str, Any] = {figure: value}
        changed = replace(self, **entered)
        if figure in ("elastic_mpa", "poisson"):
            entered["shear_mpa"] = changed.elastic_mpa / (2 * (1 + changed.poisson))
        left = tuple(name for name in self.from_memory if name not in entered)
        status = "M; E (entered)" if left else "E"
        return replace(self, **entered, from_memory=left, status=status)

    def bearing_thickness_mm(self, thickness_mm: float) -> float:
        """Thickness that carries load: what is left without the zinc."""
        return max(thickness_mm - self.coating_mm, 0.0)


FIGURES = (
    "density_kg_m3",
    "elastic_mpa",
    "shear_mpa",
    "poisson",
    "expansion_per_k",
    "yield_mpa",
    "ultimate_mpa",
    "coating_mm",
)
"""Names of a metal's figures, in the table's order."""


@cache
def metals() -> tuple[Metal, ...]:
    """Every metal, in the table's order."""
    return tuple(
        Metal(
            name=row["metal"],
            alloy=row["alloy"],
            family=_family(row["family"]),
            gauge_series=row["gauges"],
            source=row["source"],
            status=row["status"],
            from_memory=tuple(row["from_memory"].split()),
            **{figure: float(row[figure]) for figure in FIGURES},
        )
        for row in resources.table("metals")
    )


def metal(name: str) -> Metal:
    """The metal of that name, or of another name it goes by (`aluminum`, `304`).

    Raises:
        InputError: There is none.

    >>> metal("aluminum").name
    'aluminium'
    """
    return resources.by_name(metals(), _other_names().get(name.casefold(), name), "metal")


@cache
def _other_names() -> dict[str, str]:
    return {
        other: row["metal"]
        for row in resources.table("metals")
        for other in (row["metal"], *row["also"].split())
    }


def _family(text: str) -> Family:
    match text:
        case "steel" | "stainless" | "aluminium" | "copper":
            return text
    raise ValueError(f"metals.csv: there is no family {text!r}")
