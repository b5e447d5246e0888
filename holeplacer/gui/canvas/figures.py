"""Figures of the hole in hand, each beside its limit."""

from __future__ import annotations

from typing import TYPE_CHECKING

from holeplacer.gui.canvas.live_item import LiveFigures
from holeplacer.gui.canvas.plate import Line
from holeplacer.rules import neighbours
from holeplacer.units import LengthUnit, format_length

if TYPE_CHECKING:
    from holeplacer.evaluation.evaluate import Evaluation, HoleFigures
    from holeplacer.evaluation.layout import Layout
    from holeplacer.plan.limits import Limits

_SLACK_MM = 1e-6


def live_figures(
    layout: Layout, evaluation: Evaluation, number: int, unit: LengthUnit
) -> LiveFigures | None:
    """What one hole costs where it is; None if it has not been evaluated."""
    figures = next((one for one in evaluation.holes if one.number == number), None)
    if figures is None:
        return None
    limits = layout.plan.limits
    lines = (
        *_edge_lines(figures, unit),
        *_span_lines(figures, limits, unit),
        *_tip_lines(evaluation, number, limits, unit),
        *_neighbour_lines(evaluation, number, unit),
    )
    return LiveFigures(
        centre=(figures.x_mm, figures.y_mm),
        need_mm=figures.limit_mm,
        edge_point=figures.nearest_edge_mm,
        edge_figure=format_length(abs(figures.edge_distance_mm), unit),
        short=_under(figures.edge_distance_mm, figures.limit_mm),
        lines=lines,
    )


def _edge_lines(figures: HoleFigures, unit: LengthUnit) -> tuple[Line, ...]:
    why: tuple[Line, ...] = ()
    if figures.edge_distance_mm <= 0:
        why = (Line("outside the metal", broken=True),)
    elif figures.ligament_mm <= 0:
        why = (Line("cuts through the edge", broken=True),)
    short = _under(figures.edge_distance_mm, figures.limit_mm)
    edge = Line(
        "edge distance",
        format_length(figures.edge_distance_mm, unit),
        f"≥ {format_length(figures.limit_mm, unit)}",
        broken=short,
    )
    return (*why, edge)


def _span_lines(figures: HoleFigures, limits: Limits, unit: LengthUnit) -> tuple[Line, ...]:
    return tuple(
        Line(
            f"span to {other}",
            format_length(way, unit),
            f"≤ {format_length(limits.spacing_mm, unit)}",
            broken=way > limits.spacing_mm + _SLACK_MM,
        )
        for way, other in figures.spans
    )


def _tip_lines(
    evaluation: Evaluation, number: int, limits: Limits, unit: LengthUnit
) -> tuple[Line, ...]:
    """The furthest tip whose first hole this is."""
    ways = [tip.overhang_mm for tip in evaluation.tips if tip.number == number]
    furthest = max((way for way in ways if way is not None), default=None)
    if furthest is None:
        return ()
    return (
        Line(
            "overhang to tip",
            format_length(furthest, unit),
            f"≤ {format_length(limits.overhang_mm, unit)}",
            broken=furthest > limits.overhang_mm + _SLACK_MM,
        ),
    )


def _neighbour_lines(evaluation: Evaluation, number: int, unit: LengthUnit) -> tuple[Line, ...]:
    found = (
        finding
        for finding in evaluation.findings
        if finding.rule == neighbours.NAME and f" {number} " in f" {finding.message} "
    )
    return tuple(
        Line(
            "to its neighbour",
            format_length(finding.value, unit),
            f"≥ {format_length(finding.limit, unit)}",
            broken=True,
        )
        for finding in found
    )


def _under(value_mm: float, limit_mm: float) -> bool:
    return value_mm < limit_mm - _SLACK_MM
