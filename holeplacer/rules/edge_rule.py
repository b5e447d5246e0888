"""Edge rule: what a published rule set asks between a hole, the cut edge and the next hole."""

from dataclasses import dataclass
from functools import cache

from holeplacer import resources

_SAME_BOLT_MM = 0.05


@dataclass(frozen=True)
class EdgeRule:
    """One rule set. Distances are from the hole's centre.

    Attributes:
        name: Row of the table.
        title: For reading.
        edge_factor: Least edge distance by `edge_of`.
        edge_of: `d`, the stud's diameter, or `d0`, the hole's.
        spacing_factor: Least distance between hole centres by `spacing_of`.
        spacing_of: `d` or `d0`.
        clause: Where the source says so.
        note: What to know about it.
        source: The standard.
        status: `P` read on a public page, `R` recomputed, `M` from memory: verify.
    """

    name: str
    title: str
    edge_factor: float
    edge_of: str
    spacing_factor: float
    spacing_of: str
    clause: str
    note: str
    source: str
    status: str

    def edge_mm(self, stud_mm: float, hole_mm: float) -> float:
        """Least distance from a hole's centre to a cut edge."""
        if self.name == "aisc-360":
            return _aisc_edge_mm(stud_mm)
        return self.edge_factor * (stud_mm if self.edge_of == "d" else hole_mm)

    def spacing_mm(self, stud_mm: float, hole_mm: float) -> float:
        """Least distance between the centres of two holes."""
        return self.spacing_factor * (stud_mm if self.spacing_of == "d" else hole_mm)


@cache
def edge_rules() -> tuple[EdgeRule, ...]:
    """Every rule set, in the table's order."""
    return tuple(
        EdgeRule(
            name=row["rule_set"],
            title=row["title"],
            edge_factor=float(row["edge_factor"]),
            edge_of=row["edge_of"],
            spacing_factor=float(row["spacing_factor"]),
            spacing_of=row["spacing_of"],
            clause=row["clause"],
            note=row["note"],
            source=row["source"],
            status=row["status"],
        )
        for row in resources.table("edge_rules")
    )


def edge_rule(name: str) -> EdgeRule:
    """The rule set of that name.

    Raises:
        InputError: There is none.
    """
    return resources.by_name(edge_rules(), name, "rule set")


def _aisc_edge_mm(bolt_mm: float) -> float:
    """AISC 360-16 Table J3.4 (P); 1.5 d below it (M), the share of its smallest row.

    A bolt between two rows takes the row of the next thicker one.
    """
    rows = [(float(row["bolt_mm"]), float(row["edge_mm"])) for row in resources.table("aisc_edge")]
    for bolt, edge in rows:
        if abs(bolt - bolt_mm) < _SAME_BOLT_MM:
            return edge
    smallest, largest = min(rows), max(rows)
    if bolt_mm < smallest[0]:
        return bolt_mm * smallest[1] / smallest[0]
    if bolt_mm > largest[0]:
        return 1.25 * bolt_mm
    return min(edge for bolt, edge in rows if bolt >= bolt_mm)
