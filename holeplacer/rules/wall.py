"""Wall: holes clear of what is blocked, and held by what is good, wherever the wall is known.

A hole is broken where the hole drilled for it comes nearer than the entered distance to a blocked
zone. Where good zones were entered, a hole outside all of them is held by nothing that is known:
one note for all such holes, or broken where the person asked for good zones only. Unknown ground is
a note. Without zones nothing is asked.
"""

import math

import numpy as np

from holeplacer.medial_axis.axis import Axis
from holeplacer.outline.outline import Outline
from holeplacer.plan.hole import Hole
from holeplacer.plan.plan import Plan
from holeplacer.rules import wall_ground
from holeplacer.rules.finding import Finding, Place, PlaceKind
from holeplacer.wall import landing
from holeplacer.wall.as_found import AsFound
from holeplacer.wall.landing import Landing

NAME = "wall"

_SLACK_MM = 1e-6


def limit(plan: Plan) -> float:
    """Least distance of a hole's centre from what is blocked, mm: drill radius and margin."""
    return wall_ground.limit_mm(plan)


def landings(plan: Plan, outline: Outline) -> tuple[Landing, ...]:
    """What each hole meets in the wall, in the plan's order."""
    dx, dy = wall_ground.shift_mm(plan, outline)
    places = [(hole.x_mm + dx, hole.y_mm + dy) for hole in plan.holes]
    return tuple(landing.landings(plan.wall, wall_ground.drill_radius_mm(plan), places))


def check(plan: Plan, outline: Outline, axis: Axis) -> tuple[Finding, ...]:
    """Every fastened hole that meets what it must not, or what nobody knows."""
    if not wall_ground.is_asked(plan):
        return ()
    good_asked = plan.wall.landing != "any" and wall_ground.knows_good(plan)
    meets = [
        (hole, met)
        for hole, met in zip(plan.holes, landings(plan, outline), strict=True)
        if hole.fastened
    ]
    bare = [hole for hole, met in meets if met.ground == "none" and _mark_near(plan, hole) is None]
    together = good_asked and not wall_ground.only_good(plan) and len(bare) > 1
    found = [
        _finding(plan, outline, axis, hole, met, good_asked)
        for hole, met in meets
        if not (together and hole in bare)
    ]
    if together:
        found.append(_on_nothing(plan, bare))
    return tuple(finding for finding in found if finding is not None)


def broken(plan: Plan, outline: Outline) -> int:
    """How many holes break the rule: what `check` finds, without its sentences."""
    if not wall_ground.is_asked(plan) or not plan.holes:
        return 0
    xy = np.array([(hole.x_mm, hole.y_mm) for hole in plan.holes if hole.fastened])
    return int(wall_ground.blocked(plan, outline, xy.reshape(-1, 2)).sum())


def _finding(
    plan: Plan, outline: Outline, axis: Axis, hole: Hole, met: Landing, good_asked: bool
) -> Finding | None:
    mark = _mark_near(plan, hole)
    if mark is not None:
        return _as_found(plan, outline, axis, hole, mark)
    if met.ground == "blocked":
        return _blocked(plan, outline, axis, hole, met)
    if met.ground == "good" or (not good_asked and met.ground == "none"):
        return None
    broken = wall_ground.only_good(plan)
    if met.ground == "unknown":
        message = f"Hole {hole.number} goes into {met.what or 'a part of the wall'}: unknown"
        return _note(plan, outline, axis, hole, met, message, broken=broken)
    outside = -(met.inside_mm or 0.0)
    where = f"{outside:.1f} mm outside" if outside > 0 else f"{-outside:.1f} mm inside the edge of"
    message = (
        f"Hole {hole.number} lands on nothing that is known to hold: {where} the nearest good "
        f"zone, at least {plan.wall.inside_mm:.1f} mm inside asked"
    )
    return _note(plan, outline, axis, hole, met, message, broken=broken)


def _on_nothing(plan: Plan, bare: list[Hole]) -> Finding:
    """One note for all holes that might lie on good zones and don't."""
    return Finding(
        rule=NAME,
        place=Place(PlaceKind.PLAN, 0, (bare[0].x_mm, bare[0].y_mm)),
        value=float(len(bare)),
        limit=0.0,
        message=(
            f"{len(bare)} of {len(plan.holes)} holes land on nothing that is known to hold: "
            f"{', '.join(str(hole.number) for hole in bare)}"
        ),
        way_out=(
            "take a fastener made for what is between the good zones, hang the sign elsewhere, "
            "or ask for good zones only"
        ),
        unit="",
        broken=False,
    )


def _blocked(plan: Plan, outline: Outline, axis: Axis, hole: Hole, met: Landing) -> Finding:
    radius, away = wall_ground.drill_radius_mm(plan), met.blocked_mm or 0.0
    clear = away - radius
    name = met.blocked_by or "what is blocked"
    how = (
        f"meets {name}"
        if clear < 0
        else f"comes within {clear:.1f} mm of {name}, at least {plan.wall.clear_mm:.1f} mm needed"
    )
    return Finding(
        rule=NAME,
        place=Place(PlaceKind.HOLE, hole.number, (hole.x_mm, hole.y_mm)),
        value=clear,
        limit=plan.wall.clear_mm,
        message=f"Hole {hole.number}, drilled {2 * radius:.1f} mm, {how}",
        way_out=_way_out(plan, outline, axis, hole),
    )


def _mark_near(plan: Plan, hole: Hole) -> AsFound | None:
    """The nearest of what was found on site, if it is too near."""
    marks = plan.wall.as_found
    if not marks:
        return None
    near = min(marks, key=lambda mark: _apart_mm(mark, hole))
    return near if _apart_mm(near, hole) < wall_ground.found_mm(plan) - _SLACK_MM else None


def _apart_mm(mark: AsFound, hole: Hole) -> float:
    return math.hypot(hole.x_mm - mark.x_mm, hole.y_mm - mark.y_mm)


def _as_found(plan: Plan, outline: Outline, axis: Axis, hole: Hole, mark: AsFound) -> Finding:
    apart, what = _apart_mm(mark, hole), mark.what or "something"
    how = (
        f"was found blocked: {what}"
        if mark.hole == hole.number and apart < wall_ground.drill_radius_mm(plan)
        else f"is {apart:.1f} mm from where {what} was found (hole {mark.hole} as drawn before)"
    )
    return Finding(
        rule=NAME,
        place=Place(PlaceKind.HOLE, hole.number, (hole.x_mm, hole.y_mm)),
        value=apart,
        limit=wall_ground.found_mm(plan),
        message=f"Hole {hole.number} {how}, at least {wall_ground.found_mm(plan):.1f} mm asked",
        way_out=_way_out(plan, outline, axis, hole),
    )


def _note(
    plan: Plan,
    outline: Outline,
    axis: Axis,
    hole: Hole,
    met: Landing,
    message: str,
    *,
    broken: bool,
) -> Finding:
    return Finding(
        rule=NAME,
        place=Place(PlaceKind.HOLE, hole.number, (hole.x_mm, hole.y_mm)),
        value=met.inside_mm if met.inside_mm is not None else 0.0,
        limit=plan.wall.inside_mm,
        message=message,
        way_out=_way_out(plan, outline, axis, hole),
        broken=broken,
    )


def _way_out(plan: Plan, outline: Outline, axis: Axis, hole: Hole) -> str:
    found = wall_ground.nearest_place(plan, outline, axis, hole)
    if found is None:
        return (
            "no place along its strokes will do: move the sign, glue this standoff on without a "
            "fastener (it then counts for nothing), or leave the hole out"
        )
    x, y = found.xy_mm
    what = "the nearest good place" if found.good else "the nearest place that is not blocked"
    return f"move it {found.way_mm:.1f} mm along the stroke to x {x:.1f}, y {y:.1f} mm, {what}"
