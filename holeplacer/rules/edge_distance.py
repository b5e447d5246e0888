"""Edge distance: metal from a hole's centre to the cut edge, in every direction.

The limit is the greatest of: the rule set's factor times stud or hole (or the entered figure in
its place), half the hole and the ligament (entered, and what the process leaves sound), the
washer that must bear all round, and the cap less what it may reach past the edge.
"""

from dataclasses import replace
from functools import lru_cache

import numpy as np

from holeplacer.geometry.curve import Points
from holeplacer.medial_axis import ways
from holeplacer.medial_axis.axis import Axis
from holeplacer.outline.outline import Outline
from holeplacer.plan.hole import Hole
from holeplacer.plan.plan import Plan
from holeplacer.rules import edge_demand, ways_out
from holeplacer.rules.finding import Finding, Place, PlaceKind

NAME = "edge_distance"

SLACK_MM = 1e-3
"""A hole at its limit satisfies it in spite of rounding along the axis; no shop measures a
micrometre."""


def limit(plan: Plan, diameter_mm: float | None = None) -> float:
    """Least distance from a hole's centre to the cut edge, mm.

    Args:
        plan: The plan.
        diameter_mm: Hole diameter; None takes the plan's.
    """
    return edge_demand.governing(plan, diameter_mm).mm


def governs(plan: Plan, diameter_mm: float | None = None) -> str:
    """What the limit comes from, with its figures, such as `1.5 × 6.35 mm stud`."""
    return edge_demand.governing(plan, diameter_mm).because


def check(plan: Plan, outline: Outline, axis: Axis) -> tuple[Finding, ...]:
    """Every hole too near a cut edge, or outside the metal."""
    around = outline.around([(hole.x_mm, hole.y_mm) for hole in plan.holes])
    diameters = [plan.diameter_of(hole) for hole in plan.holes]
    least = {diameter: limit(plan, diameter) - SLACK_MM for diameter in set(diameters)}
    choices = replace(plan, holes=(), bosses=())
    return tuple(
        _finding(choices, axis, hole, edge.distance_mm)
        for hole, edge, diameter in zip(plan.holes, around, diameters, strict=True)
        if edge.distance_mm < least[diameter]
    )


@lru_cache(maxsize=512)  # while one hole is dragged, what is said of the others stays
def _finding(plan: Plan, axis: Axis, hole: Hole, distance_mm: float) -> Finding:
    diameter = plan.diameter_of(hole)
    least = limit(plan, diameter)
    if distance_mm <= 0:
        message = f"Hole {hole.number} lies outside the metal, {-distance_mm:.2f} mm from its edge"
    else:
        message = (
            f"Hole {hole.number}: edge distance {distance_mm:.2f} mm, at least {least:.2f} mm "
            f"needed ({governs(plan, diameter)}); ligament {distance_mm - diameter / 2:.2f} mm"
        )
    cures = (
        _move(axis, hole, least),
        ways_out.sentence(ways_out.ways_out(plan, distance_mm, diameter)),
    )
    return Finding(
        rule=NAME,
        place=Place(PlaceKind.HOLE, hole.number, (hole.x_mm, hole.y_mm)),
        value=distance_mm,
        limit=least,
        message=message,
        way_out="; or ".join(cure for cure in cures if cure),
    )


def nearest_room(
    axis: Axis, x_mm: float, y_mm: float, least_mm: float
) -> tuple[float, float] | None:
    """The nearest point of the axis with metal enough, mm; None if it has none.

    Args:
        axis: The axis.
        x_mm: Place of the hole that wants to move.
        y_mm: The same.
        least_mm: Edge distance it needs.
    """
    enough = _enough(axis, least_mm)
    if not len(enough):
        return None
    x, y = enough[np.argmin(np.hypot(*(enough - (x_mm, y_mm)).T))].tolist()
    return x, y


def _move(axis: Axis, hole: Hole, least_mm: float) -> str:
    room = nearest_room(axis, hole.x_mm, hole.y_mm, least_mm)
    if room is None:
        return ""
    way = float(np.hypot(room[0] - hole.x_mm, room[1] - hole.y_mm))
    return f"move it {way:.1f} mm to x {room[0]:.1f}, y {room[1]:.1f} mm"


@lru_cache(maxsize=4)  # the same for every hole that breaks the rule
def _enough(axis: Axis, least_mm: float) -> Points:
    net = ways.network(axis)
    return np.concatenate(
        [net.xy[net.clearance >= least_mm], axis.node_xy[axis.node_clearance >= least_mm]]
    )
