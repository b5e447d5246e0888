"""Rules report: the report's part on the limits a plan is held to, and what each comes from."""

import msgspec

from holeplacer.plan.plan import Plan
from holeplacer.rules import edge_distance, neighbours, process, seam_distance

_ENTERED = "as entered, or the default"


class LimitReport(msgspec.Struct, frozen=True):
    """An effective limit.

    Attributes:
        limit: The figure that governs, mm unless the name says otherwise; null where there is
            none.
        governs: What it comes from, with its figures.
    """

    limit: float | None
    governs: str


class RulesReport(msgspec.Struct, frozen=True):
    """Every limit the plan is held to, as it works out for a hole of the plan's diameter.

    Attributes:
        rule_set: Name of the published rule set.
        hole_mm: Diameter of the hole.
        edge_distance_mm: Least distance from a hole's centre to a cut edge.
        ligament_mm: What is then left between hole and edge.
        process_hole_mm: Smallest hole the process cuts; smaller ones are marked and drilled.
        neighbours_mm: Least distance between hole centres.
        seam_distance_mm: Least distance from a hole's centre to a seam.
        spacing_mm: Greatest distance between neighbouring holes along the axis.
        overhang_mm: Greatest distance along the axis from a tip to its first hole.
        turning_share: Least distance of a piece's outermost holes, as a share of its axis's
            straight extent.
    """

    rule_set: str
    hole_mm: float
    edge_distance_mm: LimitReport
    ligament_mm: LimitReport
    process_hole_mm: LimitReport
    neighbours_mm: LimitReport
    seam_distance_mm: LimitReport
    spacing_mm: LimitReport
    overhang_mm: LimitReport
    turning_share: LimitReport


def rules_report(plan: Plan) -> RulesReport:
    """Every limit of a plan, with what it comes from."""
    least, limits = edge_distance.limit(plan), plan.limits
    governs, hole = edge_distance.governs(plan), plan.standoff.hole_mm
    return RulesReport(
        rule_set=limits.rule_set,
        hole_mm=hole,
        edge_distance_mm=LimitReport(least, governs),
        ligament_mm=LimitReport(least - hole / 2, governs),
        process_hole_mm=LimitReport(
            process.limit(plan), f"{plan.sheet.process}, {plan.sheet.thickness_mm:.4g} mm sheet"
        ),
        neighbours_mm=LimitReport(neighbours.limit(plan), neighbours.governs(plan)),
        seam_distance_mm=LimitReport(seam_distance.limit(plan), seam_distance.governs(plan)),
        spacing_mm=LimitReport(limits.spacing_mm, _ENTERED),
        overhang_mm=LimitReport(limits.overhang_mm, _ENTERED),
        turning_share=LimitReport(limits.turning_share, _ENTERED),
    )
