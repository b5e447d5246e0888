"""Limits: the figures the rules hold a plan to. Their defaults live here and nowhere else."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Limits:
    """What the person allows; the rules derive the governing figure from these.

    Attributes:
        rule_set: Row of `resources/tables/edge_rules.csv` that gives the factor of edge distance
            to stud diameter and of spacing to diameter.
        ligament_mm: Least metal between a hole's edge and the nearest cut edge.
        edge_distance_mm: Least distance of a hole's centre from the nearest cut edge; None takes
            the rule set's factor times the stud diameter.
        cap_overhang_mm: How far the visible cap may reach past the cut edge. A matter of looks:
            at the default edge distance no cap comes near the edge, and one who enters a smaller
            one has accepted less metal, so that the default must not stop him.
        spacing_mm: Greatest distance between neighbouring holes along the axis.
        overhang_mm: Greatest distance along the axis from a tip to its first hole. Half the
            spacing by default: a tip that far out moves less under wind (w s^4 / 128 EI, a
            cantilever of half a span s) than a simple span does in its middle (w s^4 / 76.8 EI).
        turning_share: Two holes of a piece are at least this share of its axis's straight
            extent apart.
        neighbour_mm: Least distance between hole centres; None takes the rule set's factor
            times the diameter.
    """

    rule_set: str = "aisi-s100-bolts"
    ligament_mm: float = 3.0
    edge_distance_mm: float | None = None
    cap_overhang_mm: float = 2.0
    spacing_mm: float = 300.0
    overhang_mm: float = 150.0
    turning_share: float = 1.0 / 3.0
    neighbour_mm: float | None = None
