"""Handover: all that one side of a point of the axis needs to know about the other side.

Either the nearest hole over there is so far away, or something over there still needs a hole so
near. Both at once can't matter: a hole that meets the need is nearer than the one there is, or
the one there is would have met it. So handovers are in one order, from a need that must be met on
the spot, by needs with more and more room, neither, and holes nearer and nearer, to a hole on the
spot. For each number of holes used over there, only the best handover is worth keeping.
"""

from dataclasses import dataclass
from math import inf
from typing import TypeAlias

TOLERANCE_MM = 1e-7
"""Rounding of sums of ways."""

Trail: TypeAlias = tuple[int, float, "Trail | None", "Trail | None"]
"""A hole (branch and way; branch -1: none) and the trails of holes used before it."""

Option: TypeAlias = tuple[int, bool, float, Trail | None]
"""Number of holes; whether this is a need; how far away the nearest hole is, or may be; trail."""

NOTHING: Option = (0, False, inf, None)


@dataclass(frozen=True, slots=True)
class Step:
    """A part of a branch in the direction it is passed, the same all along.

    Attributes:
        branch: The branch.
        begin: Where it begins on the branch.
        sign: 1 towards the branch's end, -1 towards its start.
        length: mm; 0 for a hole that stays.
        room: Whether holes may be here.
        radius: How near a hole must be at the beginning, mm; infinite if nothing is wanted.
        growth: Change of that per mm passed, between -1 and 1.
    """

    branch: int
    begin: float
    sign: int
    length: float
    room: bool
    radius: float
    growth: float

    def backwards(self) -> "Step":
        """The same part passed the other way."""
        wanted = self.radius < inf
        return Step(
            self.branch,
            self.begin + self.sign * self.length,
            -self.sign,
            self.length,
            self.room,
            self.radius + self.growth * self.length if wanted else inf,
            -self.growth,
        )


def better(one: Option, two: Option) -> bool:
    """Whether the first hands over more than the second."""
    if one[1] != two[1]:
        return two[1]
    return one[2] > two[2] + TOLERANCE_MM if one[1] else one[2] < two[2] - TOLERANCE_MM


def worth_keeping(options: list[Option]) -> list[Option]:
    """In order of holes used, those that hand over more than any with fewer holes."""
    options.sort(key=_rank)
    kept: list[Option] = []
    for option in options:
        if not kept or better(option, kept[-1]):
            kept.append(option)
    return kept


def joined(one: list[Option], two: list[Option]) -> list[Option]:
    """What two parts that meet in a point hand over together."""
    if one == [NOTHING]:
        return two
    if two == [NOTHING]:
        return one
    return worth_keeping([_both(a, b) for a in one for b in two])


def asking(options: list[Option], radius: float) -> list[Option]:
    """The same where the point itself needs a hole within a radius."""
    asked = [
        (count, True, min(away, radius) if needs else radius, trail)
        if needs or away > radius + TOLERANCE_MM
        else (count, needs, away, trail)
        for count, needs, away, trail in options
    ]
    return worth_keeping(asked)


def along(options: list[Option], steps: list[Step]) -> list[Option]:
    """What is handed over at the end of some steps."""
    for step in steps:
        if not options:
            break
        if step.length == 0.0:
            count, _, _, trail = options[0]
            options = [(count, False, 0.0, trail)]
            continue
        if step.radius < inf:
            options = asking(options, step.radius)
        if step.room:
            options = _placed(options[0], step)
        else:
            moved = [_moved(option, step.length, step.radius, step.growth) for option in options]
            options = worth_keeping([option for option in moved if option is not None])
    return options


def _rank(option: Option) -> tuple[int, bool, float]:
    return option[0], option[1], -option[2] if option[1] else option[2]


def _both(one: Option, two: Option) -> Option:
    """The nearer hole, unless a need is nearer."""
    first, second = (one, two) if one[2] <= two[2] else (two, one)
    if first[1] and not second[1] and second[2] <= first[2] + TOLERANCE_MM:
        first = second
    trail: Trail | None = one[3] if two[3] is None else two[3]
    if one[3] is not None and two[3] is not None:
        trail = (-1, 0.0, one[3], two[3])
    return one[0] + two[0], first[1], first[2], trail


def _moved(option: Option, length: float, radius: float, growth: float) -> Option | None:
    """Passed on without a hole; None if a need comes too late."""
    count, needs, away, trail = option
    if not needs:
        until = _served_until(away, radius, growth)
        if until >= length - TOLERANCE_MM:
            return count, False, away + length, trail
        away = until + radius + growth * until
    if away < length - TOLERANCE_MM:
        return None
    return count, True, max(away - length, 0.0), trail


def _served_until(away: float, radius: float, growth: float) -> float:
    """How far a hole this far back serves."""
    if radius == inf or growth >= 1.0:
        return inf
    return max(radius - away, 0.0) / (1.0 - growth)


def _placed(option: Option, step: Step) -> list[Option]:
    """As few holes as it takes, each as far on as can be; and one more at the end."""
    passed, radius = 0.0, step.radius
    while True:
        left = step.length - passed
        moved = _moved(option, left, radius, step.growth)
        if moved is not None:
            count, needs, away, trail = moved
            if not needs and away <= TOLERANCE_MM:
                return [moved]
            end = step.begin + step.sign * step.length
            return [moved, (count + 1, False, 0.0, (step.branch, end, option[3], None))]
        count, needs, away, trail = option
        if not needs:
            until = _served_until(away, radius, step.growth)
            away = until + radius + step.growth * until
        passed += away
        radius += step.growth * away
        at = step.begin + step.sign * passed
        option = (count + 1, False, 0.0, (step.branch, at, trail, None))
