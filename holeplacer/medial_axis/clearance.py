"""Clearance: the true distance from axis points to the drawn outline, and discs it proves wrong."""

from dataclasses import replace

import numpy as np
import shapely

from holeplacer.geometry.curve import Points
from holeplacer.medial_axis.bisector import Discs
from holeplacer.medial_axis.boundary import Boundary, Flags, Floats
from holeplacer.outline.outline import Outline

ROUNDING_MM = 1e-6
LEAST_WAY = 0.02
"""Least way along the contour between two contacts, in disc radii: less is a facet's corner."""


def clearance(outline: Outline, boundary: Boundary, xy: Points) -> Floats:
    """(k,) distance from points about the boundary's origin to the drawn outline."""
    at = shapely.points(xy + boundary.origin)
    return np.asarray(shapely.length(shapely.shortest_line(outline.boundary, at)), float)


def measured(outline: Outline, boundary: Boundary, discs: Discs) -> Discs:
    """The same discs, their clearance measured where it was not."""
    distance = discs.clearance.copy()
    unknown = np.flatnonzero(np.isnan(distance))
    distance[unknown] = clearance(outline, boundary, discs.xy[unknown])
    return replace(discs, clearance=distance)


def on_axis(boundary: Boundary, discs: Discs) -> Flags:
    """Whether discs touch their sides from the metal, apart, and nothing of the outline is inside.

    Args:
        boundary: The outline.
        discs: Measured discs of two sides or more.
    """
    slack = boundary.slack_mm + ROUNDING_MM + 1e-6 * discs.radius
    apart = boundary.way_between(discs.segment, discs.foot) > LEAST_WAY * discs.radius
    for side in discs.segment.T:
        apart &= boundary.on_metal_side(side, discs.xy)
    return apart & (np.abs(discs.radius - discs.clearance) <= slack) & (discs.mismatch <= slack)
