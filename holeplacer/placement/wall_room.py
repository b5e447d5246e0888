"""Wall room: the parts of the axis where the wall lets be drilled, and those where it holds.

Cut where the axis crosses the edge of an area, exactly. A little more than the rule asks is kept
free, so that coordinates can be rounded afterwards. Without zones nothing is cut and nothing asked.
"""

from collections.abc import Callable
from functools import partial

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from holeplacer.geometry.curve import Points
from holeplacer.medial_axis import ways
from holeplacer.medial_axis.axis import Axis
from holeplacer.outline.outline import Outline
from holeplacer.placement import stretches
from holeplacer.placement.stretches import Stretches
from holeplacer.plan.plan import Plan
from holeplacer.rules import wall_ground

MARGIN_MM = 0.08
"""More than rounding moves a hole."""


def allowed(plan: Plan, outline: Outline, axis: Axis, room: Stretches) -> Stretches:
    """What of the room the wall lets be drilled: not blocked, and good where only good will do."""
    if not wall_ground.is_asked(plan) or not len(room):
        return room
    stops = wall_ground.forbidden(plan, outline, MARGIN_MM)
    if stops is not None:
        room = stretches.without(room, within(axis, stops))
    return _on_firm(plan, outline, axis, room) if wall_ground.only_good(plan) else room


def split(
    plan: Plan, outline: Outline, axis: Axis, room: Stretches
) -> tuple[Stretches, NDArray[np.bool_]]:
    """The room cut where good zones begin and end.

    Returns:
        The stretches, in order, and which of them are on good zones: all of one or the other.
    """
    good = _on_firm(plan, outline, axis, room)
    other = stretches.without(room, good)
    branch = np.concatenate([good.branch, other.branch])
    low = np.concatenate([good.low, other.low])
    high = np.concatenate([good.high, other.high])
    order = np.lexsort((low, branch))
    is_good = np.arange(len(branch)) < len(good)
    return Stretches(branch[order], low[order], high[order]), is_good[order]


def taken(plan: Plan, outline: Outline) -> Callable[[Points], NDArray[np.bool_]] | None:
    """Tells of (n, 2) places whether the wall forbids a hole there; None if it forbids none."""
    if not wall_ground.is_asked(plan):
        return None
    return partial(wall_ground.blocked, plan, outline)


def _on_firm(plan: Plan, outline: Outline, axis: Axis, room: Stretches) -> Stretches:
    area = wall_ground.firm(plan, outline, MARGIN_MM)
    return room[np.zeros(len(room), bool)] if area is None else _common(axis, area, room)


def _common(axis: Axis, area: BaseGeometry, room: Stretches) -> Stretches:
    return stretches.common(room, within(axis, area))


def within(axis: Axis, area: BaseGeometry) -> Stretches:
    """Parts of the axis inside an area."""
    net = ways.network(axis)
    begin = np.setdiff1d(np.arange(len(net.xy)), net.first[1:] - 1)
    ends = np.stack([net.xy[begin], net.xy[begin + 1]], axis=1)
    shapely.prepare(area)
    lines = np.asarray(shapely.linestrings(ends))
    touched = np.flatnonzero(shapely.intersects(area, lines))
    inside, owner = shapely.get_parts(shapely.intersection(area, lines[touched]), return_index=True)
    real = shapely.get_dimensions(inside) == 1
    inside, segment = inside[real], touched[owner[real]]
    shares = [_shares(ends[segment], shapely.get_point(inside, which)) for which in (0, -1)]
    step = net.s[begin + 1] - net.s[begin]
    low, high = np.minimum(*shares), np.maximum(*shares)
    at = begin[segment]
    return stretches.joined(
        np.searchsorted(net.first, at, side="right") - 1,
        np.where(low <= 0.0, net.s[at], net.s[at] + low * step[segment]),
        np.where(high >= 1.0, net.s[at + 1], net.s[at] + high * step[segment]),
    )


def _shares(ends: Points, points: Points) -> Points:
    """How far along its segment each point lies, 0 to 1."""
    xy = shapely.get_coordinates(points)
    along = ends[:, 1] - ends[:, 0]
    square = np.maximum((along**2).sum(axis=1), 1e-300)
    share = ((xy - ends[:, 0]) * along).sum(axis=1) / square
    # Crossings are computed to rounding: an end that is met to a billionth is met.
    share = np.where(np.abs(share) < 1e-9, 0.0, share)
    return np.asarray(np.where(np.abs(share - 1.0) < 1e-9, 1.0, np.clip(share, 0.0, 1.0)))
