"""Evaluation: everything that is said about the holes of a plan, in one value."""

from collections.abc import Callable
from dataclasses import dataclass, field
from functools import lru_cache

import numpy as np

from holeplacer.medial_axis import routes, ways
from holeplacer.medial_axis.axis import Axis
from holeplacer.outline.outline import Outline
from holeplacer.plan.plan import Plan
from holeplacer.rules import (
    edge_distance,
    neighbours,
    process,
    seam_distance,
    spacing,
    strength,
    turning,
    wall,
)
from holeplacer.rules.finding import Finding
from holeplacer.rules.strength import Strength
from holeplacer.seams import seams

Rule = Callable[[Plan, Outline, Axis], tuple[Finding, ...]]

RULES: tuple[Rule, ...] = (
    edge_distance.check,
    process.check,
    spacing.check,
    turning.check,
    neighbours.check,
    seam_distance.check,
    seams.check,
    wall.check,
    strength.check,
)
"""Every rule a plan is held to, in the order their findings are listed."""


@dataclass(frozen=True)
class HoleFigures:
    """One hole as it lies in the metal.

    Attributes:
        number: Its number.
        x_mm, y_mm: Centre.
        diameter_mm: Its own diameter or the plan's.
        piece: Index of the piece it lies in; -1 outside the metal.
        edge_distance_mm: Centre to the nearest cut edge, negative outside the metal.
        limit_mm: What the edge distance must be.
        ligament_mm: Metal between the hole and that edge.
        nearest_edge_mm: The nearest point of the cut edges.
        drilled: Whether the process only marks it.
        spans: Way along the axis to the next hole towards the branch's start, then end, with
            that hole's number; fewer where no hole follows.
    """

    number: int
    x_mm: float
    y_mm: float
    diameter_mm: float
    piece: int
    edge_distance_mm: float
    limit_mm: float
    ligament_mm: float
    nearest_edge_mm: tuple[float, float]
    drilled: bool
    spans: tuple[tuple[float, int], ...] = ()


@dataclass(frozen=True)
class Span:
    """The stretch of axis between two neighbouring holes.

    Attributes:
        numbers: Both holes, the lower number first.
        length_mm: Way along the axis.
    """

    numbers: tuple[int, int]
    length_mm: float


@dataclass(frozen=True)
class Uncovered:
    """A stretch of one branch further than half the spacing from every hole.

    Attributes:
        branch: Index of the branch.
        from_mm, to_mm: Ways along it.
        xy_mm: Its middle.
        clearance_mm: Greatest clearance along it: the edge distance a hole there could have.
    """

    branch: int
    from_mm: float
    to_mm: float
    xy_mm: tuple[float, float]
    clearance_mm: float

    @property
    def length_mm(self) -> float:
        """How much stroke it is."""
        return self.to_mm - self.from_mm


@dataclass(frozen=True)
class TipFigures:
    """One tip with the hole that holds it.

    Attributes:
        node: Axis end.
        xy_mm: Outermost point.
        overhang_mm: Way from there along the axis to the first hole; None if none is reached.
        number: That hole.
        demanded: Whether the overhang rule asks for it; False for a corner.
        clearance_mm: Greatest clearance within the overhang of it: the edge distance a hole that
            holds it could have.
    """

    node: int
    xy_mm: tuple[float, float]
    overhang_mm: float | None
    number: int | None
    demanded: bool = True
    clearance_mm: float = 0.0


@dataclass(frozen=True)
class Evaluation:
    """What is said about a plan's holes.

    Attributes:
        findings: Every rule broken and every note, rule by rule.
        holes: One entry per hole, in the plan's order.
        spans: Every span, the longest first.
        uncovered: Every stretch out of reach, the longest first.
        tips: Every tip, in the axis's order.
        reach: Ways from all of the axis to the nearest hole, from which the spans were read; its
            sites are the holes that count (see `spacing.Spans`), in the plan's order.
        stretches: The uncovered stretches as the spacing rule joins them through junctions.
        strength: What loads do and how much of every resistance they use; None without a wind.
    """

    findings: tuple[Finding, ...]
    holes: tuple[HoleFigures, ...]
    spans: tuple[Span, ...]
    uncovered: tuple[Uncovered, ...]
    tips: tuple[TipFigures, ...]
    reach: ways.Reach = field(compare=False, repr=False)
    stretches: tuple[spacing.Uncovered, ...] = field(default=(), compare=False, repr=False)
    strength: Strength | None = field(default=None, compare=False, repr=False)

    @property
    def broken(self) -> int:
        """Number of rules broken, notes not counted."""
        return sum(finding.broken for finding in self.findings)


def evaluate(plan: Plan, outline: Outline, axis: Axis) -> Evaluation:
    """Hold a plan's holes to every rule and work out their figures.

    Args:
        plan: The plan.
        outline: Its cut outline.
        axis: Medial axis of that outline.
    """
    spans = spacing.spans(plan, outline, axis)
    holes = _hole_figures(plan, outline, spans)
    return Evaluation(
        findings=tuple(finding for check in RULES for finding in check(plan, outline, axis)),
        holes=holes,
        spans=_spans(holes),
        uncovered=_uncovered(axis, spans.far),
        tips=_tips(plan, axis, spans),
        reach=spans.reach,
        stretches=spans.uncovered,
        strength=strength.judged(plan, outline, axis)[0],
    )


def _hole_figures(plan: Plan, outline: Outline, spans: spacing.Spans) -> tuple[HoleFigures, ...]:
    around = outline.around([(hole.x_mm, hole.y_mm) for hole in plan.holes])
    diameters = [plan.diameter_of(hole) for hole in plan.holes]
    asked = {
        diameter: (edge_distance.limit(plan, diameter), process.is_drilled(plan, diameter))
        for diameter in set(diameters)
    }
    followers = _followers(plan, spans)
    return tuple(
        HoleFigures(
            number=hole.number,
            x_mm=hole.x_mm,
            y_mm=hole.y_mm,
            diameter_mm=diameter,
            piece=edge.piece,
            edge_distance_mm=edge.distance_mm,
            limit_mm=asked[diameter][0],
            ligament_mm=edge.distance_mm - diameter / 2,
            nearest_edge_mm=edge.nearest_mm,
            drilled=asked[diameter][1],
            spans=following,
        )
        for hole, edge, diameter, following in zip(
            plan.holes, around, diameters, followers, strict=True
        )
    )


def _followers(plan: Plan, spans: spacing.Spans) -> list[tuple[tuple[float, int], ...]]:
    """Per hole: way to the next hole on either side, with that hole's number."""
    numbers = [hole.number for hole in plan.holes]
    return [
        tuple((way, numbers[i]) for way, i in zip(lengths, nexts, strict=True) if i >= 0)
        for lengths, nexts in zip(spans.span_mm.tolist(), spans.next_hole.tolist(), strict=True)
    ]


def _spans(holes: tuple[HoleFigures, ...]) -> tuple[Span, ...]:
    found = {
        (way, *((hole.number, other) if hole.number < other else (other, hole.number)))
        for hole in holes
        for way, other in hole.spans
    }
    return tuple(Span((one, two), way) for way, one, two in sorted(found, reverse=True))


def _uncovered(axis: Axis, far: spacing.Far) -> tuple[Uncovered, ...]:
    parts = zip(far.branch.tolist(), far.low.tolist(), far.high.tolist(), strict=True)
    found = [_stretch(axis, *part) for part in parts]
    return tuple(sorted(found, key=lambda item: -item.length_mm))


@lru_cache(maxsize=4096)  # while one hole is dragged, what lies elsewhere stays
def _stretch(axis: Axis, branch: int, begin: float, end: float) -> Uncovered:
    item = axis.branches[branch]
    within = item.clearance[(item.s >= begin) & (item.s <= end)]
    at_ends = np.interp([begin, end], item.s, item.clearance)
    clearance = float(max(within.max(initial=0.0), at_ends.max()))
    middle = routes.place_at(axis, branch, (begin + end) / 2)
    return Uncovered(branch, begin, end, middle, clearance)


def _tips(plan: Plan, axis: Axis, spans: spacing.Spans) -> tuple[TipFigures, ...]:
    counting = np.flatnonzero(spans.counts).tolist()
    room = spacing.room_at_tips(axis, spacing.overhang_limit(plan))
    figures = []
    for tip, way, demanded, clearance in zip(
        axis.tips, spans.tips.way_mm.tolist(), spans.tips.demanded.tolist(), room, strict=True
    ):
        side = int(spans.reach.node_side[tip.node])
        held = side >= 0
        figures.append(
            TipFigures(
                node=tip.node,
                xy_mm=tip.xy,
                overhang_mm=way if held else None,
                number=plan.holes[counting[side // 2]].number if held else None,
                demanded=demanded,
                clearance_mm=clearance,
            )
        )
    return tuple(figures)
