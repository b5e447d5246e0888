"""Ways out: what would cure a place with too little metal, each with its figure."""

import math
from dataclasses import dataclass, replace

from holeplacer.errors import InputError
from holeplacer.outline import offset
from holeplacer.plan import edit
from holeplacer.plan.hole import Boss
from holeplacer.plan.limits import Limits
from holeplacer.plan.plan import Plan, StandoffChoice
from holeplacer.rules import edge_demand
from holeplacer.sheet import process
from holeplacer.standoffs import clearance_hole, standoff

_STEP_MM = 0.1
"""Figures are rounded to this, to the side that still cures."""


@dataclass(frozen=True)
class WayOut:
    """One cure for a place where the edge distance is too small.

    Attributes:
        act: `hole` (smaller hole), `ligament` (accept less metal), `cap` (let the cap reach past
            the edge), `offset` (all strokes fatter) or `boss` (swell the stroke round here).
        mm: Its figure: hole diameter, ligament, overhang of the cap, offset, radius of the boss.
        text: It in words, with the figure.
        edge_distance_mm: With `ligament`: edge distance that has to be accepted as well; None
            where no rule set asks for more.
    """

    act: str
    mm: float
    text: str
    edge_distance_mm: float | None = None


def ways_out(
    plan: Plan, edge_distance_mm: float, diameter_mm: float | None = None
) -> tuple[WayOut, ...]:
    """All cures for a place with too small an edge distance; none if it is large enough.

    Args:
        plan: The plan as it is.
        edge_distance_mm: Distance from the place to the nearest cut edge, > 0; for a stretch of
            stroke, the greatest clearance along it.
        diameter_mm: Hole diameter; None takes the plan's.
    """
    hole = plan.standoff.hole_mm if diameter_mm is None else diameter_mm
    short = edge_demand.governing(plan, hole).mm - edge_distance_mm
    if short <= 0 or edge_distance_mm <= 0:
        return ()
    found = (
        _smaller_hole(plan, edge_distance_mm, hole),
        _less_metal(plan, edge_distance_mm, hole),
        _cap_past_edge(plan, edge_distance_mm, hole),
        _offset(plan, short),
        _boss(plan, hole),
    )
    return tuple(way for way in found if way is not None)


def sentence(ways: tuple[WayOut, ...]) -> str:
    """The cures in one line, for a finding."""
    return "; or ".join(way.text for way in ways)


def taken(plan: Plan, way: WayOut, *, number: int | None = None) -> Plan:
    """The plan with a cure applied.

    Args:
        plan: The plan.
        way: The cure.
        number: Hole it is for. A smaller hole without a number becomes the plan's; a boss needs
            one.

    Raises:
        InputError: A boss is wanted, but for no hole.
    """
    if way.act == "offset":
        return edit.with_offset(plan, round(plan.offset_mm + way.mm, 6))
    if way.act == "boss":
        if number is None:
            raise InputError("a boss needs a hole to swell round", remedy="add the hole first")
        hole = edit.hole_numbered(plan, number)
        return edit.with_boss(plan, Boss(hole.x_mm, hole.y_mm, way.mm, way.mm))
    if way.act == "hole":
        if number is not None:
            return edit.with_hole_diameter(plan, number, way.mm)
        return edit.with_standoff(plan, hardware_for(plan.standoff, way.mm))
    return edit.with_limits(plan, _accepting(plan.limits, way))


def hardware_for(present: StandoffChoice, hole_mm: float) -> StandoffChoice:
    """Hardware for another hole diameter: stud, barrel and cap follow, the projection stays."""
    found = standoff.standoff_for_hole(hole_mm, present.projection_mm)
    return replace(
        present,
        name=found.name,
        stud_mm=found.stud_mm,
        hole_mm=found.hole_mm,
        barrel_mm=found.barrel_mm,
        cap_mm=found.cap_mm,
        washer_mm=found.washer_mm,
        washer_behind_mm=found.washer_behind_mm,
        bearing_mm=None,
    )


def _accepting(limits: Limits, way: WayOut) -> Limits:
    if way.act == "cap":
        return replace(limits, cap_overhang_mm=way.mm)
    accepted = replace(limits, ligament_mm=min(limits.ligament_mm, way.mm))
    if way.edge_distance_mm is not None:
        accepted = replace(accepted, edge_distance_mm=way.edge_distance_mm)
    return accepted


def _smaller_hole(plan: Plan, edge_mm: float, hole_mm: float) -> WayOut | None:
    """Largest hole that fits, in whole steps; demands only grow with the diameter."""
    low = math.ceil(clearance_hole.clearance_holes()[0].close_mm / _STEP_MM)
    high = math.ceil(hole_mm / _STEP_MM - 1e-6)
    if low >= high or not _fits(plan, low, edge_mm):
        return None
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if _fits(plan, middle, edge_mm) else (low, middle)
    fits = round(low * _STEP_MM, 6)
    studs = [row for row in clearance_hole.clearance_holes() if row.normal_mm <= fits]
    name = f", a {studs[-1].stud} stud" if studs else ""
    least = process.process(plan.sheet.process).least_hole_mm(plan.sheet.thickness_mm)
    drilled = ", drilled" if least is None or fits < least else ""
    return WayOut("hole", fits, f"a smaller hole, {fits:.1f} mm{name}{drilled}")


def _fits(plan: Plan, steps: int, edge_mm: float) -> bool:
    return edge_demand.governing(plan, round(steps * _STEP_MM, 6)).mm <= edge_mm


def _less_metal(plan: Plan, edge_mm: float, hole_mm: float) -> WayOut | None:
    """Ligament (and edge distance) to accept; never less than the process leaves sound."""
    if _asks(plan, hole_mm, ("process", "washer", "cap")) > edge_mm:
        return None
    if _asks(plan, hole_mm, ("rule_set", "edge_distance", "ligament")) <= edge_mm:
        return None
    ligament = math.floor((edge_mm - hole_mm / 2) * 100) / 100
    edge = math.floor(edge_mm * 100) / 100
    text = f"accept a ligament of {ligament:.2f} mm"
    if _asks(plan, hole_mm, ("rule_set", "edge_distance")) <= edge_mm:
        return WayOut("ligament", ligament, text)
    return WayOut("ligament", ligament, f"{text} and an edge distance of {edge:.2f} mm", edge)


def _cap_past_edge(plan: Plan, edge_mm: float, hole_mm: float) -> WayOut | None:
    others = _asks(plan, hole_mm, ("rule_set", "edge_distance", "ligament", "process", "washer"))
    if others > edge_mm:
        return None
    past = _up(plan.standoff.cap_mm / 2 - edge_mm)
    return WayOut("cap", past, f"let the cap reach {past:.1f} mm past the edge")


def _offset(plan: Plan, short_mm: float) -> WayOut:
    fatter = _up(short_mm + offset.STRAY_MM)
    whole = f" ({plan.offset_mm + fatter:.1f} mm in all)" if plan.offset_mm else ""
    return WayOut("offset", fatter, f"all strokes fatter by {fatter:.1f} mm a side{whole}")


def _boss(plan: Plan, hole_mm: float) -> WayOut:
    radius = _up(edge_demand.governing(plan, hole_mm).mm)
    return WayOut("boss", radius, f"a boss of {radius:.1f} mm radius round the hole")


def _asks(plan: Plan, hole_mm: float, names: tuple[str, ...]) -> float:
    parts = edge_demand.demands(plan, hole_mm)
    return max((part.mm for part in parts if part.name in names), default=-math.inf)


def _up(mm: float) -> float:
    return round(math.ceil(mm / _STEP_MM - 1e-6) * _STEP_MM, 6)
