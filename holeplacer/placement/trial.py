"""Trial: holes tried out, with what loads do to them, and the ground that all trials share."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from holeplacer.medial_axis import ways
from holeplacer.medial_axis.axis import Axis
from holeplacer.medial_axis.ways import AxisPoints, Floats
from holeplacer.outline.outline import Outline
from holeplacer.placement import candidates, overload, wall_room
from holeplacer.placement.overload import Overload
from holeplacer.placement.watch import Watch
from holeplacer.plan.plan import Plan
from holeplacer.rules import (
    edge_distance,
    load_effects,
    neighbours,
    seam_distance,
    spacing,
    strength,
    turning,
    wall,
)
from holeplacer.rules.strength import Strength

_PITCH_MM = 6.0
"""Places for an added hole are looked at so far apart."""

Rank = tuple[float, float]


@dataclass(frozen=True, eq=False)
class Trial:
    """A plan, judged.

    Attributes:
        plan: With the holes tried.
        found: What loads do to it.
        over: What fails.
    """

    plan: Plan
    found: Strength
    over: Overload

    @property
    def utilisation(self) -> float:
        """The greatest."""
        worst = self.found.worst_known
        return (worst.share or 0.0) if worst else 0.0

    @cached_property
    def deflection_mm(self) -> float:
        """The greatest."""
        return max(case.max_deflection_mm for case in self.found.effects.wind)

    @property
    def rank(self) -> Rank:
        """What fails goes first, then how much the sheet gives; small gains don't count."""
        return _rank(self.over.total, self.deflection_mm)


@dataclass(frozen=True, eq=False)
class Site:
    """What stays the same while holes come, go and slide.

    Attributes:
        outline, axis: The metal.
        watch: Whether to go on, and who is told.
        bare: Findings of each other rule that the holes begun with leave open.
        room: Places of the axis that are wide enough for a hole.
        room_xy: The same in the plane.
        wind_only: Judge by what wind does across the sheet alone.
    """

    outline: Outline
    axis: Axis
    watch: Watch
    bare: tuple[int, ...]
    room: AxisPoints
    room_xy: Floats
    wind_only: bool = False

    def judged(self, plan: Plan, *, below: Rank | None = None) -> Trial | None:
        """The plan's strength; None where nothing can be reckoned.

        Args:
            plan: With the holes to try.
            below: None is given back, too, where the strokes alone show that the plan does not
                rank below this: the limit states of all holes need not be looked at then.
        """
        self.watch.look()
        if below is not None and self._least_rank(plan) >= below:
            return None
        found = strength.strength(plan, self.outline, self.axis, wind_only=self.wind_only)
        if found is None:
            return None
        spans = spacing.spans(plan, self.outline, self.axis)
        return Trial(plan, found, overload.overload(plan, self.axis, spans, found))

    def _least_rank(self, plan: Plan) -> Rank:
        """What the plan's rank is at least: limit states of holes only add to what fails."""
        effects = load_effects.load_effects(plan, self.outline, self.axis, wind_only=True)
        spans = spacing.spans(plan, self.outline, self.axis)
        total = overload.of_sheet(plan, self.axis, spans, effects)
        return _rank(total, max(case.max_deflection_mm for case in effects.wind))

    def keeps(self, plan: Plan) -> bool:
        """Whether none of the other rules finds more than it did at the beginning."""
        now = _broken_by_rule(plan, self.outline, self.axis)
        return all(one <= other for one, other in zip(now, self.bare, strict=True))


def broken_by_rule(plan: Plan, outline: Outline, axis: Axis) -> tuple[int, ...]:
    """How many findings each rule has that holes can answer to, strength left out."""
    return tuple(_broken_by_rule(plan, outline, axis))


def _broken_by_rule(plan: Plan, outline: Outline, axis: Axis) -> Iterator[int]:
    """One rule after the other, the quickest first."""
    yield wall.broken(plan, outline)
    for rule in (seam_distance, neighbours, edge_distance, turning, spacing):
        yield sum(item.broken for item in rule.check(plan, outline, axis))


def _rank(total: float, deflection_mm: float) -> Rank:
    return round(total, 3), round(deflection_mm, 3)


def room(plan: Plan, outline: Outline, axis: Axis) -> tuple[AxisPoints, Floats]:
    """Places of the axis that are wide enough, far enough from seams, and not blocked."""
    room = candidates.wide(axis, edge_distance.limit(plan))
    room = wall_room.allowed(plan, outline, axis, room)
    room = candidates.clear_of_seams(axis, room, plan.seams, seam_distance.limit(plan))
    count = np.maximum(np.ceil(room.length / _PITCH_MM).astype(int), 1) + 1
    share = np.concatenate([np.linspace(0.0, 1.0, n) for n in count] or [np.empty(0)])
    index = np.repeat(np.arange(len(room)), count)
    points = AxisPoints.on_branches(
        room.branch[index], room.low[index] + share * room.length[index]
    )
    return points, ways.places(axis, points)
