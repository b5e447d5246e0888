"""From ways along the axis to what is drawn on the strokes: long spans, metal out of reach."""

from __future__ import annotations

from collections.abc import Iterator

from holeplacer.evaluation.evaluate import Evaluation
from holeplacer.evaluation.layout import Layout
from holeplacer.gui.canvas.marks import of_limit
from holeplacer.gui.canvas.stretch_item import Stretch, StretchKind
from holeplacer.medial_axis import routes
from holeplacer.medial_axis.axis import Axis
from holeplacer.units import LengthUnit, format_length

_SLACK_MM = 1e-6


def broken_stretches(
    layout: Layout, evaluation: Evaluation, unit: LengthUnit
) -> tuple[Stretch, ...]:
    """Every span longer than the spacing, every tip that hangs too far over, and what is left.

    What is left is metal further than half the spacing from every hole that lies on none of
    those: a stroke whose only hole is far away. Without any hole there is nothing to show: all
    of the sign is out of reach then, and the findings say so.
    """
    if not evaluation.holes:
        return ()
    shown = [
        *_long_spans(layout, evaluation, unit),
        *_long_tips(layout, evaluation, unit),
    ]
    told = {(part.branch, *sorted((part.from_mm, part.to_mm))) for _, parts in shown
            for part in parts}  # fmt: skip
    axis = layout.axis
    left = [
        Stretch(
            StretchKind.UNCOVERED,
            routes.polylines(axis, (routes.Part(far.branch, far.from_mm, far.to_mm),)),
            far.xy_mm,
            f"{format_length(far.length_mm, unit)} out of reach",
        )
        for far in evaluation.uncovered
        if not any(
            branch == far.branch
            and low - _SLACK_MM <= far.from_mm
            and far.to_mm <= high + _SLACK_MM
            for branch, low, high in told
        )
    ]
    return (*(stretch for stretch, _ in shown), *left)


_Routed = tuple[Stretch, tuple[routes.Part, ...]]


def _long_spans(layout: Layout, evaluation: Evaluation, unit: LengthUnit) -> Iterator[_Routed]:
    spacing = layout.plan.limits.spacing_mm
    for parts in routes.span_routes(layout.axis, evaluation.reach, spacing + _SLACK_MM):
        length = sum(part.length_mm for part in parts)
        yield _broken(layout.axis, parts, of_limit(length, spacing, unit)), parts


def _long_tips(layout: Layout, evaluation: Evaluation, unit: LengthUnit) -> Iterator[_Routed]:
    most = layout.plan.limits.overhang_mm
    for tip in evaluation.tips:
        if tip.overhang_mm is None or tip.overhang_mm <= most + _SLACK_MM:
            continue
        parts = routes.node_route(layout.axis, evaluation.reach, tip.node)
        if parts:
            yield _broken(layout.axis, parts, of_limit(tip.overhang_mm, most, unit)), parts


def _broken(axis: Axis, parts: tuple[routes.Part, ...], figure: str) -> Stretch:
    return Stretch(
        StretchKind.LONG_SPAN,
        routes.polylines(axis, parts),
        routes.midpoint(axis, parts),
        figure,
    )
