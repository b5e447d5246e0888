"""Stretches of stroke that break a rule: long spans, tips that hang over, metal out of reach."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum

import numpy as np

from holeplacer.evaluation.evaluate import Evaluation
from holeplacer.evaluation.layout import Layout
from holeplacer.geometry.curve import Points
from holeplacer.gui.canvas.marks import of_limit
from holeplacer.medial_axis import routes
from holeplacer.medial_axis.axis import Axis
from holeplacer.units import LengthUnit

_SLACK_MM = 1e-6


class StretchKind(Enum):
    """What is the matter with it; each has its own line."""

    UNCOVERED = "no hole near enough"
    LONG = "span or overhang too long"
    CHECKED = "span of the hole in hand"


@dataclass(frozen=True, eq=False)
class Stretch:
    """Part of the axis and what is said of it.

    Attributes:
        kind: What is the matter.
        parts: Where it runs, in order.
        lines: The same as polylines, each (n, 2), mm.
        figure_at: Where the figure stands, mm.
        figure: Value and limit, such as `342 of 300 mm`; may be empty.
    """

    kind: StretchKind
    parts: tuple[routes.Part, ...]
    lines: tuple[Points, ...]
    figure_at: tuple[float, float]
    figure: str

    def same_as(self, other: Stretch) -> bool:
        """Whether both look alike."""
        return (
            (self.kind, self.figure, self.parts) == (other.kind, other.figure, other.parts)
            and len(self.lines) == len(other.lines)
            and all(map(np.array_equal, self.lines, other.lines))
        )


def broken_stretches(
    layout: Layout, evaluation: Evaluation, unit: LengthUnit
) -> tuple[Stretch, ...]:
    """Every span too long and every tip that hangs over too far, and what no hole holds.

    Without any hole there is nothing to show: all of the sign is out of reach then, and the
    findings say so.
    """
    if not evaluation.holes:
        return ()
    found = routes.Routes(layout.axis, evaluation.reach)
    return (
        *_long_spans(layout, found, unit),
        *_long_tips(layout, evaluation, found, unit),
        *_uncovered(layout, evaluation),
    )


def spans_of(
    layout: Layout, evaluation: Evaluation, number: int, unit: LengthUnit
) -> tuple[Stretch, ...]:
    """The spans of one hole that keep the spacing, with their figures."""
    numbers = [hole.number for hole in evaluation.holes]
    if number not in numbers:
        return ()
    spacing = layout.plan.limits.spacing_mm
    found = routes.Routes(layout.axis, evaluation.reach).spans(site=numbers.index(number))
    return tuple(
        _stretch(StretchKind.CHECKED, layout.axis, span.parts,
                 of_limit(span.length_mm, spacing, unit))
        for span in found
        if span.length_mm <= spacing + _SLACK_MM
    )  # fmt: skip


def _long_spans(layout: Layout, found: routes.Routes, unit: LengthUnit) -> Iterator[Stretch]:
    spacing = layout.plan.limits.spacing_mm
    for span in found.spans(spacing + _SLACK_MM):
        figure = of_limit(span.length_mm, spacing, unit)
        yield _stretch(StretchKind.LONG, layout.axis, span.parts, figure)


def _long_tips(
    layout: Layout, evaluation: Evaluation, found: routes.Routes, unit: LengthUnit
) -> Iterator[Stretch]:
    most = layout.plan.limits.overhang_mm
    for tip in evaluation.tips:
        if tip.overhang_mm is None or tip.overhang_mm <= most + _SLACK_MM:
            continue
        parts = found.from_node(tip.node)
        if parts:
            figure = of_limit(tip.overhang_mm, most, unit)
            yield _stretch(StretchKind.LONG, layout.axis, parts, figure)


def _stretch(kind: StretchKind, axis: Axis, parts: tuple[routes.Part, ...], figure: str) -> Stretch:
    return Stretch(kind, parts, routes.polylines(axis, parts), routes.midpoint(axis, parts), figure)


def _uncovered(layout: Layout, evaluation: Evaluation) -> Iterator[Stretch]:
    for far in evaluation.uncovered:
        parts = (routes.Part(far.branch, far.from_mm, far.to_mm),)
        yield _stretch(StretchKind.UNCOVERED, layout.axis, parts, "")
