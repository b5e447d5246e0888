"""Caps: the contour beyond an axis end, from one contact round to the other, and its tip."""

from dataclasses import dataclass

import numpy as np

from holeplacer.geometry.curve import Points
from holeplacer.medial_axis.bisector import Discs
from holeplacer.medial_axis.boundary import Boundary, Flags, Floats, Indices
from holeplacer.medial_axis.rows import Rows, back_from, headings

BRIM = 0.1
"""How far before the axis end a cap begins, in disc radii; in the middle of a round cap the very
end's contacts can lie anywhere on it."""
TIE = 0.01
"""Points of a cap this much less far out, in disc radii, count as outermost too."""


@dataclass(frozen=True, eq=False)
class Caps:
    """Outermost points beyond axis ends.

    Attributes:
        tip: (k, 2) about the boundary's origin.
        reach: (k,) distance from the axis end to the tip.
    """

    tip: Points
    reach: Floats


def caps(boundary: Boundary, rows: Rows, places: Indices, outgoing: Flags) -> Caps:
    """The outermost point of each end's cap, the one nearest the axis' own line where many tie.

    Args:
        boundary: The outline.
        rows: Discs of stretches.
        places: (k,) first or last row of a stretch each.
        outgoing: (k,) whether it is the last one.
    """
    if not len(places):
        return Caps(np.empty((0, 2)), np.empty(0))
    ends, outward = rows.discs.taken(places), headings(rows, places, outgoing)
    brim = back_from(rows, places, outgoing, BRIM * ends.radius)
    path, end = _cap_paths(boundary, rows.discs.taken(brim).turned(~outgoing))
    # between neighbouring points of one cap: the stretch within the tie of the outermost
    away = path - ends.xy[end]
    ahead = (away * outward[end]).sum(axis=1)
    aside = outward[end, 0] * away[:, 1] - outward[end, 1] * away[:, 0]
    outermost = np.full(len(ends), -np.inf)
    np.maximum.at(outermost, end, ahead)
    floor = outermost - TIE * ends.radius
    first = np.flatnonzero(end[1:] == end[:-1])
    best = _least_aside(ahead, aside, first, floor[end[first]])
    return _chosen(ends, end[first], best, outward)


def _cap_paths(boundary: Boundary, brims: Discs) -> tuple[Points, Indices]:
    """Points of every cap from its right contact forward to its left one, and whose they are."""
    left, right = brims.segment[:, 0], brims.segment[:, 1]
    ring = boundary.ring[left]
    count = (left - right) % boundary.ring_count[ring]
    behind = boundary.way_to(left, brims.foot[:, 0]) < boundary.way_to(right, brims.foot[:, 1])
    same = ring == boundary.ring[right]
    count = np.where(same & ~((count == 0) & behind), count, 0)
    size = count + 2
    end = np.repeat(np.arange(len(brims)), size)
    place = np.arange(len(end)) - (np.cumsum(size) - size)[end]
    first = boundary.ring_first[ring][end]
    vertex = first + (right[end] - first + place) % boundary.ring_count[ring][end]
    path = boundary.start[np.clip(vertex, 0, len(boundary.start) - 1)]
    path[place == 0] = brims.foot[:, 1]
    path[place == size[end] - 1] = brims.foot[:, 0]
    return path, end


def _least_aside(ahead: Floats, aside: Floats, first: Indices, floor: Floats) -> Points:
    """On each step of the caps, the point at least `floor` ahead and nearest the line; or inf."""
    a0, a1, b0, b1 = ahead[first], ahead[first + 1], aside[first], aside[first + 1]
    with np.errstate(divide="ignore", invalid="ignore"):
        cut = np.where(a0 == a1, 0.0, (floor - a0) / (a1 - a0))
        zero = np.where(b0 == b1, 0.0, -b0 / (b1 - b0))
    low = np.where(a0 < floor, cut, 0.0)
    high = np.where(a1 < floor, cut, 1.0)
    at = np.clip(zero, low, np.maximum(low, high))
    out = np.column_stack((a0 + at * (a1 - a0), b0 + at * (b1 - b0)))
    out[(a0 < floor) & (a1 < floor)] = np.inf
    return out


def _chosen(ends: Discs, end: Indices, best: Points, outward: Points) -> Caps:
    order = np.lexsort((-best[:, 0], np.abs(best[:, 1]), end))
    _, where = np.unique(end[order], return_index=True)
    ahead, aside = best[order[where]].T
    normal = np.column_stack((-outward[:, 1], outward[:, 0]))
    away = ahead[:, None] * outward + aside[:, None] * normal
    return Caps(tip=ends.xy + away, reach=np.hypot(ahead, aside))
