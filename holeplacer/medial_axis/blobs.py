"""Blobs: parts that are no stroke but a dot; the axis there is a lone node."""

from dataclasses import dataclass

import numpy as np
import shapely

from holeplacer.geometry.curve import Points
from holeplacer.medial_axis.boundary import Boundary, Flags, Indices
from holeplacer.medial_axis.caps import caps
from holeplacer.medial_axis.rows import Rows
from holeplacer.medial_axis.skeleton import Skeleton
from holeplacer.medial_axis.strands import Network, Strand
from holeplacer.outline.outline import Outline

LEAST_REACH = 0.1
"""What a strand without junctions leads beyond its widest disc, in that disc's radii."""


@dataclass(frozen=True, eq=False)
class Blobs:
    """Lone nodes.

    Attributes:
        xy: (k, 2) about the boundary's origin.
        piece: (k,) piece of the outline each lies in.
    """

    xy: Points
    piece: Indices


def bare_junctions(boundary: Boundary, skeleton: Skeleton, network: Network) -> Blobs:
    """Junctions that have lost all their strands."""
    bare = np.array([node for node, at in network.at.items() if not at], dtype=np.intp)
    segment = skeleton.junctions.segment[bare, 0]
    return Blobs(skeleton.junctions.xy[bare], boundary.piece_of(segment))


def round_strands(
    boundary: Boundary, rows: Rows, strands: list[Strand], network: Network
) -> tuple[Flags, Blobs]:
    """Strands without junctions that hardly reach beyond their widest disc, and those discs.

    Args:
        boundary: The outline.
        rows: Discs of all strands.
        strands: All strands.
        network: Where they meet.
    """
    lone = np.array(
        [n for n, s in enumerate(strands) if all(len(network.at[node]) == 1 for node in s.nodes)],
        dtype=np.intp,
    )
    first, way = rows.first(len(strands)), rows.ways()
    start, end = first[lone], first[lone + 1] - 1
    radii = rows.discs.radius
    widest = start + np.array(
        [np.argmax(radii[a : b + 1]) for a, b in zip(start, end, strict=True)], dtype=np.intp
    )
    reach = np.zeros(len(lone))
    for place, outgoing in ((start, False), (end, True)):
        beyond = caps(boundary, rows, place, np.full(len(lone), outgoing)).reach
        reach = np.maximum(reach, beyond + np.abs(way[place] - way[widest]))
    is_round = (start == end) | (reach < (1.0 + LEAST_REACH) * radii[widest])
    flags = np.zeros(len(strands), bool)
    flags[lone[is_round]] = True
    discs = rows.discs.taken(widest[is_round])
    return flags, Blobs(discs.xy, boundary.piece_of(discs.segment[:, 0]))


def missing_pieces(outline: Outline, boundary: Boundary, present: Indices) -> Blobs:
    """The largest disc of each piece that has no axis yet, being too thin for a triangle."""
    missing = np.setdiff1d(np.arange(len(outline.pieces)), present)
    polygons = [outline.pieces[piece].polygon for piece in missing]
    radii = [shapely.get_coordinates(shapely.maximum_inscribed_circle(p))[0] for p in polygons]
    return Blobs(np.reshape(radii, (-1, 2)) - boundary.origin, missing)
