"""Sliding: holes moved along their strokes while less fails, then while the sheet gives less."""

from collections.abc import Iterator

import numpy as np

from holeplacer.medial_axis import ways
from holeplacer.medial_axis.ways import AxisPoints
from holeplacer.placement.trial import Site, Trial
from holeplacer.plan import edit
from holeplacer.plan.plan import Plan
from holeplacer.rules import edge_distance

_FIRST_SLIDE = 0.12
_LAST_SLIDE = 0.015
"""Slides, by the spacing."""

_SLACK_MM = 1e-9


def slid(site: Site, state: Trial, tries: int, at_mm: tuple[float, float] | None = None) -> Trial:
    """Holes around a place, or around the worst, slid along their strokes while that helps."""
    slide = _FIRST_SLIDE * state.plan.limits.spacing_mm
    least = _LAST_SLIDE * state.plan.limits.spacing_mm
    while slide >= least and tries > 0:
        moved = False
        for plan in _slides(site, state, slide, at_mm or _worst(state)):
            tries -= 1
            tried = site.judged(plan, below=state.rank)
            if tried is not None and tried.rank < state.rank:
                state, moved = tried, True
            if moved or tries <= 0:
                break
        if not moved:
            slide /= 2
    return state


def _slides(
    site: Site, state: Trial, slide_mm: float, at_mm: tuple[float, float]
) -> Iterator[Plan]:
    """Plans with one hole around a place slid so far, all other rules still kept."""
    for number in _nearest(site, state.plan, at_mm):
        for xy in _along(site, state.plan, number, slide_mm):
            plan = edit.with_hole_moved(state.plan, number, *xy)
            if site.keeps(plan):
                yield plan


def _nearest(site: Site, plan: Plan, at_mm: tuple[float, float]) -> list[int]:
    """Numbers of the free holes nearest to a place, of its own piece if there are any."""
    free = [hole for hole in plan.holes if not hole.fixed]
    if not free:
        return []
    at, xy = np.array(at_mm), np.array([(hole.x_mm, hole.y_mm) for hole in free])
    own = site.outline.piece_at(xy) == site.outline.piece_at(at[None])[0]
    away = np.hypot(*(xy - at).T) + np.where(own | ~own.any(), 0.0, np.inf)
    return [free[i].number for i in np.argsort(away, kind="stable")[:4] if np.isfinite(away[i])]


def _worst(state: Trial) -> tuple[float, float]:
    """What fails most, or the place that gives most."""
    if state.over.spots:
        return state.over.spots[0].xy_mm
    return max(state.found.effects.wind, key=lambda case: case.max_deflection_mm).at_mm


def _along(site: Site, plan: Plan, number: int, slide_mm: float) -> list[tuple[float, float]]:
    """Places along the axis, so far from the hole to either side, that take a hole."""
    hole = edit.hole_numbered(plan, number)
    foot, _ = ways.foot(site.axis, (hole.x_mm, hole.y_mm))
    if foot.branch < 0:
        return []
    length = site.axis.branches[foot.branch].length_mm
    at = np.clip(foot.s_mm + np.array([slide_mm, -slide_mm]), 0.0, length)
    points = AxisPoints.on_branches(np.full(2, foot.branch), at)
    wide = ways.clearances(site.axis, points) >= edge_distance.limit(plan, plan.diameter_of(hole))
    apart = np.abs(at - foot.s_mm) > _SLACK_MM
    xy = ways.places(site.axis, points)
    return [(float(x), float(y)) for (x, y), good in zip(xy, wide & apart, strict=True) if good]
