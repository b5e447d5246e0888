"""Sheet limits on the command line: the strip's span always, spacing and gauge on request."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping
from typing import TYPE_CHECKING, Any

from holeplacer.cli.facts import both_units
from holeplacer.cli.progress import Progress
from holeplacer.cli.sections import LOADS, option
from holeplacer.evaluation.evaluate import Evaluation
from holeplacer.evaluation.layout import Layout
from holeplacer.resistance.utilisation import NOT_ENTERED

if TYPE_CHECKING:
    from holeplacer.placement.sheet_limits import SheetLimits
    from holeplacer.placement.verdict import Verdict

sheet_limits_option: Callable[..., Any] = option(
    LOADS,
    "--sheet-limits",
    is_flag=True,
    help="Also find the largest spacing and the thinnest gauge that bear the wind (some seconds).",
)


def asked(
    layout: Layout, evaluation: Evaluation, given: Mapping[str, Any], progress: Progress
) -> SheetLimits | None:
    """Spacing and gauge, where they are asked for and strength is known."""
    if not given["sheet_limits"] or evaluation.strength is None:
        return None
    from holeplacer.placement import sheet_limits

    return sheet_limits.sheet_limits(layout.plan, layout.outline, layout.axis, progress=progress)


def lines(layout: Layout, evaluation: Evaluation, found: SheetLimits | None) -> Iterator[str]:
    """The strip's span; then each answer with what governs it and where the next one fails."""
    if evaluation.strength is None:
        return
    from holeplacer.placement import strip_span

    span_mm = strip_span.strip_span_mm(layout.plan)
    if math.isfinite(span_mm):
        yield f"Plain strip     spans {both_units(span_mm)} in this wind: a first idea"
    if found is None:
        return
    yield from _spacing(found)
    yield from _gauge(layout, found)
    missing = ", ".join(found.spacing.verdict.not_judged)
    if missing:
        yield f"                not judged: {missing} (resistance {NOT_ENTERED})"


def _spacing(found: SheetLimits) -> Iterator[str]:
    best = found.spacing
    if not best.enough:
        yield (
            f"Largest spacing none: even {both_units(best.spacing_mm)} is too much, "
            f"{_governs(best.verdict)}"
        )
        return
    yield (
        f"Largest spacing {both_units(best.spacing_mm)}, overhang {both_units(best.overhang_mm)}, "
        f"{len(best.holes)} holes: {_governs(best.verdict)}"
    )
    if best.beyond is not None and best.beyond_mm is not None:
        yield f"                at {both_units(best.beyond_mm)}: {_governs(best.beyond)}"


def _gauge(layout: Layout, found: SheetLimits) -> Iterator[str]:
    best = found.gauge
    if best is None:
        why = "this metal has no gauges" if layout.plan.holes else "there are no holes"
        yield f"Thinnest gauge  none: {why}"
        return
    said = f"{best.gauge.number} gauge, {both_units(best.gauge.thickness_mm)}"
    if not best.enough:
        yield f"Thinnest gauge  none: even {said} fails, {_governs(best.verdict)}"
        return
    yield f"Thinnest gauge  {said}, with these holes: {_governs(best.verdict)}"
    if best.thinner is not None and best.beyond is not None:
        yield f"                {best.thinner.number} gauge: {_governs(best.beyond)}"


def _governs(said: Verdict) -> str:
    state = said.governs
    if state is None:
        return "nothing holds it"
    item = state.utilisation
    at = f" at hole {state.hole}" if state.hole else ""
    memory = f" ({item.caveat})" if item.caveat else ""
    return f"{item.check}{at} {said.utilisation:.2f}, at most 1{memory}"
