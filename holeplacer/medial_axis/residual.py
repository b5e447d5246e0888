"""Chord residual: how much longer the contour is between an axis point's contacts than their chord.

Grows from the tips inwards, since the arcs are nested, so one comparison leaves a connected graph
with every loop. R. L. Ogniewicz and O. Kübler, Hierarchic Voronoi skeletons, Pattern Recognition
28 (1995) (from memory).
"""

import numpy as np

from holeplacer.medial_axis.boundary import Boundary, Floats
from holeplacer.medial_axis.samples import Samples
from holeplacer.medial_axis.triangulation import Crossings

LEAST_RESIDUAL_MM = 0.3
LEAST_RESIDUAL = 0.05
"""The same in half mean stroke widths, for parts so small that 0.3 mm is much."""


def chord_residual(boundary: Boundary, samples: Samples, crossings: Crossings) -> Floats:
    """(e,) mm; infinite between different rings."""
    left, right = crossings.left, crossings.right
    ring = boundary.ring[samples.segment[left]]
    apart = samples.xy[left] - samples.xy[right]
    around = np.abs(samples.way[left] - samples.way[right])
    around = np.minimum(around, boundary.ring_length[ring] - around)
    other = boundary.ring[samples.segment[right]] != ring
    return np.where(other, np.inf, around - np.hypot(apart[:, 0], apart[:, 1]))


def least_residual(boundary: Boundary, samples: Samples, crossings: Crossings) -> Floats:
    """(e,) mm: the residual from which on a crossing belongs to the axis."""
    part = boundary.part_of(samples.segment[crossings.left])
    return np.minimum(LEAST_RESIDUAL_MM, LEAST_RESIDUAL * boundary.part_width[part])
