"""Kerf: the width of the cut, and the torch's path half of it beside each contour.

Outside path + k/2, hole and counter path - k/2, both into the drop (cut charts of the trade).
"""

import itertools
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
import shapely
from shapely.geometry.polygon import orient

from holeplacer.cutting.contours import Contour, Kind, points_of, round_ring

_ARC_STEPS = 32
"""Chords in a quarter circle round a corner: within 1 um of it at any kerf of sheet."""


@dataclass(frozen=True)
class Crowded:
    """Two paths whose cuts run into each other.

    Attributes:
        one, other: Indices of the contours.
        apart_mm: Distance of their paths.
        at_mm: Where.
    """

    one: int
    other: int
    apart_mm: float
    at_mm: tuple[float, float]


def offset(contour: Contour, kerf_mm: float) -> tuple[Contour, ...]:
    """The path or paths that leave a contour standing at its nominal size.

    Args:
        contour: Nominal.
        kerf_mm: Width of the cut, >= 0; at 0 the contour itself comes back.

    Returns:
        One path as a rule; none where the opening is narrower than the kerf; several where it
        is so in places, or where the outer contour has an inlet with a mouth narrower than that.
    """
    if kerf_mm == 0:
        return (contour,)
    if contour.hole is not None:
        hole = replace(contour.hole, diameter_mm=contour.hole.diameter_mm - kerf_mm)
        if hole.diameter_mm <= 0:
            return ()
        return (replace(contour, xy=round_ring(hole), hole=hole),)
    outer = contour.kind is Kind.OUTER
    by = kerf_mm / 2 if outer else -kerf_mm / 2
    region = shapely.buffer(contour.region, by, quad_segs=_ARC_STEPS)
    found: list[Contour] = []
    for polygon in shapely.get_parts(region):
        turned = orient(polygon, -1.0 if outer else 1.0)
        if polygon.is_empty:
            continue
        found += [
            replace(contour, kind=Kind.COUNTER, xy=points_of(ring)) for ring in turned.interiors
        ]
        found.append(replace(contour, xy=points_of(turned.exterior)))
    return tuple(found)


def crowded(paths: Sequence[Contour], kerf_mm: float) -> tuple[Crowded, ...]:
    """Pairs of paths nearer to each other than a kerf: nothing is left between their cuts."""
    if len(paths) < 2 or kerf_mm == 0:
        return ()
    lines = np.array([shapely.LinearRing(path.xy) for path in paths])
    tree = shapely.STRtree(lines)
    near, others = tree.query(lines, predicate="dwithin", distance=kerf_mm * (1 - 1e-6))
    found = []
    for one, other in sorted(set(zip(near.tolist(), others.tolist(), strict=True))):
        if one < other:
            apart = float(shapely.distance(lines[one], lines[other]))
            x, y = shapely.get_coordinates(shapely.shortest_line(lines[one], lines[other]))[0]
            found.append(Crowded(one, other, apart, (float(x), float(y))))
    return tuple(found)


def touched(paths: Sequence[Contour], metal: shapely.Geometry, kerf_mm: float) -> float:
    """Area of metal meant to stay that the cuts take away, mm2."""
    cut = [shapely.LinearRing(path.xy).buffer(kerf_mm / 2 * (1 - 1e-6)) for path in paths]
    return float(sum(shapely.area(shapely.intersection(region, metal)) for region in cut))


def lengths_mm(paths: Sequence[Contour]) -> tuple[float, ...]:
    """Length of each path."""
    rings = (itertools.chain(path.xy, path.xy[:1]) for path in paths)
    return tuple(float(np.hypot(*np.diff(list(ring), axis=0).T).sum()) for ring in rings)
