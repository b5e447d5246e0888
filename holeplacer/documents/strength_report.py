"""Strength report: the loads on a plan, what they do, and what they use of every resistance.

Part of the report (`report`); forces in newtons, stresses in MPa, pressures in Pa, lengths in mm.
Estimates for planning, not an approval.
"""

from __future__ import annotations

import math

import msgspec
import numpy as np
from numpy.typing import NDArray

from holeplacer.loads.step import Condition, Step
from holeplacer.plan.plan import Plan
from holeplacer.resistance.utilisation import FROM_MEMORY
from holeplacer.rules.limit_states import LimitState
from holeplacer.rules.strength import Strength
from holeplacer.structure.response import Response


class StepReport(msgspec.Struct, frozen=True):
    """One figure on the way to the wind pressure.

    Attributes:
        symbol: As the source writes it.
        value: In `unit`.
        unit: Empty for a plain number.
        meaning: In words.
        source: Standard and clause, or `entered`.
        status: `from memory, verify` where that is so; else empty.
    """

    symbol: str
    value: float
    unit: str
    meaning: str
    source: str
    status: str


class ConditionReport(msgspec.Struct, frozen=True):
    """What must be true for the pressure to hold.

    Attributes:
        text: One sentence.
        met: Whether it is; null: the person must see to it.
        source: Standard and clause.
    """

    text: str
    met: bool | None
    source: str


class LoadsReport(msgspec.Struct, frozen=True):
    """What was decided about loads, and the wind that follows.

    Attributes:
        method: Where the wind comes from: `none`, `entered`, or a standard.
        design_method: `asd`, `lrfd` or `en`.
        supports: `free` or `clamped`: whether caps hold the sheet's slope.
        pressure_out_pa, pressure_in_pa: Design pressure off the wall and on to it, positive
            magnitudes; null without a wind.
        steps: How they come about.
        conditions: What must hold for them.
        coldest_c, hottest_c, installation_c: Temperatures of the metal.
        deflection_limit_mm: Null: by `deflection_ratio`.
        deflection_ratio: Span over what it may give.
    """

    method: str
    design_method: str
    supports: str
    pressure_out_pa: float | None
    pressure_in_pa: float | None
    steps: tuple[StepReport, ...]
    conditions: tuple[ConditionReport, ...]
    coldest_c: float
    hottest_c: float
    installation_c: float
    deflection_limit_mm: float | None
    deflection_ratio: float


class CaseReport(msgspec.Struct, frozen=True):
    """What one load case does.

    Attributes:
        name: `pressure out`, the plain uniform pressure off the wall, and others.
        total_load_n: Load on the metal; the reactions add up to it.
        max_deflection_mm: Greatest movement of any metal.
        at_mm: Where.
        max_stress_mpa: Greatest stress of bending and torsion together.
        stress_at_mm: Where.
        reactions_n: Pull on each hole's stud, in the holes' order; negative: pushed on the wall.
    """

    name: str
    total_load_n: float
    max_deflection_mm: float
    at_mm: tuple[float, float]
    max_stress_mpa: float
    stress_at_mm: tuple[float, float]
    reactions_n: tuple[float, ...]


class CarriedReport(msgspec.Struct, frozen=True):
    """One piece carried flat by two hands, where it sags least.

    Attributes:
        piece: Numbered from 1.
        hands_mm: Where the hands are.
        sag_mm: Greatest movement of any metal, jerks counted.
        at_mm: Where.
        stress_mpa: Greatest stress.
    """

    piece: int
    hands_mm: tuple[tuple[float, float], tuple[float, float]]
    sag_mm: float
    at_mm: tuple[float, float]
    stress_mpa: float


class InPlaneReport(msgspec.Struct, frozen=True):
    """What weight and temperature do in the sign's plane.

    Attributes:
        name: `weight`, `weight, hottest` or `weight, coldest`.
        forces_n: (x, y) with which each hole pushes its stud, in the holes' order.
        movement_mm: (x, y) of each hole from where it was hung.
    """

    name: str
    forces_n: tuple[tuple[float, float], ...]
    movement_mm: tuple[tuple[float, float], ...]


class UtilisationReport(msgspec.Struct, frozen=True):
    """One limit state in one place.

    Attributes:
        check: The limit state.
        hole: Number of the hole; null: the sheet.
        value: Demand over resistance; null where the resistance is not known.
        case: Load case that governs.
        demand, resistance: In `unit`; `resistance` null where it is not known.
        unit: Of both.
        formula: In the source's symbols.
        inputs: What went in, by symbol.
        source: Standard and clause.
        status: `from memory, verify` where that is so; else empty.
        note: What to know about it.
    """

    check: str
    hole: int | None
    value: float | None
    case: str
    demand: float
    resistance: float | None
    unit: str
    formula: str
    inputs: dict[str, float]
    source: str
    status: str
    note: str


class ResponseReport(msgspec.Struct, frozen=True):
    """What loads do to a plan.

    Attributes:
        max_deflection_mm: Greatest of all cases.
        at_mm: Where.
        max_stress_mpa: Greatest of all cases.
        cases: Case by case.
        in_plane: Weight, heat and cold.
        carried: Piece by piece, before it hangs.
        utilisation: Every limit state: the sheet's, then hole by hole.
        rooms: Movement of every hole by temperature against its room. More than 1: the hole is
            pressed on its stud, which `in_plane` and `utilisation` count.
        not_held: Pieces that can turn, or that nothing but their caps keeps from it.
    """

    max_deflection_mm: float
    at_mm: tuple[float, float]
    max_stress_mpa: float
    cases: tuple[CaseReport, ...]
    in_plane: tuple[InPlaneReport, ...]
    carried: tuple[CarriedReport, ...]
    utilisation: tuple[UtilisationReport, ...]
    rooms: tuple[UtilisationReport, ...]
    not_held: tuple[str, ...]


def loads_report(plan: Plan, strength: Strength | None) -> LoadsReport:
    """What was decided, and the wind that follows from it."""
    loading = plan.loading
    wind = strength.effects.pressure if strength else None
    return LoadsReport(
        method=loading.method,
        design_method=loading.design_method,
        supports=loading.supports,
        pressure_out_pa=wind.out_pa if wind else None,
        pressure_in_pa=wind.in_pa if wind else None,
        steps=tuple(_step(item) for item in wind.steps) if wind else (),
        conditions=tuple(_condition(item) for item in wind.conditions) if wind else (),
        coldest_c=loading.temperature.lowest_c,
        hottest_c=loading.temperature.highest_c,
        installation_c=loading.temperature.installation_c,
        deflection_limit_mm=loading.deflection_limit_mm,
        deflection_ratio=loading.deflection_ratio,
    )


def response_report(strength: Strength) -> ResponseReport:
    """Every case and every limit state."""
    cases = strength.effects.wind
    worst = max(cases, key=lambda case: case.max_deflection_mm)
    return ResponseReport(
        max_deflection_mm=worst.max_deflection_mm,
        at_mm=worst.at_mm,
        max_stress_mpa=max(case.max_stress_mpa for case in cases),
        cases=tuple(_case(case) for case in cases),
        in_plane=tuple(
            InPlaneReport(case.name, _pairs(case.result.forces_n), _pairs(case.result.movement_mm))
            for case in strength.effects.in_plane
        ),
        carried=tuple(
            CarriedReport(
                item.piece + 1, item.grips_mm, item.deflection_mm, item.at_mm, item.stress_mpa
            )
            for item in strength.effects.carried
        ),
        utilisation=tuple(_utilisation(state) for state in strength.states),
        rooms=tuple(_utilisation(state) for state in strength.rooms),
        not_held=tuple(f"piece {item.piece + 1}: {item.why}" for item in strength.mechanisms),
    )


def _step(item: Step) -> StepReport:
    memory = FROM_MEMORY if item.status.startswith("M") else ""
    return StepReport(item.symbol, item.value, item.unit, item.meaning, item.source, memory)


def _condition(item: Condition) -> ConditionReport:
    return ConditionReport(item.text, item.met, item.source)


def _case(case: Response) -> CaseReport:
    return CaseReport(
        name=case.name,
        total_load_n=case.total_load_n,
        max_deflection_mm=case.max_deflection_mm,
        at_mm=case.at_mm,
        max_stress_mpa=case.max_stress_mpa,
        stress_at_mm=case.stress_at_mm,
        reactions_n=case.reactions_n,
    )


def _pairs(array: NDArray[np.float64]) -> tuple[tuple[float, float], ...]:
    return tuple((x, y) for x, y in array.tolist())


def _utilisation(state: LimitState) -> UtilisationReport:
    result = state.utilisation
    return UtilisationReport(
        check=result.check,
        hole=state.hole or None,
        value=_finite(result.utilisation),
        case=state.case,
        demand=result.demand,
        resistance=result.resistance,
        unit=result.unit,
        formula=result.formula,
        inputs={given.symbol: given.value for given in result.inputs},
        source=result.source,
        status=result.caveat,
        note=result.note,
    )


def _finite(share: float | None) -> float | None:
    """JSON has no infinity: a load on nothing uses a million times what is there."""
    return 1e6 if share is not None and math.isinf(share) else share
