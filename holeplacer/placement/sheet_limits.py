"""Sheet limits: what this sheet needs in this wind, solved backwards.

The greatest spacing and overhang at which the fewest holes still bear the loads; the thinnest gauge
that the holes there are will do for; and, for a first idea, what a plain strip of the sheet spans.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

from holeplacer.errors import Cancelled
from holeplacer.loads.loading import Loading
from holeplacer.medial_axis.axis import Axis
from holeplacer.outline.outline import Outline
from holeplacer.placement import propose
from holeplacer.plan import edit
from holeplacer.plan.plan import Plan
from holeplacer.resistance import bending
from holeplacer.rules import limit_states, load_effects, strength
from holeplacer.rules.limit_states import LimitState
from holeplacer.sheet import gauge
from holeplacer.sheet.gauge import Gauge

Progress = Callable[[float, str], None]

_LEAST_MM, _MOST_MM = 40.0, 4000.0
"""Spacings between which the answer is looked for."""

_NEAR_ENOUGH = 1.02
_MOST_TRIES = 12
_STEP = 1.3
"""The strip's span is a good beginning: no try goes further from the last one than this."""

_SIMPLE_SPAN = 5.0 / 384.0
"""Deflection of a simple span under uniform load w: 5 w L^4 / 384 EI (handbook; from memory,
recomputed)."""


@dataclass(frozen=True)
class SpacingLimit:
    """The greatest spacing the sheet bears.

    Attributes:
        spacing_mm, overhang_mm: Limits at which the fewest holes pass; the overhang keeps its
            share of the spacing.
        count: Number of holes there.
        utilisation: The greatest, with those holes.
        governs: The limit state nearest to failing there.
    """

    spacing_mm: float
    overhang_mm: float
    count: int
    utilisation: float
    governs: LimitState


def strip_span_mm(plan: Plan) -> float:
    """Span of a plain strip of the sheet at which deflection or stress meets its limit.

    The strip's width cancels: load and stiffness both go with it.

    Raises:
        InputError: A figure of the wind is missing.
    """
    loading, metal = plan.loading, plan.sheet.material
    wind = load_effects.design_pressure(plan)
    pressure_mpa = max(wind.out_pa, wind.in_pa) * 1e-6
    grade = limit_states.grade(plan.sheet, loading)
    t = grade.thickness_mm
    if pressure_mpa <= 0:
        return math.inf
    bent = math.sqrt(8 * bending.allowable_mpa(grade) * t**2 / (6 * pressure_mpa))
    gives = _SIMPLE_SPAN * 12 * pressure_mpa / (metal.elastic_mpa * t**3)
    return min(bent, _span_for_deflection(loading, gives))


def _span_for_deflection(loading: Loading, gives: float) -> float:
    """L from gives L^4 = limit, or from gives L^4 = L / ratio."""
    if loading.deflection_limit_mm is not None:
        return float((loading.deflection_limit_mm / gives) ** 0.25)
    return float((1 / (loading.deflection_ratio * gives)) ** (1 / 3))


def largest_spacing(
    plan: Plan,
    outline: Outline,
    axis: Axis,
    *,
    progress: Progress | None = None,
    cancelled: Callable[[], bool] | None = None,
) -> SpacingLimit | None:
    """The greatest spacing whose fewest holes bear the loads, to two hundredths.

    Found by halving, beginning at what a plain strip spans. The fewest holes of a slightly greater
    spacing may by chance stand better: the answer is a spacing that does, not the edge of all that
    do.

    Args:
        plan: The plan; its fixed holes stay.
        outline: The cut outline.
        axis: Its medial axis.
        progress: Told the share done and what is being done.
        cancelled: Asked now and then whether to stop.

    Returns:
        None where no wind is chosen, or not even the closest spacing will do.

    Raises:
        Cancelled: The person stopped the work.
        InputError: A figure of the wind is missing.
    """
    if not load_effects.is_asked(plan):
        return None
    low, high = _LEAST_MM, min(_MOST_MM, max(2 * axis.length_mm, 2 * _LEAST_MM))
    spacing_mm = min(max(strip_span_mm(plan), low * _NEAR_ENOUGH), high / _NEAR_ENOUGH)
    best: SpacingLimit | None = None
    for tries in range(_MOST_TRIES):
        if cancelled is not None and cancelled():
            raise Cancelled("stopped", remedy="nothing was changed")
        if progress is not None:
            progress(tries / _MOST_TRIES, f"trying a spacing of {spacing_mm:.0f} mm")
        found = _tried(plan, outline, axis, spacing_mm, cancelled)
        if found is not None:
            best, low = found, spacing_mm
        else:
            high = spacing_mm
        if high <= low * _NEAR_ENOUGH:
            break
        middle = math.sqrt(low * high)
        spacing_mm = min(max(middle, spacing_mm / _STEP), spacing_mm * _STEP)
    return best


def _tried(
    plan: Plan,
    outline: Outline,
    axis: Axis,
    spacing_mm: float,
    cancelled: Callable[[], bool] | None,
) -> SpacingLimit | None:
    """The fewest holes at a spacing, if they bear the loads."""
    share = plan.limits.overhang_mm / plan.limits.spacing_mm
    limits = replace(plan.limits, spacing_mm=spacing_mm, overhang_mm=share * spacing_mm)
    calm = replace(plan, limits=limits, loading=Loading())
    proposal = propose.propose(calm, outline, axis, cancelled=cancelled)
    windy = replace(edit.with_holes(calm, proposal.holes), loading=plan.loading)
    found = strength.strength(windy, outline, axis)
    worst = found.worst_known if found else None
    if worst is None or (share_of(worst) > strength.LIMIT):
        return None
    return SpacingLimit(spacing_mm, share * spacing_mm, len(proposal.holes), share_of(worst), worst)


def share_of(state: LimitState) -> float:
    """Utilisation of a limit state; 0 where its resistance is not known."""
    return state.share or 0.0


def thinnest_gauge(plan: Plan, outline: Outline, axis: Axis) -> Gauge | None:
    """The thinnest gauge of the plan's metal in which its present holes bear the loads.

    Only strength is asked: process limits and edge distances may ask for others.

    Returns:
        None where no wind is chosen, the metal has no gauges, or none will do.
    """
    series = plan.sheet.material.gauge_series
    if not series or not load_effects.is_asked(plan):
        return None
    thinnest: Gauge | None = None
    for row in gauge.gauges(series):  # thickest first
        sheet = replace(plan.sheet, gauge=row.number, thickness_mm=row.thickness_mm)
        found = strength.strength(replace(plan, sheet=sheet), outline, axis)
        worst = found.worst_known if found else None
        if worst is None or share_of(worst) > strength.LIMIT:
            break
        thinnest = row
    return thinnest
