"""Snapping: the hole, axis end, axis or cut edge that a pointer near it means."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from holeplacer.evaluation.layout import Layout
    from holeplacer.geometry.curve import Points
    from holeplacer.medial_axis.axis import Axis
    from holeplacer.plan.hole import Hole

Point = tuple[float, float]


class SnapKind(Enum):
    """What was met, in the words shown beside a measured point."""

    HOLE = "hole"
    AXIS_NODE = "axis end or junction"
    EDGE = "cut edge"
    AXIS = "axis"
    FREE = "free"


@dataclass(frozen=True)
class Snap:
    """A place and what it is on."""

    place: Point
    kind: SnapKind


def axis_foot(axis: Axis, place: Point) -> Point:
    """The axis point nearest to a place; the place itself where there is no axis."""
    if not len(axis.node_xy):
        return place
    from holeplacer.medial_axis import ways  # with the first use, not with the window

    found = ways.feet(axis, [place])
    x, y = ways.places(axis, found.points)[0].tolist()
    return x, y


def snap(place: Point, reach_mm: float, layout: Layout, holes: tuple[Hole, ...]) -> Snap:
    """What a pointer means: hole centres first, then axis nodes, cut edge and axis.

    Args:
        place: Where the pointer is, mm.
        reach_mm: How near something must be.
        layout: Outline and axis.
        holes: Present holes.
    """
    import numpy as np

    groups = (
        (SnapKind.HOLE, np.array([(hole.x_mm, hole.y_mm) for hole in holes]).reshape(-1, 2)),
        (SnapKind.AXIS_NODE, layout.axis.node_xy),
    )
    for kind, points in groups:
        nearest = _nearest(points, place)
        if nearest is not None and math.dist(nearest, place) <= reach_mm:
            return Snap(nearest, kind)
    edge_x, edge_y = layout.outline.nearest_edge(place)[0].tolist()
    foot = axis_foot(layout.axis, place)
    found = [
        (math.dist(point, place), kind, point)
        for kind, point in ((SnapKind.EDGE, (edge_x, edge_y)), (SnapKind.AXIS, foot))
        if math.dist(point, place) <= reach_mm
    ]
    if not found:
        return Snap(place, SnapKind.FREE)
    _, kind, point = min(found, key=lambda one: one[0])
    return Snap(point, kind)


def _nearest(points: Points, place: Point) -> Point | None:
    if not len(points):
        return None
    x, y = points[((points - place) ** 2).sum(axis=1).argmin()].tolist()
    return x, y
