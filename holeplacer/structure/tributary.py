"""Tributary area: every bit of the metal with its place, so that no load is lost or moved."""

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon

from holeplacer.geometry.curve import Points
from holeplacer.structure import triangles

Floats = NDArray[np.float64]

FINENESS = 0.35
"""Longest side of a bit, in mean stroke widths of its piece."""
COUNTED = 25.0
"""Bits along a piece at least: a dot is wide everywhere, yet its load is not all in one place."""
SIMPLER_MM = 0.02
"""Vertices that move the contour by less are left out before it is cut up; the bits are then
fitted to the true area and its centre, so that nothing is lost."""
MANY = 2_000
"""Fewer vertices than this are all kept."""


@dataclass(frozen=True, eq=False)
class Bits:
    """Small parts that tile a piece.

    Attributes:
        xy: (k, 2) their centres.
        area: (k,) mm2.
    """

    xy: Points
    area: Floats


def bits(polygon: Polygon) -> Bits:
    """The metal of one piece in small parts: their area and first moments are the piece's own.

    Args:
        polygon: The piece.
    """
    width = 2.0 * polygon.area / polygon.length
    xy, corners = triangles.triangles(_simpler(polygon))
    left, bottom, right, top = polygon.bounds
    longest = min(2.0 * FINENESS * width, max(right - left, top - bottom) / COUNTED)
    parts = triangles.divided(xy[corners], longest)
    one, two = parts[:, 1] - parts[:, 0], parts[:, 2] - parts[:, 0]
    area = 0.5 * np.abs(one[:, 0] * two[:, 1] - one[:, 1] * two[:, 0])
    return _fitted(polygon, parts.mean(axis=1), area)


def _simpler(polygon: Polygon) -> Polygon:
    if shapely.get_num_coordinates(polygon) < MANY:
        return polygon
    simple = shapely.simplify(polygon, SIMPLER_MM, preserve_topology=True)
    return simple if simple.is_valid else polygon


def _fitted(polygon: Polygon, xy: Points, area: Floats) -> Bits:
    """Areas changed by a share that is linear over the piece, to its true area and centre.

    The share is of the order of what simplifying moved: thousandths at most.
    """
    centre = np.array([polygon.centroid.x, polygon.centroid.y])
    size = max(polygon.bounds[2] - polygon.bounds[0], polygon.bounds[3] - polygon.bounds[1])
    basis = np.column_stack([np.ones(len(xy)), (xy - centre) / size])
    for _ in range(2):
        lacking = np.array([polygon.area, 0.0, 0.0]) - basis.T @ area
        share = np.linalg.solve(basis.T @ (area[:, None] * basis), lacking)
        area = area * (1.0 + basis @ share)
    return Bits(xy, area)
