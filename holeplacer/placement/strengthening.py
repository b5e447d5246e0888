"""Strengthening: holes that also bear the loads, as few as can be found, and placed to give least.

Begins with holes that keep every other rule. Where a utilisation is above 1, a hole goes to where
the sheet gives most; then every hole that can go again goes; then holes slide along their strokes
while the greatest deflection falls. Every step is judged by the rules themselves, so that what is
proposed is what a check passes. The lower bound stays that of the other rules: where it is reached
the count is proven, else bound and count are both told.
"""

from dataclasses import dataclass, replace

import numpy as np

from holeplacer.medial_axis import ways
from holeplacer.medial_axis.axis import Axis
from holeplacer.medial_axis.ways import AxisPoints, Floats, Indices
from holeplacer.outline.outline import Outline
from holeplacer.placement import candidates
from holeplacer.placement.watch import Watch
from holeplacer.plan import edit
from holeplacer.plan.hole import Hole
from holeplacer.plan.plan import Plan
from holeplacer.rules import edge_distance, load_effects, neighbours, spacing, strength, turning
from holeplacer.rules.limit_states import LimitState
from holeplacer.rules.strength import Strength

_PITCH_MM = 6.0
"""Places for an added hole are looked at so far apart."""

_MOST_ADDED_SHARE = 3.0
"""Sheet that needs more than so many times the holes is too thin for this wind: no more are
added."""

_MOST_IDLE = 12
"""So many holes in a row that help nothing end the adding."""

_SLIDES = 48
"""Slides tried; the work is bounded by a number, so that it ends alike on every machine."""

_FIRST_SLIDE = 0.12
_LAST_SLIDE = 0.015
"""Slides, by the spacing."""

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


@dataclass(frozen=True, eq=False)
class _State:
    plan: Plan
    found: Strength
    failing: LimitState | None
    utilisation: float

    @property
    def deflection_mm(self) -> float:
        return max(case.max_deflection_mm for case in self.found.effects.wind)


@dataclass(frozen=True, eq=False)
class _Site:
    """What stays the same while holes come, go and slide."""

    outline: Outline
    axis: Axis
    watch: Watch
    bare: int
    """Findings of the other rules that the holes begun with leave open."""

    def judged(self, plan: Plan) -> _State | None:
        """The plan's strength; None where nothing can be reckoned."""
        self.watch.look()
        found = strength.strength(plan, self.outline, self.axis)
        if found is None:
            return None
        worst = found.worst_known
        share = _share(worst) if worst else 0.0
        return _State(plan, found, worst if share > strength.LIMIT else None, share)

    def keeps(self, plan: Plan) -> bool:
        """Whether the other rules find no more than they did at the beginning."""
        return others_broken(plan, self.outline, self.axis) <= self.bare


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
    site = _Site(outline, axis, watch, others_broken(plan, outline, axis))
    state = site.judged(plan)
    if state is None:
        return None
    if may_add and state.failing:
        state = _thinned(site, _added(site, state), len(plan.holes))
    state = _slid(site, state)
    return Strengthened(renumbered(state.plan.holes), state.utilisation, state.deflection_mm)


def others_broken(plan: Plan, outline: Outline, axis: Axis) -> int:
    """How many findings the rules have that holes can answer to, strength left out."""
    rules = (edge_distance, spacing, turning, neighbours)
    return sum(item.broken for rule in rules for item in rule.check(plan, outline, axis))


def _share(state: LimitState) -> float:
    return state.utilisation.utilisation or 0.0


# --- more holes ---


def _added(site: _Site, state: _State) -> _State:
    """A hole where the sheet gives most near what fails, again and again; the best on the way."""
    most = int(_MOST_ADDED_SHARE * len(state.plan.holes)) + 4
    best, idle = state, 0
    while state.failing and len(state.plan.holes) < most and idle < _MOST_IDLE:
        place = _place_for(site, state)
        if place is None:
            break
        site.watch.tell(0.5, f"{len(state.plan.holes) + 1} holes against the wind")
        following = site.judged(edit.with_hole_added(state.plan, *place))
        if following is None:
            break
        state = following
        better = state.utilisation < best.utilisation * (1 - 1e-3)
        best, idle = (state, 0) if better else (best, idle + 1)
    return best


def _place_for(site: _Site, state: _State) -> tuple[float, float] | None:
    """The free place that gives most, of those nearest to what fails."""
    plan, axis = state.plan, site.axis
    free = _free_places(site, plan)
    if not len(free):
        return None
    case = next(c for c in state.found.effects.wind if c.name == _case_of(state))
    gives = _deflections(state, free, case.deflection_mm)
    failing = state.failing
    if failing is not None and failing.hole and len(axis.branches):
        gives = gives * _near(site, plan, failing.hole, free)
    top = int(gives.argmax())
    if gives[top] <= 0:
        return None
    xy = ways.places(axis, free[[top]])[0]
    return float(xy[0]), float(xy[1])


def _case_of(state: _State) -> str:
    names = [case.name for case in state.found.effects.wind]
    asked = state.failing.case if state.failing else ""
    return asked if asked in names else names[0]


def _deflections(state: _State, free: AxisPoints, along: tuple[Floats, ...]) -> Floats:
    stations = state.found.effects.grillage.ways
    gives = np.zeros(len(free))
    for branch in np.unique(free.branch).tolist():
        mine = free.branch == branch
        gives[mine] = np.interp(free.s[mine], stations[branch], np.abs(along[branch]))
    return gives


def _near(site: _Site, plan: Plan, number: int, free: AxisPoints) -> Floats:
    """1 for places whose nearest hole is the one that fails, little for all others."""
    spans = spacing.spans(plan, site.outline, site.axis)
    reach = spans.reach
    gap = reach.gap_of(free.branch, free.s)
    left = reach.left_way[gap] + free.s - reach.low[gap]
    right = reach.right_way[gap] + reach.high[gap] - free.s
    side = np.where(left <= right, reach.left_side[gap], reach.right_side[gap])
    counting = np.flatnonzero(spans.counts)
    index = next(i for i, hole in enumerate(plan.holes) if hole.number == number)
    mine = (side >= 0) & (counting[np.maximum(side, 0) // 2] == index) if len(counting) else None
    return np.ones(len(free)) if mine is None or not mine.any() else np.where(mine, 1.0, 1e-6)


def _free_places(site: _Site, plan: Plan) -> AxisPoints:
    """Places of the axis that take a hole more beside those there are."""
    centres = np.array([(hole.x_mm, hole.y_mm) for hole in plan.holes])
    apart = np.array([neighbours.limit(plan, None, plan.diameter_of(h)) for h in plan.holes])
    room = candidates.candidates(site.axis, edge_distance.limit(plan), centres, apart)
    count = np.maximum(np.ceil(room.length / _PITCH_MM).astype(int), 1) + 1
    share = np.concatenate([np.linspace(0.0, 1.0, n) for n in count] or [np.empty(0)])
    index: Indices = np.repeat(np.arange(len(room)), count)
    return AxisPoints.on_branches(room.branch[index], room.low[index] + share * room.length[index])


# --- fewer holes ---


def _thinned(site: _Site, state: _State, least: int) -> _State:
    """Every hole gone that is not needed, those that carry least tried first."""
    limit = max(strength.LIMIT, state.utilisation)
    carried = {
        hole.number: max(abs(case.reactions_n[i]) for case in state.found.effects.wind)
        for i, hole in enumerate(state.plan.holes)
    }
    for hole in sorted(state.plan.holes, key=lambda hole: carried[hole.number]):
        if len(state.plan.holes) <= least:
            break
        if hole.fixed:
            continue
        fewer = edit.without_hole(state.plan, hole.number)
        if not site.keeps(fewer):
            continue
        tried = site.judged(fewer)
        if tried is not None and tried.utilisation <= limit + _SLACK:
            state = tried
    return state


# --- better places ---


def _slid(site: _Site, state: _State) -> _State:
    """Holes slid along their strokes while what counts most falls."""
    slide = _FIRST_SLIDE * state.plan.limits.spacing_mm
    least = _LAST_SLIDE * state.plan.limits.spacing_mm
    tries = 0
    while slide >= least and tries < _SLIDES:
        moved = False
        for number in _around_the_worst(site, state):
            for xy in _slides(site, state.plan, number, slide):
                tries += 1
                better = _better(site, state, number, xy)
                if better is not None:
                    state, moved = better, True
                    break
            if moved or tries >= _SLIDES:
                break
        if not moved:
            slide /= 2
    return state


def _better(site: _Site, state: _State, number: int, xy: tuple[float, float]) -> _State | None:
    plan = edit.with_hole_moved(state.plan, number, *xy)
    if not site.keeps(plan):
        return None
    tried = site.judged(plan)
    return tried if tried is not None and _rank(tried) < _rank(state) else None


def _rank(state: _State) -> tuple[float, float]:
    """What fails goes first, then how much the sheet gives; small gains are not worth a move."""
    return max(round(state.utilisation, 3), strength.LIMIT), round(state.deflection_mm, 3)


def _around_the_worst(site: _Site, state: _State) -> list[int]:
    """Numbers of the free holes nearest to the place that gives most, or to what fails."""
    worst = max(state.found.effects.wind, key=lambda case: case.max_deflection_mm)
    at = np.array(state.failing.at_mm if state.failing else worst.at_mm)
    free = [hole for hole in state.plan.holes if not hole.fixed]
    piece = int(site.outline.piece_at(at[None])[0])
    own = [
        hole
        for hole in free
        if int(site.outline.piece_at(np.array([[hole.x_mm, hole.y_mm]]))[0]) == piece
    ] or free
    own.sort(key=lambda hole: (hole.x_mm - at[0]) ** 2 + (hole.y_mm - at[1]) ** 2)
    return [hole.number for hole in own[:4]]


def _slides(site: _Site, plan: Plan, number: int, slide_mm: float) -> list[tuple[float, float]]:
    """Places along the axis, so far from the hole to either side, that take a hole."""
    hole = edit.hole_numbered(plan, number)
    foot, _ = ways.foot(site.axis, (hole.x_mm, hole.y_mm))
    if foot.branch < 0:
        return []
    length = site.axis.branches[foot.branch].length_mm
    at = np.clip(foot.s_mm + np.array([slide_mm, -slide_mm]), 0.0, length)
    points = AxisPoints.on_branches(np.full(2, foot.branch), at)
    wide = ways.clearances(site.axis, points) >= edge_distance.limit(plan, plan.diameter_of(hole))
    apart = np.abs(at - foot.s_mm) > _SLACK
    xy = ways.places(site.axis, points)
    return [(float(x), float(y)) for (x, y), good in zip(xy, wide & apart, strict=True) if good]


def renumbered(holes: tuple[Hole, ...]) -> tuple[Hole, ...]:
    """Holes numbered from left to right, those that stay keeping their numbers."""
    stays = {hole.number for hole in holes if hole.fixed}
    numbers = (n for n in range(1, len(holes) + len(stays) + 1) if n not in stays)
    free = sorted((hole for hole in holes if not hole.fixed), key=lambda h: (h.x_mm, h.y_mm))
    named = [replace(hole, number=n) for hole, n in zip(free, numbers, strict=False)]
    return tuple(sorted([*named, *(h for h in holes if h.fixed)], key=lambda hole: hole.number))
