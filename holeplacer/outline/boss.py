"""Boss: a local swelling of the stroke, a disc led back into the edge by fillets.

A fillet is where a ball rolling round the disc first meets the outline: its centre lies on the
circle of radius `radius + blend` about the boss and exactly `blend` from the metal. Those places
are found to 1e-9 mm by bisection, so that no contour is offset there and back, and every vertex
outside the boss stays as it is, bit for bit.
"""

import math

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from holeplacer.errors import InputError
from holeplacer.geometry.curve import Points
from holeplacer.outline.outline import Outline

TOLERANCE_MM = 0.01
"""Furthest that a chord strays from its arc."""

LEAST_BLEND_MM = 0.25
_LOOKS = 1440
"""Directions in which the rolling ball is tried before bisection."""

_BISECTIONS = 44
_FURTHEST = 12.0
"""How far from a ball's centre a corner is looked for, in radii of the ball."""

_POCKET = 1.5
"""A pocket cut off at the bottom of a notch is filled if all of it lies within so many radii."""

_OVERLAP_MM = 2e-4
"""Fillets reach this far into the metal, so that rounding can't part them from it."""

_SPECK_MM = 1e-3
_SPECK_MM2 = 1e-3
_SPIKE_RAD = 3.0
_TIDY_PASSES = 24


def with_boss(
    outline: Outline, x_mm: float, y_mm: float, radius_mm: float, blend_mm: float
) -> Outline:
    """The outline with the stroke swollen round a place.

    Where the ball of the blend radius does not fit between disc and edge (a narrow counter), or
    the fillet would bridge to a stroke near by, a smaller one is taken, half, a quarter and so on.

    Args:
        outline: The outline.
        x_mm: Centre, inside the metal.
        y_mm: Centre, inside the metal.
        radius_mm: Least edge distance at the centre afterwards.
        blend_mm: Radius of the fillets.

    Raises:
        InputError: The centre is outside the metal, a size is not positive, or the boss would
            close a counter or bridge to a neighbouring stroke.
    """
    where = f"boss at x {x_mm:.1f}, y {y_mm:.1f} mm"
    if not all(math.isfinite(v) for v in (x_mm, y_mm)) or not (
        0 < radius_mm < math.inf and 0 < blend_mm < math.inf
    ):
        raise InputError("radius and blend must be more than 0", where=where)
    centre = np.array([x_mm, y_mm])
    (index,) = outline.piece_at(centre)
    if index < 0:
        raise InputError("its centre lies outside the metal", where=where, remedy="move it")
    if outline.edge_distance(centre)[0] >= radius_mm:
        return outline
    pieces = [piece.polygon for piece in outline.pieces]
    swollen = _swollen(pieces[index], centre, radius_mm, blend_mm)
    while bridge := _bridge(outline, int(index), swollen):
        blend_mm /= 2
        if blend_mm < LEAST_BLEND_MM:
            remedy = f"take a smaller radius than {radius_mm:.1f} mm or another place"
            raise InputError(bridge, where=where, remedy=remedy)
        swollen = _swollen(pieces[index], centre, radius_mm, blend_mm)
    pieces[index] = shapely.get_parts(swollen)[0]
    return Outline.from_geometry(shapely.MultiPolygon(pieces))


def _swollen(metal: shapely.Polygon, centre: Points, radius: float, blend: float) -> BaseGeometry:
    """Metal, disc and one fillet for each place where the disc's edge leaves the metal."""
    reach = radius + blend + _FURTHEST * blend + 1
    near = shapely.clip_by_rect(metal, *(centre - reach), *(centre + reach))
    disc = shapely.Polygon(_around(centre, radius + _OVERLAP_MM))
    together = near.union(disc)
    corners = _corners(near, centre, radius)
    fillets: list[BaseGeometry] = []
    while len(corners) and blend >= LEAST_BLEND_MM:
        for ball in _ball_centres(near, centre, radius, blend):
            fillets += _fillet(together, near, centre, ball, blend)
        if fillets:
            filled = shapely.union_all([shapely.buffer(fillet, 0.02) for fillet in fillets])
            corners = corners[shapely.distance(filled, shapely.points(corners)) > 0]
        blend /= 2
    grown = [shapely.buffer(fillet, _OVERLAP_MM, join_style="mitre") for fillet in fillets]
    together = _tidied(shapely.union_all([metal, disc, *grown]), metal)
    return _pockets_filled(together, metal, centre, _POCKET * radius)


def _tidied(swollen: BaseGeometry, metal: shapely.Polygon) -> BaseGeometry:
    """Without the specks and spikes that rounding leaves where an arc touches an edge.

    Only vertices that were not the metal's own are dropped.
    """
    own = set(_complex(shapely.get_coordinates(metal)).tolist())
    parts = []
    for part in shapely.get_parts(swollen):
        rings = (_tidied_ring(ring, own) for ring in (part.exterior, *part.interiors))
        kept = [ring for ring in rings if ring is not None]
        if kept:
            parts.append(shapely.Polygon(kept[0], kept[1:]))
    return shapely.union_all(parts)


def _tidied_ring(ring: shapely.LinearRing, own: set[complex]) -> Points | None:
    at = _complex(shapely.get_coordinates(ring))[:-1]
    new = np.fromiter((vertex not in own for vertex in at.tolist()), bool, len(at))
    if not new.any():
        return shapely.get_coordinates(ring)
    if shapely.Polygon(ring).area < _SPECK_MM2:
        return None
    for turn in range(_TIDY_PASSES):
        before, after = at - np.roll(at, 1), np.roll(at, -1) - at
        bend = after * before.conjugate()
        drop = new & ((np.abs(before) < _SPECK_MM) | (np.abs(np.angle(bend)) > _SPIKE_RAD))
        if not drop.any():
            break
        drop &= np.arange(len(at)) % 2 == turn % 2  # never two neighbours at once
        at, new = at[~drop], new[~drop]
    return np.stack([at.real, at.imag], axis=1)


def _complex(xy: Points) -> NDArray[np.complex128]:
    return xy[:, 0] + 1j * xy[:, 1]


def _corners(near: BaseGeometry, centre: Points, radius: float) -> Points:
    """Where the disc's edge crosses the cut edge."""
    ring = shapely.LinearRing(_around(centre, radius))
    return shapely.get_coordinates(shapely.intersection(ring, near.boundary))


def _ball_centres(near: BaseGeometry, centre: Points, radius: float, blend: float) -> Points:
    """Centres of all balls that touch disc and metal from outside, (n, 2)."""
    reach = radius + 2 * blend + 1
    near = shapely.clip_by_rect(near, *(centre - reach), *(centre + reach))
    edge = near.boundary
    shapely.prepare((near, edge))

    def gap(angle: NDArray[np.float64]) -> NDArray[np.float64]:
        at = centre + (radius + blend) * _unit(angle)
        # shortest_line searches the prepared geometry's index, distance looks at every edge
        apart = shapely.length(shapely.shortest_line(edge, shapely.points(at)))
        inside = shapely.contains_xy(near, at[:, 0], at[:, 1])
        return np.where(inside, -apart, apart) - blend

    angles = np.linspace(0, 2 * math.pi, _LOOKS + 1)
    sign = np.sign(gap(angles))
    (turns,) = np.nonzero(sign[:-1] * sign[1:] < 0)
    low, high = angles[turns], angles[turns + 1]
    rising = sign[turns + 1]
    for _ in range(_BISECTIONS):
        middle = (low + high) / 2
        past = np.sign(gap(middle)) == rising
        low, high = np.where(past, low, middle), np.where(past, middle, high)
    return centre + (radius + blend) * _unit((low + high) / 2)


def _fillet(
    together: BaseGeometry, near: BaseGeometry, centre: Points, ball: Points, blend: float
) -> list[BaseGeometry]:
    """The corner of opening between disc and metal that a ball can't reach.

    It is cut from the sector of the ball's centre between its two contacts: outside the ball,
    short of disc and metal, and touching the ball's arc. A true corner lies within two blends of
    the disc; what reaches further is a throat with open space beyond, and stays open.
    """
    line = shapely.shortest_line(near, shapely.Point(ball))
    contact = np.array(line.coords[0])
    to_disc, to_metal = centre - ball, contact - ball
    start = math.atan2(to_disc[1], to_disc[0])
    turn = math.atan2(
        to_disc[0] * to_metal[1] - to_disc[1] * to_metal[0], float(to_disc @ to_metal)
    )
    if abs(turn) < 1e-6:
        return []
    steps = max(4, math.ceil(abs(turn) / 2 / math.acos(1 - min(1.0, TOLERANCE_MM / blend))))
    arc = ball + blend * _unit(start + turn * np.linspace(0, 1, steps + 1))
    far = blend * min(2 / math.cos(turn / 2), _FURTHEST)
    outer = ball + far * _unit(start + turn * np.linspace(1, 0, 9))
    opening = shapely.Polygon(np.concatenate([arc, outer])).difference(together)
    middle, reach = shapely.Point(arc[len(arc) // 2]), np.hypot(*to_disc) + blend + TOLERANCE_MM
    return [
        part
        for part in shapely.get_parts(opening)
        if part.area > 0 and part.distance(middle) < TOLERANCE_MM and _within(part, centre, reach)
    ]


def _within(shape: BaseGeometry, centre: Points, reach: float) -> bool:
    """Whether all of a shape is within reach of the centre."""
    return bool(np.hypot(*(shapely.get_coordinates(shape) - centre).T).max() <= reach)


def _pockets_filled(
    swollen: BaseGeometry, metal: shapely.Polygon, centre: Points, reach: float
) -> BaseGeometry:
    """Without the pockets that the disc cuts off from the open at the bottom of a notch."""
    counters = [shapely.Polygon(ring) for ring in metal.interiors]

    def is_pocket(ring: shapely.LinearRing) -> bool:
        inside = shapely.Polygon(ring).representative_point()
        return _within(ring, centre, reach) and not any(c.contains(inside) for c in counters)

    return shapely.union_all(
        [
            shapely.Polygon(part.exterior, [r for r in part.interiors if not is_pocket(r)])
            for part in shapely.get_parts(swollen)
        ]
    )


def _bridge(outline: Outline, index: int, swollen: BaseGeometry) -> str:
    """What a boss would join or close besides swelling the stroke; empty if nothing."""
    others = [piece.polygon for i, piece in enumerate(outline.pieces) if i != index]
    if any(shapely.intersects(swollen, others)):
        return "it would reach the next piece"
    new = shapely.get_parts(swollen)
    if len(new) != 1:
        return "it does not grow out of the stroke"
    old = outline.pieces[index].polygon
    places = [shapely.Polygon(ring).representative_point() for ring in new[0].interiors]
    kept = [
        sum(shapely.contains(shapely.Polygon(ring), places)) if places else 0
        for ring in old.interiors
    ]
    if 0 in kept:
        return "it would close a counter"
    if any(count > 1 for count in kept):
        return "it would bridge a counter"
    if len(places) != len(old.interiors):
        return "it would bridge to a neighbouring stroke"
    return ""


def _around(centre: Points, radius: float) -> Points:
    """Vertices of a polygon about a circle: no edge comes nearer than the radius."""
    half = math.acos(radius / (radius + TOLERANCE_MM))
    count = 4 * max(2, math.ceil(math.pi / 4 / half))
    angles = np.arange(count) * (2 * math.pi / count)
    corners: Points = centre + radius / math.cos(math.pi / count) * _unit(angles)
    return corners


def _unit(angle: NDArray[np.floating]) -> Points:
    return np.stack([np.cos(angle), np.sin(angle)], axis=-1).astype(float)
