"""Result: what was placed or found, in lines for a person."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING

from holeplacer.cli.facts import both_units, sheet_words
from holeplacer.documents import caution
from holeplacer.documents.report import UnsupportedReport
from holeplacer.evaluation import hole_fit
from holeplacer.evaluation.evaluate import Evaluation
from holeplacer.evaluation.layout import Layout
from holeplacer.loads.pressure import format_pressure
from holeplacer.plan.plan import Plan
from holeplacer.rules import edge_distance
from holeplacer.rules.finding import Finding
from holeplacer.rules.limit_states import LimitState
from holeplacer.rules.strength import Strength
from holeplacer.units import LengthUnit

if TYPE_CHECKING:  # placing is slow to load, and `check` needs none
    from holeplacer.placement.propose import Proposal

_MOST_LINES = 12
_ROUNDING = 1e-6


def heading(layout: Layout) -> str:
    """Name, size and strokes in one line."""
    left, bottom, right, top = layout.outline.bounds_mm
    size = both_units(right - left, top - bottom)
    return f"{layout.plan.artwork.name}: {size}, {layout.axis.length_mm / 1e3:.2f} m of stroke"


def placed(layout: Layout, evaluation: Evaluation, proposal: Proposal) -> Iterator[str]:
    """How many holes, how good, and under what limits."""
    limits = layout.plan.limits
    hole = layout.plan.standoff.hole_mm
    yield f"Holes           {_count(proposal)}"
    yield from _figures(evaluation, limits.spacing_mm, limits.overhang_mm)
    least = edge_distance.limit(layout.plan)
    yield (
        f"Each hole       {both_units(hole)}, centre at least {both_units(least)} from the cut edge"
    )
    yield f"                {edge_distance.governs(layout.plan)}"
    yield from _hardware(layout)


def checked(layout: Layout, evaluation: Evaluation) -> Iterator[str]:
    """How many holes a plan has, and what they reach."""
    limits = layout.plan.limits
    yield f"Holes           {len(evaluation.holes)}"
    yield from _figures(evaluation, limits.spacing_mm, limits.overhang_mm)
    yield from _hardware(layout)


def strength(plan: Plan, found: Strength | None) -> Iterator[str]:
    """The wind, what it does, and which resistance it uses most of."""
    if found is None:
        if plan.loading.method == "none":
            yield "Strength        not reckoned: no wind given (--pressure or --wind)"
        return
    wind = found.effects.pressure
    yield (
        f"Wind            {_pressures(wind.out_pa)} off the wall, {_pressures(wind.in_pa)} "
        f"on to it ({plan.loading.method})"
    )
    case = max(found.effects.wind, key=lambda case: case.max_deflection_mm)
    x, y = case.at_mm
    yield (
        f"Deflection      at most {both_units(case.max_deflection_mm)} at x {x:.0f}, y {y:.0f} mm "
        f"({case.name})"
    )
    worst = found.worst_known
    if worst is not None:
        yield f"Most used       {_used(worst)}"


def _pressures(pa: float) -> str:
    return f"{format_pressure(pa)} ({format_pressure(pa, LengthUnit.INCH)})"


def _used(state: LimitState) -> str:
    result = state.utilisation
    at = f" at hole {state.hole}" if state.hole else ""
    memory = f"; {result.caveat}" if result.caveat else ""
    return f"{result.utilisation or 0.0:.2f} of {result.check}{at} ({result.source}{memory})"


def unsupported(stretches: Sequence[UnsupportedReport]) -> Iterator[str]:
    """How much stroke no hole holds; what would cure it stands among the findings."""
    if stretches:
        total = sum(stretch.length_mm for stretch in stretches)
        places = _counted(len(stretches), "place")
        yield f"Unsupported     {both_units(total)} of stroke in {places}"


def findings(found: Iterable[Finding]) -> Iterator[str]:
    """Rules broken, then notes."""
    ordered = sorted(found, key=lambda finding: not finding.broken)
    for finding in ordered[:_MOST_LINES]:
        mark = "Rule broken" if finding.broken else "Note"
        yield f"{mark} [{finding.rule}] {finding.message}"
        if finding.way_out:
            yield f"  Way out: {finding.way_out}"
    yield from _more(len(ordered))


def closing() -> str:
    """The caution that ends every result."""
    return caution.SHORT


def _count(proposal: Proposal) -> str:
    count = len(proposal.holes)
    if proposal.tightness > 1.0 + _ROUNDING:
        return f"{count}, too few to keep the limits, each placed where it helps most"
    if count == 0:
        return "0: the metal is nowhere wide enough for this hole"
    if proposal.proven and (proposal.unsupported or proposal.unheld):
        return f"{count}, proven: no fewer hold all that the metal lets be held"
    if proposal.proven:
        return f"{count}, proven: no fewer can satisfy the rules"
    return f"{count}; at least {proposal.lower_bound} are needed, so fewer may be possible"


def _figures(evaluation: Evaluation, spacing_mm: float, overhang_mm: float) -> Iterator[str]:
    if evaluation.spans:
        longest = evaluation.spans[0]
        one, two = longest.numbers
        yield (
            f"Largest span    {both_units(longest.length_mm)} between holes {one} and {two}, "
            f"at most {both_units(spacing_mm)}"
        )
    reached = [tip for tip in evaluation.tips if tip.demanded and tip.overhang_mm is not None]
    if reached:
        furthest = max(reached, key=lambda tip: tip.overhang_mm or 0.0)
        yield (
            f"Furthest tip    {both_units(furthest.overhang_mm or 0.0)} beyond hole "
            f"{furthest.number}, at most {both_units(overhang_mm)}"
        )
    if evaluation.holes:
        least = min(evaluation.holes, key=lambda hole: hole.ligament_mm)
        yield f"Least ligament  {both_units(least.ligament_mm)} at hole {least.number}"


def _hardware(layout: Layout) -> Iterator[str]:
    """The sheet, and whether the holes let their studs through in heat, cold and paint."""
    yield f"Sheet           {sheet_words(layout.plan.sheet)}"
    fits = hole_fit.hole_fits(layout.plan, layout.outline)
    worst = hole_fit.worst(fits)
    if worst is None:
        return
    needed, small = worst.needed, sum(not fit.enough for fit in fits)
    yield (
        f"Stud's hole     hole {worst.number} needs {both_units(needed.round_mm)}: "
        f"{needed.fit_mm:.2f} mm {layout.plan.standoff.fit} fit, {needed.finish_mm:.2f} finish, "
        f"{needed.movement_mm:.2f} heat and cold"
    )
    if small:
        binding = sum(fit.binds for fit in fits)
        pressed = f", {binding} so much that heat or cold presses on the stud" if binding else ""
        yield f"                {small} of {len(fits)} holes smaller than what they need{pressed}"


def _more(count: int) -> Iterator[str]:
    if count > _MOST_LINES:
        yield f"  and {count - _MOST_LINES} more; --report lists them all"


def _counted(count: int, noun: str) -> str:
    return f"{count} {noun}" if count == 1 else f"{count} {noun}s"
