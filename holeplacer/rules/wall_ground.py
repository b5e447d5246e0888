"""Wall ground: where on the sign the wall lets be drilled, and where it holds.

The wall's zones in sign coordinates, drawn out by the drill and the entered distances; the same for
the rule, for its ways out and for proposals.
"""

from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import affinity
from shapely.geometry import MultiPoint
from shapely.geometry.base import BaseGeometry

from holeplacer.geometry.curve import Points
from holeplacer.medial_axis import ways
from holeplacer.medial_axis.axis import Axis
from holeplacer.medial_axis.ways import AxisPoints
from holeplacer.outline.outline import Outline
from holeplacer.plan.hole import Hole
from holeplacer.plan.plan import Plan
from holeplacer.rules import edge_distance
from holeplacer.wall import drilling, landing, placing
from holeplacer.wall.wall import Wall

_PITCH_MM = 2.0
"""Places for a way out are looked for so far apart along the strokes."""

_SLACK_MM = 1e-6


def is_asked(plan: Plan) -> bool:
    """Whether anything is known of what is in the wall."""
    return landing.any_zones(plan.wall) or bool(plan.wall.as_found)


def limit_mm(plan: Plan) -> float:
    """Least distance of a hole's centre from what is blocked, mm: drill radius and margin."""
    return drill_radius_mm(plan) + plan.wall.clear_mm


def drill_radius_mm(plan: Plan) -> float:
    """Radius of the widest hole drilled into the wall for a standoff."""
    return drilling.widest_mm(plan.wall, plan.standoff.stud_mm) / 2


def found_mm(plan: Plan) -> float:
    """Least distance of a hole's centre from one that was found blocked on site, mm.

    Both drilled holes then have the entered distance between their edges.
    """
    return limit_mm(plan) + drill_radius_mm(plan)


def forbidden(plan: Plan, outline: Outline, margin_mm: float = 0.0) -> BaseGeometry | None:
    """Where no hole may be, in sign coordinates; None if it may be anywhere.

    What is blocked, drawn out by the limit, and all round what was found on site.
    """
    return _forbidden(_asked(plan), shift_mm(plan, outline), drill_radius_mm(plan), margin_mm)


@lru_cache(maxsize=8)
def _forbidden(
    wall: Wall, shift_mm: tuple[float, float], radius_mm: float, margin_mm: float
) -> BaseGeometry | None:
    parts = []
    zones = landing.forbidden(wall, radius_mm, margin_mm)
    if zones is not None:
        parts.append(affinity.translate(zones, -shift_mm[0], -shift_mm[1]))
    if wall.as_found:
        marks = MultiPoint([(mark.x_mm, mark.y_mm) for mark in wall.as_found])
        parts.append(landing.drawn_out(marks, wall.clear_mm + 2 * radius_mm + margin_mm))
    return shapely.union_all(parts) if parts else None


def firm(plan: Plan, outline: Outline, margin_mm: float = 0.0) -> BaseGeometry | None:
    """Where a hole is held by a good zone, in sign coordinates; None if none was entered."""
    area = _firm(_asked(plan), drill_radius_mm(plan), margin_mm)
    if area is None:
        return None
    dx, dy = shift_mm(plan, outline)
    return affinity.translate(area, -dx, -dy)


@lru_cache(maxsize=8)
def _firm(wall: Wall, radius_mm: float, margin_mm: float) -> BaseGeometry | None:
    return landing.firm(wall, radius_mm, margin_mm)


def blocked(plan: Plan, outline: Outline, xy: Points) -> NDArray[np.bool_]:
    """(n,) whether a hole may not be there: blocked, or not good where only good will do."""
    places, radius = xy + np.array(shift_mm(plan, outline)), drill_radius_mm(plan)
    stops = landing.blocks(plan.wall, radius, places)
    for mark in plan.wall.as_found:
        away = np.hypot(*(xy - (mark.x_mm, mark.y_mm)).T)
        stops |= away < found_mm(plan) - _SLACK_MM
    if only_good(plan):
        stops |= ~landing.holds(plan.wall, radius, places)
    return stops


def knows_good(plan: Plan) -> bool:
    """Whether good zones were entered."""
    return landing.regions(plan.wall).of("good") is not None


def only_good(plan: Plan) -> bool:
    """Whether a hole may be on good zones only."""
    return plan.wall.landing == "only" and knows_good(plan)


def prefers_good(plan: Plan) -> bool:
    """Whether holes are to be on good zones where that costs none."""
    return plan.wall.landing == "prefer" and knows_good(plan)


def _asked(plan: Plan) -> Wall:
    """The wall without what the rule does not ask for, as a key to what it remembers."""
    return replace(plan.wall, photo=None, revisions=(), layers=())


def shift_mm(plan: Plan, outline: Outline) -> tuple[float, float]:
    """From sign coordinates to wall coordinates."""
    return placing.translation(plan.wall, outline.bounds_mm)


@dataclass(frozen=True)
class WallPlace:
    """A place where the wall lets be drilled.

    Attributes:
        xy_mm: Where, in sign coordinates.
        way_mm: How far along the axis it is.
        good: Whether a good zone holds there.
    """

    xy_mm: tuple[float, float]
    way_mm: float
    good: bool


def nearest_place(plan: Plan, outline: Outline, axis: Axis, hole: Hole) -> WallPlace | None:
    """The nearest place along the strokes with metal enough, for a hole that has to move.

    The nearest good one if good ones are wanted and there are some in its piece, else the nearest
    that is not blocked; None if its piece has neither. Other holes are not looked at.
    """
    places = _places(
        axis,
        _asked(plan),
        shift_mm(plan, outline),
        edge_distance.limit(plan, plan.diameter_of(hole)),
        drill_radius_mm(plan),
    )
    return _nearest(axis, places, (hole.x_mm, hole.y_mm))


@dataclass(frozen=True, eq=False)
class _Places:
    """Places along the axis with metal enough, not blocked; and which are good and wanted."""

    points: AxisPoints
    xy: Points
    good: NDArray[np.bool_]


@lru_cache(maxsize=512)  # while one hole is dragged, what is said of the others stays
def _nearest(axis: Axis, places: _Places, xy_mm: tuple[float, float]) -> WallPlace | None:
    foot, _ = ways.foot(axis, xy_mm)
    if foot.branch < 0 or not len(places.xy):
        return None
    start = AxisPoints.on_branches([foot.branch], [foot.s_mm])
    way = ways.reach(axis, start).way_at(places.points.branch, places.points.s)
    for allowed in (places.good, np.ones(len(way), bool)):
        near = np.where(allowed, way, np.inf)
        best = int(np.argmin(near))
        if np.isfinite(near[best]):
            x, y = places.xy[best].tolist()
            return WallPlace((x, y), float(near[best]), bool(places.good[best]))
    return None


@lru_cache(maxsize=4)  # the same for every hole that has to move
def _places(
    axis: Axis, wall: Wall, shift_mm: tuple[float, float], least_mm: float, radius_mm: float
) -> _Places:
    net = ways.network(axis)
    counts = np.maximum(np.ceil(net.length / _PITCH_MM), 1).astype(int) + 1
    branch = np.repeat(np.arange(len(net.length)), counts)
    s = [np.linspace(0.0, length, n) for length, n in zip(net.length, counts, strict=True)]
    points = AxisPoints.on_branches(branch, np.concatenate([*s, np.empty(0)]))
    points = points[ways.clearances(axis, points) >= least_mm]
    xy = ways.places(axis, points)
    stops = _forbidden(wall, shift_mm, radius_mm, 0.0)
    held = landing.holds(wall, radius_mm, xy + np.array(shift_mm))
    free = np.ones(len(xy), bool)
    if stops is not None:
        free = ~shapely.intersects_xy(stops, xy)
    if wall.landing == "only" and landing.regions(wall).of("good") is not None:
        free &= held
    return _Places(points[free], xy[free], held[free] & (wall.landing != "any"))
