"""Comparison: what a changed plan breaks that was not broken before, and its main figures."""

from collections.abc import Iterable
from dataclasses import dataclass
from math import hypot

from holeplacer.evaluation import evaluate
from holeplacer.evaluation.evaluate import Evaluation
from holeplacer.medial_axis.axis import Axis
from holeplacer.outline.outline import Outline
from holeplacer.plan.plan import Plan
from holeplacer.rules.finding import Finding, PlaceKind

_NEAR_MM = 5.0
"""A bare stretch whose worst point moved by less is the same stretch."""

_TOLERANCE = 1e-3


@dataclass(frozen=True)
class Figures:
    """What a person compares plans by.

    Attributes:
        holes: Number of holes a fastener holds.
        largest_span_mm: The longest span; 0 without any.
        bare_mm: Length of stroke further than half the spacing from every hole.
        utilisation: The greatest; None where no wind is chosen.
        deflection_mm: The greatest; None likewise.
        broken: Number of rules broken.
    """

    holes: int
    largest_span_mm: float
    bare_mm: float
    utilisation: float | None
    deflection_mm: float | None
    broken: int


def figures(plan: Plan, evaluation: Evaluation) -> Figures:
    """The figures of an evaluated plan."""
    strength = evaluation.strength
    worst = strength.worst_known if strength else None
    wind = strength.effects.wind if strength else ()
    return Figures(
        holes=sum(hole.fastened for hole in plan.holes),
        largest_span_mm=evaluation.spans[0].length_mm if evaluation.spans else 0.0,
        bare_mm=sum(stretch.length_mm for stretch in evaluation.uncovered),
        utilisation=worst.share if worst else None,
        deflection_mm=max((case.max_deflection_mm for case in wind), default=None),
        broken=evaluation.broken,
    )


def worse(before: Iterable[Finding], after: Iterable[Finding]) -> tuple[Finding, ...]:
    """Rules broken after a change that were not broken there before, or broken by less."""
    old = [finding for finding in before if finding.broken]
    return tuple(item for item in after if item.broken and not any(_covers(o, item) for o in old))


def breaks_nothing(before: Iterable[Finding], plan: Plan, outline: Outline, axis: Axis) -> bool:
    """Whether a plan breaks nothing that was not broken before; stops at the first rule."""
    known = tuple(before)
    return not any(worse(known, check(plan, outline, axis)) for check in evaluate.RULES)


def _covers(old: Finding, new: Finding) -> bool:
    """Whether the old finding was the same, and no better."""
    if (old.rule, old.place.kind, old.place.index) != (new.rule, new.place.kind, new.place.index):
        return False
    if old.place.kind is PlaceKind.STRETCH:
        (x1, y1), (x2, y2) = old.place.xy_mm, new.place.xy_mm
        if hypot(x2 - x1, y2 - y1) > _NEAR_MM:
            return False
        if new.place.length_mm > old.place.length_mm + _TOLERANCE:
            return False
    missing_old, missing_new = abs(old.value - old.limit), abs(new.value - new.limit)
    return missing_new <= missing_old + _TOLERANCE
