"""The medial axis of an outline: of the polygon itself, not of samples of it.

Samples of the boundary are triangulated; the dual graph of the triangles has the outline's pieces
and loops by construction. Crossings with a small chord residual are dropped, every other one is
moved onto the exact axis, and end strands that hardly leave their junction's disc fall.
"""

import numpy as np

from holeplacer.medial_axis import strands
from holeplacer.medial_axis.assembly import assembled
from holeplacer.medial_axis.axis import Axis
from holeplacer.medial_axis.boundary import boundary_of
from holeplacer.medial_axis.skeleton import skeleton_of
from holeplacer.medial_axis.triangulation import sample, triangulate
from holeplacer.outline.outline import Outline

NEAR_MM = 0.01
"""Junctions nearer to each other than this along the axis are one."""
NEAR = 0.02
"""The same in disc radii, for very small outlines."""


def medial_axis(outline: Outline) -> Axis:
    """Axis of all pieces of the outline."""
    boundary = boundary_of(outline.region)
    samples = sample(boundary)
    skeleton = skeleton_of(outline, boundary, samples, triangulate(samples))
    network, radius = skeleton.network()
    strands.merge_close_junctions(network, radius, np.minimum(NEAR_MM, NEAR * radius))
    strands.prune_short_ends(network, radius, lambda ends: skeleton.cap_reach(boundary, ends))
    return assembled(outline, boundary, skeleton, network)
