"""From figures to what is seen: the mark of each hole."""

import math
from collections.abc import Set
from functools import lru_cache

from holeplacer.evaluation.evaluate import Evaluation, HoleFigures
from holeplacer.gui.canvas.hole_symbol import HoleMark, Trouble
from holeplacer.plan.hole import Hole
from holeplacer.plan.plan import Plan
from holeplacer.rules import edge_distance, neighbours
from holeplacer.units import LengthUnit, format_length


def hole_marks(
    plan: Plan, evaluation: Evaluation | None, selected: Set[int], unit: LengthUnit
) -> tuple[HoleMark, ...]:
    """One mark per hole, in the plan's order.

    A hole is short of metal where the edge or a neighbour is nearer than its limit; it is blocked
    where it would run into that edge or neighbour, or lies off the metal.

    Args:
        plan: The holes.
        evaluation: Their figures and findings; None while there are none.
        selected: Numbers of the selected holes.
        unit: What figures are shown in.
    """
    figures = {one.number: one for one in evaluation.holes} if evaluation is not None else {}
    troubles = _troubles(plan, evaluation, figures, unit)
    marks = []
    for hole in plan.holes:
        trouble, towards, figure = troubles.get(hole.number, (Trouble.NONE, 0.0, ""))
        sizes = (plan.diameter_of(hole), plan.standoff.cap_mm)
        marks.append(_mark(hole, sizes, hole.number in selected, trouble, towards, figure))
    return tuple(marks)


@lru_cache(maxsize=1024)  # a hole that is as before keeps its very mark: views need not compare
def _mark(
    hole: Hole,
    sizes: tuple[float, float],
    selected: bool,
    trouble: Trouble,
    towards: float,
    figure: str,
) -> HoleMark:
    return HoleMark(
        number=hole.number,
        x_mm=hole.x_mm,
        y_mm=hole.y_mm,
        hole_mm=sizes[0],
        cap_mm=sizes[1],
        fixed=hole.fixed,
        selected=selected,
        trouble=trouble,
        short_rad=towards,
        figure=figure,
    )


_Told = tuple[Trouble, float, str]


def _troubles(
    plan: Plan,
    evaluation: Evaluation | None,
    figures: dict[int, HoleFigures],
    unit: LengthUnit,
) -> dict[int, _Told]:
    holes = {hole.number: hole for hole in plan.holes}
    told: dict[int, _Told] = {}
    for finding in evaluation.findings if evaluation is not None else ():
        hole = holes.get(finding.place.index)
        if hole is None or finding.rule not in (neighbours.NAME, edge_distance.NAME):
            continue
        figure = of_limit(finding.value, finding.limit, unit)
        if finding.rule == neighbours.NAME:
            other = _nearest_other(plan, hole)
            meet = (plan.diameter_of(hole) + plan.diameter_of(other)) / 2
            trouble = Trouble.BLOCKED if finding.value <= meet else Trouble.SHORT
            for one, two in ((hole, other), (other, hole)):
                told.setdefault(one.number, (trouble, _direction(one, two.x_mm, two.y_mm), figure))
        elif hole.number in figures:
            told[hole.number] = _edge_trouble(hole, figures[hole.number], figure)
    return told


def _edge_trouble(hole: Hole, figures: HoleFigures, figure: str) -> _Told:
    blocked = figures.ligament_mm <= 0
    towards = _direction(hole, *figures.nearest_edge_mm)
    return (Trouble.BLOCKED if blocked else Trouble.SHORT, towards, figure)


def _nearest_other(plan: Plan, hole: Hole) -> Hole:
    others = (other for other in plan.holes if other.number != hole.number)
    return min(others, key=lambda other: math.hypot(other.x_mm - hole.x_mm, other.y_mm - hole.y_mm))


def _direction(hole: Hole, x_mm: float, y_mm: float) -> float:
    return math.atan2(y_mm - hole.y_mm, x_mm - hole.x_mm)


def of_limit(value_mm: float, limit_mm: float, unit: LengthUnit) -> str:
    """A figure beside its limit, with one unit: `9.8 of 12.7 mm`."""
    value = format_length(value_mm, unit).removesuffix(f" {unit.value}")
    return f"{value} of {format_length(limit_mm, unit)}"
