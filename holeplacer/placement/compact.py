"""Compact pieces: dots and short strokes whose axis has no room for two holes, but whose metal has.

Two holes are set beside the axis, the centre of gravity half-way between them, as far apart as
the rules ask and no further, turned to where the metal is widest. Both count at their feet on the
axis. This is the only case in which a hole is proposed off the axis.
"""

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from holeplacer.geometry.curve import Points
from holeplacer.medial_axis.axis import Axis
from holeplacer.outline.outline import Outline
from holeplacer.rules import spacing

_DIRECTIONS = 36
_ROOM_TO_SPARE_MM = 0.02


def pair(
    outline: Outline,
    axis: Axis,
    centre: tuple[float, float],
    apart_mm: float,
    least_mm: float,
    taken: Callable[[Points], NDArray[np.bool_]] | None = None,
) -> Points | None:
    """Two hole centres, the left one first; None if the metal has no room for them.

    Args:
        outline: The cut outline.
        axis: The piece's axis.
        centre: Its centre of gravity.
        apart_mm: How far apart the holes must be at least.
        least_mm: Edge distance each needs.
        taken: Tells of (n, 2) places whether a hole may not be there, metal apart.
    """
    angle = np.pi * np.arange(_DIRECTIONS) / _DIRECTIONS
    angle = np.where(angle > np.pi / 2, angle - np.pi, angle)
    half = (apart_mm + _ROOM_TO_SPARE_MM) / 2 * np.column_stack([np.cos(angle), np.sin(angle)])
    one, two = centre - half, centre + half
    metal = np.minimum(outline.edge_distance(one), outline.edge_distance(two))
    if taken is not None:
        metal[taken(one) | taken(two)] = -np.inf
    for choice in np.lexsort((np.abs(angle), -np.round(metal, 2))):
        if metal[choice] < least_mm:
            return None
        both = np.array([one[choice], two[choice]])
        _, counts = spacing.counting_feet(outline, axis, both)
        if counts.all():
            return both
    return None
