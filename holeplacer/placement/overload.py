"""Overload: where a sheet and its standoffs carry more than they may, and how much in all.

The greatest utilisation alone is a poor guide for better holes: it says nothing of all other places
that fail. Here every stretch of stroke and every limit state above 1 counts by how far it is above,
so that whatever helps any of them can be seen to help.
"""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from holeplacer.loads import combination
from holeplacer.medial_axis import ways
from holeplacer.medial_axis.axis import Axis
from holeplacer.medial_axis.ways import AxisPoints, Floats, Indices
from holeplacer.plan.plan import Plan
from holeplacer.resistance import bending
from holeplacer.rules import limit_states, span_deflection, strength
from holeplacer.rules.load_effects import LoadEffects
from holeplacer.rules.spacing import Spans
from holeplacer.rules.strength import Strength
from holeplacer.structure.grillage import Grillage

_STRETCH_MM = 10.0
"""So much stroke that fails weighs like one limit state of a hole that fails as badly."""

_MOST = 1e3
"""A load on nothing uses endlessly much: no place counts for more."""

ONE_SPOT = 0.15
"""Failing places nearer than this share of the spacing are one spot."""


@dataclass(frozen=True)
class Spot:
    """A place that fails.

    Attributes:
        xy_mm: Where.
        share: The greatest utilisation there.
    """

    xy_mm: tuple[float, float]
    share: float

    def apart_mm(self, other: tuple[float, float]) -> float:
        """Straight distance to a place."""
        return float(np.hypot(self.xy_mm[0] - other[0], self.xy_mm[1] - other[1]))


@dataclass(frozen=True)
class Overload:
    """What fails under a plan's loads.

    Attributes:
        total: Sum over all limit states, and over all stroke by its length, of what is above 1; 0
            where nothing fails.
        spots: Where, the worst first.
    """

    total: float
    spots: tuple[Spot, ...]


def overload(plan: Plan, axis: Axis, spans: Spans, found: Strength) -> Overload:
    """What fails.

    Args:
        plan: The plan; a wind is chosen.
        axis: Medial axis of its cut outline.
        spans: How its holes stand along the axis.
        found: Its strength.
    """
    failing = [
        Spot(state.at_mm, state.share)
        for state in found.states
        if state.share is not None and state.share > strength.LIMIT
    ]
    used = _along(plan, axis, spans, found.effects)
    stations = found.effects.grillage.ways
    total = _total(used, found.effects.grillage)
    total += sum(min(spot.share - strength.LIMIT, _MOST) for spot in failing)
    near = ONE_SPOT * plan.limits.spacing_mm
    return Overload(total, _spots(failing, _stretches(axis, stations, used, near), near))


def of_sheet(plan: Plan, axis: Axis, spans: Spans, effects: LoadEffects) -> float:
    """The part of the total that the strokes make: no less is in it all, and it is soon known.

    Args:
        plan: The plan; a wind is chosen.
        axis: Medial axis of its cut outline.
        spans: How its holes stand along the axis.
        effects: What the wind does to it.
    """
    return _total(_along(plan, axis, spans, effects), effects.grillage)


def _total(used: Floats, sign: Grillage) -> float:
    over = np.minimum(np.maximum(used - strength.LIMIT, 0.0), _MOST)
    return float((over * _weights(sign)).sum()) / _STRETCH_MM


def _along(plan: Plan, axis: Axis, spans: Spans, effects: LoadEffects) -> Floats:
    """Utilisation of the sheet at every station: stress and deflection, the worse one."""
    loading = plan.loading
    stations = effects.grillage.ways
    if not stations:
        return np.empty(0)
    share = combination.wind_factor(loading, "deflection").value / effects.pressure.factor
    moved = share * np.max([np.abs(np.concatenate(c.deflection_mm)) for c in effects.wind], axis=0)
    if loading.deflection_limit_mm is not None:
        allowed = np.full(len(moved), loading.deflection_limit_mm)
    else:
        allowed = np.concatenate(
            span_deflection.allowed_mm(
                axis,
                spans,
                stations,
                span_ratio=loading.deflection_ratio,
                overhang_ratio=loading.overhang_ratio,
            )
        )
    given = np.divide(moved, allowed, out=np.zeros_like(moved), where=allowed > 0)
    stress = np.max([np.concatenate(case.stress_mpa) for case in effects.wind], axis=0)
    bent: Floats = stress / bending.allowable_mpa(limit_states.grade(plan.sheet, loading))
    worse: Floats = np.maximum(given, bent)
    return worse


@lru_cache(maxsize=4)  # the same for all places of holes
def _weights(sign: Grillage) -> Floats:
    """Length of axis that each station stands for."""
    return np.concatenate([_widths(s) for s in sign.ways]) if sign.ways else np.empty(0)


def _widths(s: Floats) -> Floats:
    """Length of branch that each station stands for."""
    if len(s) < 2:
        return np.zeros(len(s))
    steps = np.diff(s) / 2
    return np.append(steps, 0.0) + np.insert(steps, 0, 0.0)


def _stretches(
    axis: Axis, stations: tuple[Floats, ...], used: Floats, near_mm: float
) -> list[Spot]:
    """The worst station of every stretch that fails."""
    failing = np.flatnonzero(used > strength.LIMIT)
    if not len(failing):
        return []
    branch: Indices = np.repeat(np.arange(len(stations)), [len(s) for s in stations])
    s = np.concatenate(stations)
    xy = ways.places(axis, AxisPoints.on_branches(branch[failing], s[failing]))
    left = used[failing].copy()
    spots = []
    while (top := int(left.argmax())) >= 0 and left[top] > 0:
        spots.append(Spot((float(xy[top, 0]), float(xy[top, 1])), float(left[top])))
        left[np.hypot(*(xy - xy[top]).T) <= near_mm] = 0.0
    return spots


def _spots(states: list[Spot], along: list[Spot], near_mm: float) -> tuple[Spot, ...]:
    """Both kinds, the worst first, each place once."""
    spots: list[Spot] = []
    for spot in sorted([*states, *along], key=lambda spot: -spot.share):
        if all(spot.apart_mm(other.xy_mm) > near_mm for other in spots):
            spots.append(spot)
    return tuple(spots)
