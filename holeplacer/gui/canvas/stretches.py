"""Stretches of stroke that break a rule: long spans, tips that hang over, metal out of reach."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum

import numpy as np

from holeplacer.evaluation.evaluate import Evaluation
from holeplacer.evaluation.layout import Layout
from holeplacer.gui.canvas.marks import of_limit
from holeplacer.medial_axis import routes
from holeplacer.medial_axis.axis import Axis
from holeplacer.rules import spacing
from holeplacer.units import LengthUnit

_Said = tuple["StretchKind", tuple[routes.Part, ...], str]


class StretchKind(Enum):
    """What is the matter with it; each has its own line."""

    UNCOVERED = "no hole near enough"
    LONG = "span or overhang too long"
    CHECKED = "span of the hole in hand"


@dataclass(frozen=True, eq=False)
class Stretch:
    """Part of the axis and what is said of it. Compared by identity.

    Attributes:
        kind: What is the matter.
        parts: Where it runs, in order.
        figure_at: Where the figure stands, mm.
        figure: Value and limit, such as `342 of 300 mm`; may be empty.
    """

    kind: StretchKind
    parts: tuple[routes.Part, ...]
    figure_at: tuple[float, float]
    figure: str


class Stretches:
    """Finds the stretches of each evaluation; one that is as before stays the same object.

    So a view that keeps an item for each draws anew only what a moved hole touches.
    """

    def __init__(self) -> None:
        self._axis: Axis | None = None
        self._known: dict[_Said, Stretch] = {}

    def broken(
        self, layout: Layout, evaluation: Evaluation, unit: LengthUnit
    ) -> tuple[Stretch, ...]:
        """Every span too long and every tip that hangs over too far, and what no hole holds.

        Without any hole there is nothing to show: all of the sign is out of reach then, and the
        findings say so.
        """
        if layout.axis is not self._axis:
            self._axis, self._known = layout.axis, {}
        if not evaluation.holes:
            return ()
        found = [
            *_long_spans(layout, unit),
            *_long_tips(layout, evaluation, unit),
            *_uncovered(evaluation),
        ]
        self._known = {said: self._known.get(said) or _made(layout.axis, *said) for said in found}
        return tuple(self._known.values())


def spans_of(layout: Layout, number: int, unit: LengthUnit) -> tuple[Stretch, ...]:
    """The spans of one hole that keep the spacing, with their figures."""
    plan = layout.plan
    found = spacing.spans(plan, layout.outline, layout.axis)
    counting = np.flatnonzero(found.counts).tolist()
    sites = [site for site, index in enumerate(counting) if plan.holes[index].number == number]
    most = spacing.limit(plan)
    return tuple(
        _made(layout.axis, StretchKind.CHECKED, span.parts, of_limit(span.length_mm, most, unit))
        for site in sites
        for span in routes.routes(layout.axis, found.reach).spans(site=site)
        if span.length_mm <= most + spacing.SLACK_MM
    )


def _long_spans(layout: Layout, unit: LengthUnit) -> Iterator[_Said]:
    reach = spacing.spans(layout.plan, layout.outline, layout.axis).reach
    most = spacing.limit(layout.plan)
    for span in routes.routes(layout.axis, reach).spans(most + spacing.SLACK_MM):
        yield StretchKind.LONG, span.parts, of_limit(span.length_mm, most, unit)


def _long_tips(layout: Layout, evaluation: Evaluation, unit: LengthUnit) -> Iterator[_Said]:
    ways = routes.routes(layout.axis, evaluation.reach)
    most = spacing.overhang_limit(layout.plan)
    for tip in evaluation.tips:
        over = tip.overhang_mm
        if tip.demanded and over is not None and over > most + spacing.SLACK_MM:
            parts = ways.from_node(tip.node)
            if parts:
                yield StretchKind.LONG, parts, of_limit(over, most, unit)


def _uncovered(evaluation: Evaluation) -> Iterator[_Said]:
    for far in evaluation.uncovered:
        yield StretchKind.UNCOVERED, (routes.Part(far.branch, far.from_mm, far.to_mm),), ""


def _made(axis: Axis, kind: StretchKind, parts: tuple[routes.Part, ...], figure: str) -> Stretch:
    return Stretch(kind, parts, routes.midpoint(axis, parts), figure)
