"""Cures: the ways out of one finding, each with its figure, ready to be taken."""

from holeplacer.evaluation.evaluate import Evaluation
from holeplacer.plan.plan import Plan
from holeplacer.rules import edge_distance, spacing, ways_out
from holeplacer.rules.finding import Finding
from holeplacer.rules.ways_out import WayOut


def cures(plan: Plan, evaluation: Evaluation, finding: Finding) -> tuple[WayOut, ...]:
    """What would give the metal that a finding lacks.

    For a hole too near an edge, what would do at its place; for a stretch or a tip without
    holes, what would make room for one there (a boss swells round a hole and is left out, since
    none is there yet). Empty where no metal is lacking: then moving or adding a hole is the cure.

    Args:
        plan: The plan.
        evaluation: Its evaluation.
        finding: One of the evaluation's.
    """
    if finding.rule == edge_distance.NAME:
        for hole in evaluation.holes:
            if hole.number == finding.place.index:
                return ways_out.ways_out(plan, hole.edge_distance_mm, hole.diameter_mm)
    if finding.rule == spacing.NAME:
        rooms = {stretch.xy: stretch.clearance_mm for stretch in evaluation.stretches}
        rooms |= {tip.xy_mm: tip.clearance_mm for tip in evaluation.tips}
        found = ways_out.ways_out(plan, rooms.get(finding.place.xy_mm, 0.0))
        return tuple(way for way in found if way.act != "boss")
    return ()
