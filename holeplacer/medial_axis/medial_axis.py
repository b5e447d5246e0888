"""The medial axis of an outline: of the polygon itself, not of samples of it.

Samples of the boundary are triangulated; the dual graph of the triangles has the outline's pieces
and loops by construction. Crossings with a small chord residual are dropped, every other one is
moved onto the exact axis, and end strands that hardly leave their junction's disc fall.
"""

import numpy as np
import shapely
from shapely.geometry import MultiPolygon

from holeplacer.errors import HoleplacerError
from holeplacer.medial_axis import strands
from holeplacer.medial_axis.assembly import assembled
from holeplacer.medial_axis.axis import Axis
from holeplacer.medial_axis.boundary import Boundary, Indices, boundary_of
from holeplacer.medial_axis.samples import Samples, sampled, sampled_finer
from holeplacer.medial_axis.skeleton import skeleton_of
from holeplacer.medial_axis.triangulation import (
    TouchingRings,
    Triangulation,
    stroke_width,
    triangulate,
)
from holeplacer.outline.outline import Outline

NEAR_MM = 0.01
"""Junctions nearer to each other than this along the axis are one."""
NEAR = 0.02
"""The same in disc radii, for very small outlines."""
PINCH_MM = 1e-4
"""By how much contours that touch are drawn apart."""
CAREFUL_SHARE = 0.01
"""Of the usual least residual, where the first try failed."""


def medial_axis(outline: Outline) -> Axis:
    """Axis of all pieces of the outline.

    Every clearance is the distance to the drawn outline. The graph is checked to have one
    connected part for each piece and one loop for each counter. Where contours touch in a point,
    no metal joins there, and the axis does not pass.

    Args:
        outline: Valid, of any size and anywhere.

    Raises:
        HoleplacerError: The contours lie so close that no consistent axis was found.
    """
    if not outline.pieces:
        return Axis((), np.empty((0, 2)), np.empty(0), np.empty(0, np.intp), ())
    whole = (outline.region, np.arange(len(outline.pieces)), 0.0)
    axis = _tried(outline, *whole, careful=False) or _tried(outline, *whole, careful=True)
    if axis is None:
        apart = _drawn_apart(outline)
        axis = _tried(outline, *apart, careful=False) or _tried(outline, *apart, careful=True)
    if axis is None:
        raise HoleplacerError(
            "the medial axis of the outline can't be found",
            where=f"{outline.vertex_count} vertices",
            remedy="look for contours that touch or nearly touch, and draw them apart or united",
        )
    return axis


def _tried(
    outline: Outline, region: MultiPolygon, part_piece: Indices, slack_mm: float, *, careful: bool
) -> Axis | None:
    """The axis of a region, None if its graph is not that of the region.

    Args:
        outline: The drawn outline.
        region: The same metal, perhaps with contours drawn apart.
        part_piece: Piece of the outline that each part of the region belongs to.
        slack_mm: By how much contours were drawn apart.
        careful: Sample all vertices, and take hardly any crossing for a flattening's.
    """
    boundary = boundary_of(region, part_piece, slack_mm)
    try:
        samples, triangulation = _triangulated(boundary, careful=careful)
    except TouchingRings:
        return None
    share = CAREFUL_SHARE if careful else 1.0
    skeleton = skeleton_of(outline, boundary, samples, triangulation, share=share)
    network, radius = skeleton.network()
    strands.merge_close_junctions(network, radius, np.minimum(NEAR_MM, NEAR * radius))
    strands.prune_short_ends(network, radius, lambda ends: skeleton.cap_reach(boundary, ends))
    axis = assembled(outline, boundary, skeleton, network)
    return axis if _consistent(axis, boundary) else None


def _consistent(axis: Axis, boundary: Boundary) -> bool:
    """Whether the graph has one connected part for each piece and one loop for each counter."""
    pieces = int(axis.node_piece.max()) + 1
    parts = np.bincount(boundary.part_piece, minlength=pieces)
    rings = np.bincount(boundary.part_piece[boundary.ring_part], minlength=pieces)
    nodes = np.bincount(axis.node_piece, minlength=pieces)
    branches = np.bincount([branch.piece for branch in axis.branches], minlength=pieces)
    return np.array_equal(nodes - branches, np.where(parts == 0, 1, 2 * parts - rings))


def _triangulated(boundary: Boundary, *, careful: bool) -> tuple[Samples, Triangulation]:
    samples = sampled(boundary, every_vertex=careful)
    triangulation = triangulate(samples)
    finer = sampled_finer(boundary, samples, stroke_width(samples, triangulation.crossings))
    return (samples, triangulation) if finer is None else (finer, triangulate(finer))


def _drawn_apart(outline: Outline) -> tuple[MultiPolygon, Indices, float]:
    """The outline with all contours moved into the metal, the piece of each part, by how much."""
    shrunk = shapely.buffer(outline.region, -PINCH_MM, join_style="mitre")
    parts = [part for part in shapely.get_parts(shrunk) if part.area > 0]
    inside = shapely.get_coordinates(shapely.point_on_surface(parts))
    return MultiPolygon(parts), outline.piece_at(inside), 2.0 * PINCH_MM
