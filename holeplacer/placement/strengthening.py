"""Strengthening: holes that also bear the loads, as few as can be found, and placed to give least.

Begins with holes that keep every other rule. Where the sheet fails, holes near there slide if that
can cure it, else one is added where the sheet gives most; a hole that helps nothing is not kept,
and the place is left as one that no hole can help. Then every hole that can go again goes, its
neighbours closing up; then holes slide along their strokes while the greatest deflection falls.
Holes are compared by what wind does across the sheet; what is kept has been judged with every load,
by the rules themselves, so that what is proposed is what a check passes. The lower bound stays that
of the other rules: where it is reached the count is proven, else bound and count are both told.
"""

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from holeplacer.medial_axis import ways
from holeplacer.medial_axis.axis import Axis
from holeplacer.medial_axis.ways import AxisPoints, Floats
from holeplacer.outline.outline import Outline
from holeplacer.placement import overload, sliding, trial
from holeplacer.placement.overload import Spot
from holeplacer.placement.trial import Site, Trial
from holeplacer.placement.watch import Watch
from holeplacer.plan import edit
from holeplacer.plan.hole import Hole
from holeplacer.plan.plan import Plan
from holeplacer.rules import load_effects, neighbours, spacing, strength

_MOST_ADDED_SHARE = 2.0
"""Sheet that needs more than so many times the holes is too thin for this wind: no more are
added."""

_MOST_HOPELESS = 6
"""So many places that no hole helps end the adding: the sheet is too thin."""

_HELPS = 0.1
"""A hole is worth adding that takes off this share of what one limit state is above 1 there."""

_HARDLY = 1e-3
"""So much more that fails is told apart from as much."""

_PLACES = 8
_APART = 0.1
"""Places tried around what else no hole would help, and how far apart, by the spacing."""

_CURABLE = 1.5
"""Utilisation that sliding a hole may cure; beyond it another hole is needed."""

_EASINGS = 64
_EASINGS_A_SPOT = 8
"""Slides tried against overload, in all while holes are added or taken away, and at one place."""

_SLIDES = 48
"""Slides tried against deflection; all work is bounded by numbers, so that it ends alike on every
machine."""

_SLACK = 1e-9


@dataclass(frozen=True, eq=False)
class Strengthened:
    """Holes that bear the loads, or come as near to it as more holes bring them.

    Attributes:
        holes: In order of number.
        utilisation: The greatest.
        max_deflection_mm: The greatest.
    """

    holes: tuple[Hole, ...]
    utilisation: float
    max_deflection_mm: float


@dataclass
class _Budget:
    """Slides that may still be tried against overload."""

    left: int = _EASINGS


def strengthened(
    plan: Plan, outline: Outline, axis: Axis, watch: Watch, *, may_add: bool = True
) -> Strengthened | None:
    """Holes of a plan, added to, thinned out and slid until they bear its loads.

    Args:
        plan: Its holes keep the other rules as far as the metal lets them.
        outline: The cut outline.
        axis: Its medial axis.
        watch: Whether to go on, and who is told.
        may_add: False keeps the number of holes.

    Returns:
        None where no wind is chosen or a figure of it is missing.

    Raises:
        Cancelled: The person stopped the work.
    """
    if not plan.holes or not load_effects.is_asked(plan):
        return None
    # a sign is carried before it has its holes' places: none of them changes that
    plan = edit.with_loading(plan, replace(plan.loading, handling=False))
    room, room_xy = trial.room(plan, outline, axis)
    bare = trial.broken_by_rule(plan, outline, axis)
    whole = Site(outline, axis, watch, bare, room, room_xy)
    state = whole.judged(plan)
    if state is None:
        return None
    wind = replace(whole, wind_only=True)
    if may_add and state.over.total > 0:
        state = _borne(whole, wind, state)
    state = _settled(whole, wind, state)
    return Strengthened(renumbered(state.plan.holes), state.utilisation, state.deflection_mm)


def _borne(whole: Site, wind: Site, begun: Trial) -> Trial:
    """As few more holes as are found to bear the wind, then whatever else it takes."""
    least = len(begun.plan.holes)
    state = wind.judged(begun.plan)
    if state is None:
        return begun
    hopeless: list[Spot] = []
    best = _better(whole, begun, _fewest_for(wind, state, least, hopeless))
    left = wind.judged(best.plan)
    if left is not None and best.over.total > left.over.total + _SLACK:
        best = _better(whole, best, _fewest_for(whole, best, least, hopeless))
    return best


def _fewest_for(site: Site, state: Trial, least: int, hopeless: list[Spot]) -> Plan:
    """Holes added for all that fails, then thinned out again."""
    if state.over.total <= 0:
        return state.plan
    return _thinned(site, _added(site, state, hopeless, _Budget()), least, _Budget()).plan


def _better(whole: Site, best: Trial, plan: Plan) -> Trial:
    """What fails less under all loads; of two alike the first."""
    tried = whole.judged(plan)
    return tried if tried is not None and tried.over.total < best.over.total - _SLACK else best


def _settled(whole: Site, wind: Site, begun: Trial) -> Trial:
    """Holes slid until the sheet gives least, unless some other load then asks for more."""
    state = wind.judged(begun.plan)
    if state is None:
        return begun
    slid = whole.judged(sliding.slid(wind, state, _SLIDES).plan)
    return slid if slid is not None and slid.rank <= begun.rank else begun


# --- more holes ---


def _added(site: Site, state: Trial, hopeless: list[Spot], budget: _Budget) -> Trial:
    """Every place that fails helped by slides or a hole, the worst first.

    Args:
        site: What stays the same.
        state: Where to begin.
        hopeless: Places that no hole helps; those found are added.
        budget: Slides that may be tried.
    """
    most = int(_MOST_ADDED_SHARE * len(state.plan.holes)) + 4
    near = overload.ONE_SPOT * state.plan.limits.spacing_mm
    while len(state.plan.holes) < most and len(hopeless) < _MOST_HOPELESS:
        spot = next((s for s in state.over.spots if not _is_among(s, hopeless, near)), None)
        if spot is None:
            break
        site.watch.tell(0.5, f"{len(state.plan.holes) + 1} holes against the wind")
        helped = _helped(site, state, spot, budget)
        if helped is None:
            hopeless.append(spot)
        else:
            state = helped
    return state


def _is_among(spot: Spot, others: list[Spot], near_mm: float) -> bool:
    return any(spot.apart_mm(other.xy_mm) <= near_mm for other in others)


def _helped(site: Site, state: Trial, spot: Spot, budget: _Budget) -> Trial | None:
    """A place that fails, helped by sliding the holes around it or by one more, or not at all."""
    if spot.share <= _CURABLE:
        eased = _eased(site, state, spot, budget)
        near = overload.ONE_SPOT * state.plan.limits.spacing_mm
        if not _is_among(spot, list(eased.over.spots), near):
            return eased
        state = eased
    most = state.over.total - _HELPS * (spot.share - strength.LIMIT)
    for place in _places_for(site, state, spot):
        more = edit.with_hole_added(state.plan, *place)
        following = site.judged(more, below=(most + _HARDLY, 0.0)) if site.keeps(more) else None
        if following is not None and following.over.total <= most:
            return following
    return None


def _places_for(site: Site, state: Trial, spot: Spot) -> list[tuple[float, float]]:
    """Free places that may help what fails, the likeliest first.

    Where the sheet gives most of what is nearest to the same hole; the place nearest to what fails;
    where the sheet gives most within a spacing; then some all around.
    """
    free = _free(site, state.plan)
    if not len(free):
        return []
    points, xy = site.room[free], site.room_xy[free]
    away = np.hypot(*(xy - spot.xy_mm).T)
    near = away <= state.plan.limits.spacing_mm
    gives = _deflections(state, points)
    tops = [
        int((gives * _beside(site, state.plan, spot, points, near)).argmax()),
        int(away.argmin()),
        int((gives * near).argmax()),
        *_around(xy, away, _APART * state.plan.limits.spacing_mm),
    ]
    chosen = [top for i, top in enumerate(tops) if near[top] and top not in tops[:i]]
    return [(float(xy[top, 0]), float(xy[top, 1])) for top in chosen]


def _around(xy: Floats, away: Floats, apart_mm: float) -> list[int]:
    """Indices of the nearest places that are so far from each other."""
    chosen: list[int] = []
    for index in np.argsort(away, kind="stable").tolist():
        if len(chosen) == _PLACES:
            break
        if all(np.hypot(*(xy[index] - xy[other])) >= apart_mm for other in chosen):
            chosen.append(index)
    return chosen


def _deflections(state: Trial, free: AxisPoints) -> Floats:
    """How far the sheet moves at each place, either way of the wind alike."""
    stations = state.found.effects.grillage.ways
    along = state.found.effects.wind[0].deflection_mm
    gives = np.zeros(len(free))
    for branch in np.unique(free.branch).tolist():
        mine = free.branch == branch
        gives[mine] = np.interp(free.s[mine], stations[branch], np.abs(along[branch]))
    return gives


def _beside(
    site: Site, plan: Plan, spot: Spot, free: AxisPoints, near: NDArray[np.bool_]
) -> NDArray[np.bool_]:
    """Which places have the same nearest hole as what fails; those near it if it has none."""
    spans = spacing.spans(plan, site.outline, site.axis)
    foot, _ = ways.foot(site.axis, spot.xy_mm)
    reach = spans.reach
    if foot.branch < 0 or not spans.counts.any():
        return near
    branch = np.append(free.branch, foot.branch)
    s = np.append(free.s, foot.s_mm)
    gap = reach.gap_of(branch, s)
    left = reach.left_way[gap] + s - reach.low[gap]
    right = reach.right_way[gap] + reach.high[gap] - s
    hole = np.where(left <= right, reach.left_side[gap], reach.right_side[gap]) // 2
    same: NDArray[np.bool_] = hole[:-1] == hole[-1]
    return same


def _free(site: Site, plan: Plan) -> NDArray[np.intp]:
    """Indices of the places that are far enough from the holes there are."""
    free = np.ones(len(site.room_xy), bool)
    for hole in plan.holes:
        apart = neighbours.limit(plan, None, plan.diameter_of(hole))
        free &= np.hypot(*(site.room_xy - (hole.x_mm, hole.y_mm)).T) >= apart
    return np.flatnonzero(free)


# --- fewer holes ---


def _thinned(site: Site, state: Trial, least: int, budget: _Budget) -> Trial:
    """Every hole gone that is not needed, those that carry least tried first."""
    carried = {
        hole.number: abs(state.found.effects.wind[0].reactions_n[i])
        for i, hole in enumerate(state.plan.holes)
    }
    for hole in sorted(state.plan.holes, key=lambda hole: carried[hole.number]):
        if len(state.plan.holes) <= least:
            break
        fewer = edit.without_hole(state.plan, hole.number)
        if hole.fixed or not site.keeps(fewer):
            continue
        tried = site.judged(fewer)
        if tried is not None and tried.over.total > state.over.total + _SLACK:
            tried = _closed_up(site, tried, state.over.total, budget)
        if tried is not None and tried.over.total <= state.over.total + _SLACK:
            state = tried
    return state


def _closed_up(site: Site, tried: Trial, most: float, budget: _Budget) -> Trial:
    """Holes slid into the gap that one left, where that may cure what now fails."""
    if tried.over.spots[0].share > _CURABLE and most <= 0:
        return tried
    return _eased(site, tried, tried.over.spots[0], budget)


# --- better places ---


def _eased(site: Site, state: Trial, spot: Spot, budget: _Budget) -> Trial:
    """Holes slid around what fails, as far as slides may still be tried."""
    tries = min(budget.left, _EASINGS_A_SPOT)
    budget.left -= tries
    return sliding.slid(site, state, tries, spot.xy_mm) if tries else state


def renumbered(holes: tuple[Hole, ...]) -> tuple[Hole, ...]:
    """Holes numbered from left to right, those that stay keeping their numbers."""
    stays = {hole.number for hole in holes if hole.fixed}
    numbers = (n for n in range(1, len(holes) + len(stays) + 1) if n not in stays)
    free = sorted((hole for hole in holes if not hole.fixed), key=lambda h: (h.x_mm, h.y_mm))
    named = [replace(hole, number=n) for hole, n in zip(free, numbers, strict=False)]
    return tuple(sorted([*named, *(h for h in holes if h.fixed)], key=lambda hole: hole.number))
