"""Limit states: every load effect of a plan beside the resistance it meets.

One entry for each limit state and hole, worst case taken, and one for each of the whole sign. The
formulas and their sources are those of `resistance`; here is said which force goes into which.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from holeplacer.loads import combination
from holeplacer.loads.loading import Loading
from holeplacer.medial_axis import ways
from holeplacer.medial_axis.axis import Axis
from holeplacer.outline.outline import Outline
from holeplacer.plan.hole import Hole
from holeplacer.plan.plan import Plan, SheetChoice
from holeplacer.resistance import (
    anchorage,
    bearing,
    bending,
    deflection,
    net_section,
    pull_over,
    pull_over_with_shear,
    sheet_grade,
    stud,
    tear_out,
)
from holeplacer.resistance.hole_place import HolePlace
from holeplacer.resistance.sheet_grade import SheetGrade
from holeplacer.resistance.utilisation import Utilisation
from holeplacer.rules import span_deflection
from holeplacer.rules.load_effects import CARRIED, LoadEffects
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
    plan: Plan, outline: Outline, axis: Axis, spans: Spans, effects: LoadEffects
) -> tuple[LimitState, ...]:
    """All limit states: the sheet's first, then hole by hole in the plan's order.

    Args:
        plan: The plan; a wind is chosen.
        outline: Its cut outline.
        axis: Medial axis of its cut outline.
        spans: How its holes stand along the axis.
        effects: What its loads do.
    """
    sheet = grade(plan.sheet, plan.loading)
    return (
        *_of_sheet(plan, axis, spans, effects, sheet),
        *_of_holes(plan, outline, axis, spans, effects, sheet),
    )


def carried(plan: Plan, effects: LoadEffects) -> LimitState | None:
    """The piece that two hands bend most, carrying it flat; None where that was not asked for.

    It stands apart from the others: a sheet that can't be carried so may be carried otherwise, and
    hang as well as any.
    """
    if not effects.carried:
        return None
    held = max(effects.carried, key=lambda piece: piece.stress_mpa)
    result = bending.check(grade(plan.sheet, plan.loading), held.stress_mpa)
    return LimitState(0, held.stress_at_mm, CARRIED, result)


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
    # Stiffness is judged under a lighter wind than strength, where the standard says so.
    share = combination.wind_factor(plan.loading, "deflection").value / effects.pressure.factor
    limit_mm = plan.loading.deflection_limit_mm
    if limit_mm is not None:
        result = deflection.check_limit(share * worst.max_deflection_mm, limit_mm)
        yield LimitState(0, worst.at_mm, worst.name, result)
        return
    sides = span_deflection.side_deflections(axis, spans, effects.grillage.ways, worst)
    most = max(sides, key=lambda side: _allowed_share(side, plan.loading), default=None)
    if most is not None:
        number = plan.holes[most.hole].number
        result = _of_side(most, plan.loading, share)
        yield LimitState(number, most.at_mm, worst.name, result)


def _allowed_share(side: SideDeflection, loading: Loading) -> float:
    return side.deflection_mm * _ratio(side, loading) / _length_mm(side)


def _of_side(side: SideDeflection, loading: Loading, share: float) -> Utilisation:
    return deflection.check_ratio(
        share * side.deflection_mm, _length_mm(side), _ratio(side, loading), overhang=side.overhang
    )


def _ratio(side: SideDeflection, loading: Loading) -> float:
    return loading.overhang_ratio if side.overhang else loading.deflection_ratio


def _length_mm(side: SideDeflection) -> float:
    return side.length_mm if side.overhang else 2 * side.length_mm


# --- the holes ---


@dataclass(frozen=True)
class _Forces:
    """What one standoff carries.

    Attributes:
        pull: Off the wall, on its cap, with its case.
        push: On to the wall, on its barrel, with its case.
        shear: Across its stud, with its case.
    """

    pull: tuple[str, float]
    push: tuple[str, float]
    shear: tuple[str, float]

    @property
    def together(self) -> str:
        """The cases of pull and shear, where both count."""
        return f"{self.pull[0]} + {self.shear[0]}"


def _of_holes(
    plan: Plan,
    outline: Outline,
    axis: Axis,
    spans: Spans,
    effects: LoadEffects,
    sheet: SheetGrade,
) -> Iterator[LimitState]:
    clearance = ways.clearances(axis, spans.feet)
    places = np.array([(hole.x_mm, hole.y_mm) for hole in plan.holes]).reshape(-1, 2)
    edges = outline.edge_distance(places)
    for index, hole in enumerate(plan.holes):
        at = (hole.x_mm, hole.y_mm)
        forces = _forces(effects, index)
        place = _place(plan, hole, float(edges[index]))
        if place is not None:
            ends = bool((spans.next_hole[index] < 0).any())
            for case, result in _of_sheet_at(plan, sheet, place, forces, at_end=ends):
                yield LimitState(hole.number, at, case, result)
        for case, result in _of_standoff(plan, forces):
            yield LimitState(hole.number, at, case, result)
        if spans.counts[index]:
            case, stress_mpa = _stress_at(spans, effects, index, plan.diameter_of(hole))
            width_mm = 2 * float(clearance[index])
            result = _net_section(plan, sheet, hole, width_mm, stress_mpa)
            yield LimitState(hole.number, at, case, result)


def _forces(effects: LoadEffects, index: int) -> _Forces:
    front = max(effects.wind, key=lambda response: response.reactions_n[index])
    behind = min(effects.wind, key=lambda response: response.reactions_n[index])
    return _Forces(
        pull=(front.name, max(front.reactions_n[index], 0.0)),
        push=(behind.name, max(-behind.reactions_n[index], 0.0)),
        shear=effects.shear_n(index),
    )


def _place(plan: Plan, hole: Hole, edge_mm: float) -> HolePlace | None:
    """The hole in its metal; None where it lies outside, which another rule finds."""
    standoff = plan.standoff
    if edge_mm <= 0:
        return None
    return HolePlace(
        stud_mm=standoff.stud_mm,
        hole_mm=plan.diameter_of(hole),
        edge_mm=edge_mm,
        washers=standoff.pressed_mm > 0 and standoff.backed_mm > 0,
    )


def _of_sheet_at(
    plan: Plan, sheet: SheetGrade, place: HolePlace, forces: _Forces, *, at_end: bool
) -> Iterator[tuple[str, Utilisation]]:
    """Sheet round a hole: pulled over cap and barrel, torn and crushed by the stud.

    At a stroke's end, where no hole follows, the sheet pulls on one side of the cap only.
    """
    standoff = plan.standoff
    front = "washer" if standoff.washer_mm > 0 else standoff.head
    behind = "washer behind" if standoff.washer_behind_mm > 0 else "barrel"
    case, pull_n = forces.pull
    over = _pull_over(sheet, standoff.pressed_mm, place.hole_mm, front, at_end)
    yield case, over.under(pull_n)
    case, push_n = forces.push
    over = _pull_over(sheet, standoff.backed_mm, place.hole_mm, behind, at_end)
    yield case, over.under(push_n)
    case, shear_n = forces.shear
    for result in _in_plane(sheet, place):
        yield case, result.under(shear_n)
    yield (
        forces.together,
        pull_over_with_shear.check(
            sheet,
            place,
            shear_n=shear_n,
            tension_n=pull_n,
            pressed_mm=standoff.pressed_mm,
            eccentric=at_end,
        ),
    )


def _of_standoff(plan: Plan, forces: _Forces) -> Iterator[tuple[str, Utilisation]]:
    """The stud, bent, sheared and pulled, and its anchor in the wall."""
    standoff, loading = plan.standoff, plan.loading
    made = stud.grade(standoff.stud_material, standoff.stud_mm, loading.design_method)
    pull_n, shear_n = forces.pull[1], forces.shear[1]
    yield (
        forces.together,
        stud.check_bending(
            made, shear_n=shear_n, tension_n=pull_n, lever_mm=standoff.projection_mm
        ),
    )
    yield forces.together, stud.check_fastener(made, shear_n=shear_n, tension_n=pull_n)
    yield (
        forces.together,
        anchorage.check(loading.fixing, tension_n=pull_n, shear_n=shear_n),
    )


@lru_cache(maxsize=4096)  # while one hole is dragged, the others stay
def _in_plane(sheet: SheetGrade, place: HolePlace) -> tuple[Utilisation, ...]:
    return (*bearing.check(sheet, place, 0.0), tear_out.check(sheet, place, 0.0))


@lru_cache(maxsize=64)  # the same for every hole of one size
def _pull_over(
    sheet: SheetGrade, pressed_mm: float, hole_mm: float, part: str, eccentric: bool
) -> Utilisation:
    return pull_over.check(
        sheet, 0.0, pressed_mm=pressed_mm, hole_mm=hole_mm, part=part, eccentric=eccentric
    )


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
