"""Strip span: what a plain strip of the sheet spans in this wind, by the handbook, at once."""

import math

from holeplacer.loads import combination
from holeplacer.loads.loading import Loading
from holeplacer.plan.plan import Plan
from holeplacer.resistance import bending
from holeplacer.rules import limit_states, load_effects

_SIMPLE_SPAN = 5.0 / 384.0
"""Deflection of a simple span under uniform load w: 5 w L^4 / 384 EI (handbook; from memory,
recomputed)."""


def strip_span_mm(plan: Plan) -> float:
    """Span of a plain strip of the sheet at which deflection or stress meets its limit.

    The strip's width cancels: load and stiffness both go with it. A straight strip on two supports
    knows of no curve, tip or anchor: a first idea, not an answer.

    Returns:
        mm; infinite without a wind.

    Raises:
        InputError: A figure of the wind is missing.
    """
    if not load_effects.is_asked(plan):
        return math.inf
    loading, metal = plan.loading, plan.sheet.material
    wind = load_effects.design_pressure(plan)
    pressure_mpa = max(wind.out_pa, wind.in_pa) * 1e-6
    grade = limit_states.grade(plan.sheet, loading)
    t = grade.thickness_mm
    if pressure_mpa <= 0:
        return math.inf
    bent = math.sqrt(8 * bending.allowable_mpa(grade) * t**2 / (6 * pressure_mpa))
    # Stiffness is judged under a lighter wind than strength, where the standard says so.
    share = combination.wind_factor(loading, "deflection").value / wind.factor
    gives = _SIMPLE_SPAN * 12 * share * pressure_mpa / (metal.elastic_mpa * t**3)
    return min(bent, _span_for_deflection(loading, gives))


def _span_for_deflection(loading: Loading, gives: float) -> float:
    """L from gives L^4 = limit, or from gives L^4 = L / ratio."""
    if loading.deflection_limit_mm is not None:
        return float((loading.deflection_limit_mm / gives) ** 0.25)
    return float((1 / (loading.deflection_ratio * gives)) ** (1 / 3))
