"""Verdict: whether a plan bears its loads, every limit state asked, and which one is nearest."""

from __future__ import annotations

from dataclasses import dataclass, replace

from holeplacer.medial_axis.axis import Axis
from holeplacer.outline.outline import Outline
from holeplacer.plan.plan import Plan
from holeplacer.rules import strength
from holeplacer.rules.limit_states import LimitState


@dataclass(frozen=True, eq=False)
class Verdict:
    """What strength says of a plan.

    Attributes:
        governs: The limit state nearest to failing, of those whose resistance is known; None where
            there is none.
        not_judged: Names of the limit states whose resistance is not known.
    """

    governs: LimitState | None
    not_judged: tuple[str, ...]

    @property
    def utilisation(self) -> float:
        """The greatest; without any limit state nothing is borne."""
        share = self.governs.share if self.governs else None
        return float("inf") if share is None else share

    @property
    def passes(self) -> bool:
        """Whether everything that is known is borne."""
        return self.utilisation <= strength.LIMIT


def verdict(plan: Plan, outline: Outline, axis: Axis, *, wind_only: bool = False) -> Verdict:
    """Every limit state of sheet, holes, studs and anchors under wind, weight and temperature.

    Carrying by hand is left out: it is no matter of spacing, and a sheet that bends in two hands is
    carried otherwise. A piece that can turn is a finding of its own at any spacing.

    Args:
        plan: The plan.
        outline: Its cut outline.
        axis: Medial axis of that outline.
        wind_only: Ask the wind alone: what fails there fails under all loads, too.

    Raises:
        InputError: A figure of the loads is missing.
    """
    asked = replace(plan, loading=replace(plan.loading, handling=False))
    found = strength.strength(asked, outline, axis, wind_only=wind_only)
    if found is None or not plan.holes:
        return Verdict(None, ())
    unknown = (state.utilisation.check for state in found.states if state.share is None)
    return Verdict(found.worst_known, tuple(dict.fromkeys(unknown)))
