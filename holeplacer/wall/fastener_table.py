"""Fastener table: how deep each kind of fastener is usually held, and the hole it goes into."""

from dataclasses import dataclass
from functools import cache

from holeplacer import resources
from holeplacer.wall.fastener import FastenerKind
from holeplacer.wall.layer import LayerKind


@dataclass(frozen=True)
class FastenerRow:
    """What is usual of one kind of fastener, by its nominal diameter d.

    Attributes:
        kind: The kind.
        holds_in: Kind of layer it is made for.
        embedment_d, least_d: Usual and least embedment over d.
        tip_d: Length of the pointed end, which does not hold, over d.
        drill_factor, drill_extra_mm: Hole in the bearing layer: factor x d + extra.
        spare_mm: How much deeper than the fastener the hole is.
        material: What its drill is made for.
        source, status: Where the figures come from.
    """

    kind: str
    holds_in: str
    embedment_d: float
    least_d: float
    tip_d: float
    drill_factor: float
    drill_extra_mm: float
    spare_mm: float
    material: str
    source: str
    status: str

    def suits(self, layer: LayerKind) -> bool:
        """Whether it is made for a kind of layer; a bolt through all of it is for any."""
        return self.kind == "through bolt" or layer == self.holds_in


@cache
def _rows() -> dict[str, FastenerRow]:
    return {
        row["kind"]: FastenerRow(
            kind=row["kind"],
            holds_in=row["holds_in"],
            embedment_d=float(row["embedment_d"]),
            least_d=float(row["least_d"]),
            tip_d=float(row["tip_d"]),
            drill_factor=float(row["drill_factor"]),
            drill_extra_mm=float(row["drill_extra_mm"]),
            spare_mm=float(row["spare_mm"]),
            material=row["material"],
            source=row["source"],
            status=row["status"],
        )
        for row in resources.table("fasteners")
    }


def fastener_row(kind: FastenerKind) -> FastenerRow:
    """What is usual of a kind of fastener."""
    return _rows()[kind]
