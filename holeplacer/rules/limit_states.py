"""Limit states: every load effect of a plan beside the resistance it meets.

One entry for each limit state and hole, worst case taken, and one for each of the whole sign. The
formulas and their sources are those of `resistance`; here is said which force goes into which.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from holeplacer.loads.loading import Loading
from holeplacer.medial_axis import ways
from holeplacer.medial_axis.axis import Axis
from holeplacer.plan.hole import Hole
from holeplacer.plan.plan import Plan, SheetChoice
from holeplacer.resistance import bending, deflection, net_section, pull_over, sheet_grade
from holeplacer.resistance.sheet_grade import SheetGrade
from holeplacer.resistance.utilisation import Utilisation
from holeplacer.rules import span_deflection
from holeplacer.rules.load_effects import LoadEffects
from holeplacer.rules.spacing import Spans
from holeplacer.rules.span_deflection import SideDeflection
from holeplacer.structure.response import Response


@dataclass(frozen=True)
class LimitState:
    """One limit state in one place of a plan.

    Attributes:
        hole: Number of the hole it is about; 0: of the sheet.
        at_mm: Where.
        case: The load case that governs it.
        utilisation: Load effect, resistance, and all they came from.
    """

    hole: int
    at_mm: tuple[float, float]
    case: str
    utilisation: Utilisation


def limit_states(
    plan: Plan, axis: Axis, spans: Spans, effects: LoadEffects
) -> tuple[LimitState, ...]:
    """All limit states: the sheet's first, then hole by hole in the plan's order.

    Args:
        plan: The plan; a wind is chosen.
        axis: Medial axis of its cut outline.
        spans: How its holes stand along the axis.
        effects: What its loads do.
    """
    sheet = grade(plan.sheet, plan.loading)
    return (
        *_of_sheet(plan, axis, spans, effects, sheet),
        *_of_holes(plan, axis, spans, effects, sheet),
    )


@lru_cache(maxsize=8)
def grade(sheet: SheetChoice, loading: Loading) -> SheetGrade:
    """The sheet as the limit states see it.

    Raises:
        InputError: Nothing of its thickness carries load.
    """
    return sheet_grade.of_metal(sheet.material, sheet.thickness_mm, loading.design_method)


# --- the sheet ---


def _of_sheet(
    plan: Plan, axis: Axis, spans: Spans, effects: LoadEffects, sheet: SheetGrade
) -> Iterator[LimitState]:
    worst = max(effects.wind, key=lambda response: response.max_stress_mpa)
    yield LimitState(0, worst.stress_at_mm, worst.name, bending.check(sheet, worst.max_stress_mpa))
    worst = max(effects.wind, key=lambda response: response.max_deflection_mm)
    limit_mm = plan.loading.deflection_limit_mm
    if limit_mm is not None:
        result = deflection.check_limit(worst.max_deflection_mm, limit_mm)
        yield LimitState(0, worst.at_mm, worst.name, result)
        return
    sides = span_deflection.side_deflections(axis, spans, effects.grillage.ways, worst)
    most = max(sides, key=lambda side: _allowed_share(side, plan.loading), default=None)
    if most is not None:
        number = plan.holes[most.hole].number
        yield LimitState(number, most.at_mm, worst.name, _of_side(most, plan.loading))


def _allowed_share(side: SideDeflection, loading: Loading) -> float:
    return side.deflection_mm * _ratio(side, loading) / _length_mm(side)


def _of_side(side: SideDeflection, loading: Loading) -> Utilisation:
    return deflection.check_ratio(
        side.deflection_mm, _length_mm(side), _ratio(side, loading), overhang=side.overhang
    )


def _ratio(side: SideDeflection, loading: Loading) -> float:
    return loading.overhang_ratio if side.overhang else loading.deflection_ratio


def _length_mm(side: SideDeflection) -> float:
    return side.length_mm if side.overhang else 2 * side.length_mm


# --- the holes ---


def _of_holes(
    plan: Plan, axis: Axis, spans: Spans, effects: LoadEffects, sheet: SheetGrade
) -> Iterator[LimitState]:
    clearance = ways.clearances(axis, spans.feet)
    for index, hole in enumerate(plan.holes):
        at = (hole.x_mm, hole.y_mm)
        for pressed, part, case, force_n in _pulls(plan, effects, index):
            result = _pull_over(sheet, pressed, plan.diameter_of(hole), part).under(force_n)
            yield LimitState(hole.number, at, case, result)
        if spans.counts[index]:
            case, stress_mpa = _stress_at(spans, effects, index, plan.diameter_of(hole))
            yield LimitState(
                hole.number,
                at,
                case,
                _net_section(plan, sheet, hole, 2 * float(clearance[index]), stress_mpa),
            )


def _pulls(plan: Plan, effects: LoadEffects, index: int) -> Iterator[tuple[float, str, str, float]]:
    """What presses on the sheet in front, then behind: its diameter, name, case and force."""
    front = max(effects.wind, key=lambda response: response.reactions_n[index])
    behind = min(effects.wind, key=lambda response: response.reactions_n[index])
    standoff = plan.standoff
    yield (
        standoff.pressed_mm,
        "washer" if standoff.washer_mm > 0 else standoff.head,
        front.name,
        max(front.reactions_n[index], 0.0),
    )
    yield (
        standoff.backed_mm,
        "washer behind" if standoff.washer_behind_mm > 0 else "barrel",
        behind.name,
        max(-behind.reactions_n[index], 0.0),
    )


@lru_cache(maxsize=64)  # the same for every hole of one size
def _pull_over(sheet: SheetGrade, pressed_mm: float, hole_mm: float, part: str) -> Utilisation:
    return pull_over.check(sheet, 0.0, pressed_mm=pressed_mm, hole_mm=hole_mm, part=part)


def _stress_at(
    spans: Spans, effects: LoadEffects, index: int, diameter_mm: float
) -> tuple[str, float]:
    """Greatest stress of the whole stroke across a hole, in which case."""
    branch, s = int(spans.feet.branch[index]), float(spans.feet.s[index])
    if branch < 0:
        return effects.wind[0].name, 0.0
    at = s + np.array([-0.5, 0.0, 0.5]) * diameter_mm

    def stress(response: Response) -> float:
        along = response.stress_mpa[branch]
        return float(np.interp(at, effects.grillage.ways[branch], along).max())

    worst = max(effects.wind, key=stress)
    return worst.name, stress(worst)


def _net_section(
    plan: Plan, sheet: SheetGrade, hole: Hole, width_mm: float, stress_mpa: float
) -> Utilisation:
    """Bending and torsion together as the bending moment that stresses the stroke alike."""
    return net_section.check_bending(
        sheet,
        width_mm=width_mm,
        hole_mm=plan.diameter_of(hole),
        moment_nmm=stress_mpa * width_mm * sheet.thickness_mm**2 / 6,
    )
