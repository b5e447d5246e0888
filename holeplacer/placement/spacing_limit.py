"""Spacing limit: the largest spacing and overhang at which the fewest holes bear the loads."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from holeplacer.loads.loading import Loading
from holeplacer.medial_axis.axis import Axis
from holeplacer.outline.outline import Outline
from holeplacer.placement import propose, strip_span, verdict
from holeplacer.placement.verdict import Verdict
from holeplacer.placement.watch import Watch
from holeplacer.plan import edit
from holeplacer.plan.hole import Hole
from holeplacer.plan.plan import Plan
from holeplacer.rules import load_effects

LEAST_MM, MOST_MM = 40.0, 4000.0
"""Spacings between which the answer is looked for."""

NEAR_ENOUGH = 1.02
"""The next greater spacing that was tried, and fails, is no further than this from the answer."""

_MOST_TRIES = 20
_HOPELESS = 5.0
"""Where a fifth of what a plain strip spans is still too much, spacing is not what is wrong."""

_STEP_DOWN = 0.7

_POWER = 3.0
"""Deflection over span goes with the third power of the span (simple beam)."""


@dataclass(frozen=True, eq=False)
class SpacingLimit:
    """The largest spacing the sheet bears.

    Attributes:
        enough: Whether there is one; else the other figures are those of the closest spacing tried,
            and `verdict` says what no spacing cures.
        spacing_mm, overhang_mm: Limits at which the fewest holes pass; the overhang keeps its share
            of the spacing.
        holes: Those holes, the plan's fixed ones among them.
        verdict: What all loads do to them.
        beyond_mm: The nearest greater spacing tried: its fewest holes fail. None where even the
            greatest passes.
        beyond: How they fail.
    """

    enough: bool
    spacing_mm: float
    overhang_mm: float
    holes: tuple[Hole, ...]
    verdict: Verdict
    beyond_mm: float | None = None
    beyond: Verdict | None = None

    def taken(self, plan: Plan) -> Plan:
        """The plan with these limits and holes."""
        limits = replace(plan.limits, spacing_mm=self.spacing_mm, overhang_mm=self.overhang_mm)
        return edit.with_holes(edit.with_limits(plan, limits), self.holes)


def spacing_limit(
    plan: Plan, outline: Outline, axis: Axis, watch: Watch | None = None
) -> SpacingLimit | None:
    """The largest spacing whose fewest holes bear the loads, to two hundredths.

    Every spacing tried gets the fewest holes that the rules alone ask for, and those are held to
    every limit state under all loads; so is the answer. Fewest holes of some greater spacing may
    by chance stand better: the answer is an edge beyond which they fail, not the edge of all that
    would do.

    Args:
        plan: The plan; its fixed holes stay.
        outline: The cut outline.
        axis: Its medial axis.
        watch: Told the progress; stops the work.

    Returns:
        None where no wind is chosen.

    Raises:
        Cancelled: The person stopped the work.
        InputError: A figure of the wind is missing.
    """
    if not load_effects.is_asked(plan):
        return None
    strip_mm = strip_span.strip_span_mm(plan)
    most_mm = min(MOST_MM, max(2 * axis.length_mm, 2 * LEAST_MM))
    least_mm = min(max(LEAST_MM, strip_mm / _HOPELESS), most_mm / 2)
    search = _Search(least_mm, most_mm, plan.limits.spacing_mm)
    spacing_mm = min(max(strip_mm, least_mm), most_mm)
    watch = watch or Watch()
    for tries in range(_MOST_TRIES):
        watch.tell(search.done(tries), f"trying a spacing of {spacing_mm:.0f} mm")
        search.take(_tried(plan, outline, axis, spacing_mm, watch))
        if search.ended:
            break
        spacing_mm = search.next_mm(tries)
    return search.answer


def _tried(
    plan: Plan, outline: Outline, axis: Axis, spacing_mm: float, watch: Watch
) -> SpacingLimit:
    """The fewest holes at a spacing, and how they bear the loads."""
    share = plan.limits.overhang_mm / plan.limits.spacing_mm
    limits = replace(plan.limits, spacing_mm=spacing_mm, overhang_mm=share * spacing_mm)
    calm = replace(plan, limits=limits, loading=Loading())
    proposal = propose.propose(calm, outline, axis, cancelled=watch.cancelled)
    windy = replace(edit.with_holes(calm, proposal.holes), loading=plan.loading)
    said = verdict.verdict(windy, outline, axis)
    return SpacingLimit(said.passes, spacing_mm, limits.overhang_mm, proposal.holes, said)


class _Search:
    """Closes in on the edge between spacings that pass and that fail."""

    def __init__(self, least_mm: float, most_mm: float, present_mm: float) -> None:
        self._least_mm, self._most_mm, self._present_mm = least_mm, most_mm, present_mm
        self._passed: SpacingLimit | None = None
        self._failed: SpacingLimit | None = None

    def take(self, tried: SpacingLimit) -> None:
        """Note what a spacing gave."""
        if tried.enough:
            self._passed = tried
        else:
            self._failed = tried

    @property
    def _low_mm(self) -> float:
        return self._passed.spacing_mm if self._passed else self._least_mm

    @property
    def _high_mm(self) -> float:
        return self._failed.spacing_mm if self._failed else self._most_mm

    @property
    def ended(self) -> bool:
        """Whether the edge is known, or there is none."""
        return self._high_mm <= self._low_mm * (NEAR_ENOUGH if self._passed and self._failed else 1)

    def done(self, tries: int) -> float:
        """Share of the work done: of the widest bracket, or of the tries it commonly takes."""
        closed = 0.0
        if self._passed and self._failed:
            wide = math.log(self._high_mm / self._low_mm) / math.log(NEAR_ENOUGH)
            closed = 1 - min(math.log2(max(wide, 1.0)) / 5, 1.0)
        return max(0.95 * closed, 1 - 0.85**tries)

    def next_mm(self, tries: int) -> float:
        """The next spacing: where the greatest utilisation should meet its limit, else halfway."""
        if self._passed is None:
            assert self._failed is not None  # noqa: S101 (something was tried)
            if tries == 0 and self._least_mm < self._present_mm < 0.95 * self._high_mm:
                return self._present_mm
            return max(self._failed.spacing_mm * _STEP_DOWN, self._least_mm)
        if self._failed is None:
            step = self._aim(self._passed) / self._passed.spacing_mm
            return min(self._passed.spacing_mm * min(max(step, 1.1), 2.0), self._most_mm)
        halfway = math.sqrt(self._low_mm * self._high_mm)
        if tries % 2:
            return halfway
        near = math.sqrt(NEAR_ENOUGH)
        return min(max(self._aim(self._passed), self._low_mm * near), self._high_mm / near)

    @staticmethod
    def _aim(tried: SpacingLimit) -> float:
        """A little beyond the spacing at which the greatest utilisation would be 1."""
        share = min(max(tried.verdict.utilisation, 1e-3), 1e3)
        return tried.spacing_mm * float(share ** (-1 / _POWER))

    @property
    def answer(self) -> SpacingLimit | None:
        """The greatest that passes, with the least that failed above it."""
        if self._passed is None:
            return self._failed
        if self._failed is None:
            return self._passed
        beyond = self._failed
        return replace(self._passed, beyond_mm=beyond.spacing_mm, beyond=beyond.verdict)
