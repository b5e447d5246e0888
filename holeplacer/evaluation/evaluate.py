"""Evaluation: everything that is said about the holes of a plan, in one value."""

from collections.abc import Callable
from dataclasses import dataclass, field

import numpy as np

from holeplacer.medial_axis import ways
from holeplacer.medial_axis.axis import Axis
from holeplacer.outline.outline import Outline
from holeplacer.plan.plan import Plan
from holeplacer.rules import edge_distance, neighbours, process
from holeplacer.rules.finding import Finding

Rule = Callable[[Plan, Outline, Axis], tuple[Finding, ...]]

RULES: tuple[Rule, ...] = (edge_distance.check, process.check, neighbours.check)
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
    """

    node: int
    xy_mm: tuple[float, float]
    overhang_mm: float | None
    number: int | None


@dataclass(frozen=True)
class Evaluation:
    """What is said about a plan's holes.

    Attributes:
        findings: Every rule broken and every note, rule by rule.
        holes: One entry per hole, in the plan's order.
        spans: Every span, the longest first.
        uncovered: Every stretch out of reach, the longest first.
        tips: Every tip, in the axis's order.
        reach: Ways from all of the axis to the nearest hole, from which the spans were read.
    """

    findings: tuple[Finding, ...]
    holes: tuple[HoleFigures, ...]
    spans: tuple[Span, ...]
    uncovered: tuple[Uncovered, ...]
    tips: tuple[TipFigures, ...]
    reach: ways.Reach = field(compare=False, repr=False)

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
    reach = ways.reach(axis, _sites(plan, axis))
    return Evaluation(
        findings=tuple(finding for check in RULES for finding in check(plan, outline, axis)),
        holes=_hole_figures(plan, outline, reach),
        spans=_spans(plan, reach),
        uncovered=_uncovered(plan, axis, reach),
        tips=_tips(plan, axis, reach),
        reach=reach,
    )


def _sites(plan: Plan, axis: Axis) -> ways.AxisPoints:
    return ways.feet(axis, [(hole.x_mm, hole.y_mm) for hole in plan.holes]).points


def _hole_figures(plan: Plan, outline: Outline, reach: ways.Reach) -> tuple[HoleFigures, ...]:
    if not plan.holes:
        return ()
    xy = np.array([(hole.x_mm, hole.y_mm) for hole in plan.holes])
    distances = outline.edge_distance(xy).tolist()
    edges = outline.nearest_edge(xy).tolist()
    pieces = outline.piece_at(xy).tolist()
    lengths, nexts = reach.spans()
    figures = []
    for index, hole in enumerate(plan.holes):
        diameter, distance = plan.diameter_of(hole), distances[index]
        figures.append(
            HoleFigures(
                number=hole.number,
                x_mm=hole.x_mm,
                y_mm=hole.y_mm,
                diameter_mm=diameter,
                piece=pieces[index],
                edge_distance_mm=distance,
                limit_mm=edge_distance.limit(plan, diameter),
                ligament_mm=distance - diameter / 2,
                nearest_edge_mm=(edges[index][0], edges[index][1]),
                drilled=process.is_drilled(plan, diameter),
                spans=tuple(
                    (float(length), plan.holes[following].number)
                    for length, following in zip(lengths[index], nexts[index], strict=True)
                    if following >= 0
                ),
            )
        )
    return tuple(figures)


def _spans(plan: Plan, reach: ways.Reach) -> tuple[Span, ...]:
    lengths, nexts = reach.spans()
    found = set()
    for index, hole in enumerate(plan.holes):
        for length, following in zip(lengths[index].tolist(), nexts[index].tolist(), strict=True):
            if following >= 0:
                numbers = sorted((hole.number, plan.holes[following].number))
                found.add((length, numbers[0], numbers[1]))
    return tuple(Span((one, two), length) for length, one, two in sorted(found, reverse=True))


def _uncovered(plan: Plan, axis: Axis, reach: ways.Reach) -> tuple[Uncovered, ...]:
    gaps, begins, ends = reach.beyond(plan.limits.spacing_mm / 2)
    branches = reach.branch[gaps]
    middles = ways.places(axis, ways.AxisPoints.on_branches(branches, (begins + ends) / 2))
    found = []
    for branch, begin, end, xy in zip(
        branches.tolist(), begins.tolist(), ends.tolist(), middles.tolist(), strict=True
    ):
        item = axis.branches[branch]
        within = item.clearance[(item.s >= begin) & (item.s <= end)]
        at_ends = np.interp([begin, end], item.s, item.clearance)
        clearance = float(max(within.max(initial=0.0), at_ends.max()))
        found.append(Uncovered(branch, begin, end, (xy[0], xy[1]), clearance))
    return tuple(sorted(found, key=lambda item: -item.length_mm))


def _tips(plan: Plan, axis: Axis, reach: ways.Reach) -> tuple[TipFigures, ...]:
    figures = []
    for tip in axis.tips:
        side = int(reach.node_side[tip.node])
        overhang = float(reach.node_way[tip.node]) + tip.reach_mm if side >= 0 else None
        number = plan.holes[side // 2].number if side >= 0 else None
        figures.append(TipFigures(tip.node, tip.xy, overhang, number))
    return tuple(figures)
