"""Assembly: the axis as it is handed out, from the skeleton and the strands left of it."""

from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from holeplacer.medial_axis import bisector
from holeplacer.medial_axis.axis import Axis, Branch, Tip
from holeplacer.medial_axis.bisector import Discs
from holeplacer.medial_axis.boundary import Boundary, Floats, Indices
from holeplacer.medial_axis.caps import caps
from holeplacer.medial_axis.clearance import clearance, on_axis
from holeplacer.medial_axis.refinement import refined
from holeplacer.medial_axis.rows import Rows, headings, strand_rows
from holeplacer.medial_axis.skeleton import Skeleton
from holeplacer.medial_axis.strands import Network, Strand
from holeplacer.outline.outline import Outline

Scalar = TypeVar("Scalar", bound=np.generic)


def assembled(outline: Outline, boundary: Boundary, skeleton: Skeleton, network: Network) -> Axis:
    """Branches, nodes, blobs and tips."""
    kept = list(network.strands.values())
    rows = strand_rows(skeleton.rows, skeleton.first, kept, skeleton.chains.closed)
    rows = _between_nodes(boundary, rows, kept, skeleton.junctions)
    rows = refined(boundary, rows)
    distance = clearance(outline, boundary, rows.discs.xy)
    good = np.flatnonzero(on_axis(boundary, rows.discs, distance) | rows.ends())
    rows, distance = rows.taken(good), distance[good]
    blobs = [node for node, strands in network.at.items() if not strands]
    number, places = _numbered(rows, kept, blobs)
    node_xy = np.concatenate(
        (rows.discs.xy[places], skeleton.junctions.xy[np.array(blobs, dtype=np.intp)])
    )
    ring = boundary.ring[
        np.concatenate(
            (
                rows.discs.segment[places, 0],
                skeleton.junctions.segment[np.array(blobs, dtype=np.intp), 0],
            )
        )
    ]
    return Axis(
        branches=_branches(boundary, rows, distance, kept, number),
        node_xy=_frozen(node_xy + boundary.origin),
        node_clearance=_frozen(clearance(outline, boundary, node_xy)),
        node_piece=_frozen(boundary.ring_piece[ring]),
        tips=_tips(boundary, rows, kept, network, number),
    )


def _frozen(array: NDArray[Scalar]) -> NDArray[Scalar]:
    array = np.ascontiguousarray(array)
    array.setflags(write=False)
    return array


def _between_nodes(boundary: Boundary, rows: Rows, strands: list[Strand], junctions: Discs) -> Rows:
    """Rows whose first and last discs sit on the very nodes of their strands."""
    if not strands:
        return rows
    first = rows.first(len(strands))
    place = np.column_stack((first[:-1], first[1:] - 1)).ravel()
    node = np.array([node for strand in strands for node in strand.nodes], dtype=np.intp)
    at_junction = node < len(junctions)
    place, node = place[at_junction], node[at_junction]
    on_node = bisector.touch(boundary, junctions.xy[node], rows.discs.segment[place])
    return Rows(rows.discs.replaced(place, on_node), rows.stretch)


def _numbered(
    rows: Rows, strands: list[Strand], blobs: list[int]
) -> tuple[dict[int, int], Indices]:
    """Axis node of each network node, and the row each branch node is seen at."""
    first = rows.first(len(strands))
    number: dict[int, int] = {}
    places: list[int] = []
    for index, strand in enumerate(strands):
        for node, place in zip(strand.nodes, (first[index], first[index + 1] - 1), strict=True):
            if node not in number:
                number[node] = len(number)
                places.append(int(place))
    for node in blobs:
        number[node] = len(number)
    return number, np.array(places, dtype=np.intp)


def _branches(
    boundary: Boundary,
    rows: Rows,
    distance: Floats,
    strands: list[Strand],
    number: dict[int, int],
) -> tuple[Branch, ...]:
    first = rows.first(len(strands))
    step = np.diff(rows.discs.xy, axis=0)
    way = np.concatenate(([0.0], np.cumsum(np.hypot(step[:, 0], step[:, 1]))))
    piece = boundary.ring_piece[boundary.ring[rows.discs.segment[:, 0]]]
    branches = []
    for index, strand in enumerate(strands):
        run = slice(first[index], first[index + 1])
        branches.append(
            Branch(
                start=number[strand.nodes[0]],
                end=number[strand.nodes[1]],
                piece=int(piece[run.start]),
                xy=_frozen(rows.discs.xy[run] + boundary.origin),
                clearance=_frozen(distance[run]),
                s=_frozen(way[run] - way[run.start]),
                contacts=_frozen(rows.discs.foot[run] + boundary.origin),
            )
        )
    return tuple(branches)


def _tips(
    boundary: Boundary,
    rows: Rows,
    strands: list[Strand],
    network: Network,
    number: dict[int, int],
) -> tuple[Tip, ...]:
    first = rows.first(len(strands))
    ends = [
        (node, place, last)
        for index, strand in enumerate(strands)
        for node, place, last in (
            (strand.nodes[0], first[index], False),
            (strand.nodes[1], first[index + 1] - 1, True),
        )
        if len(network.at[node]) == 1
    ]
    if not ends:
        return ()
    outgoing = np.array([last for _, _, last in ends])
    discs = rows.discs.taken(np.array([place for _, place, _ in ends])).turned(~outgoing)
    found = caps(boundary, discs, headings(discs))
    return tuple(
        Tip(number[node], (float(x), float(y)), float(reach))
        for (node, _, _), (x, y), reach in zip(
            ends, found.tip + boundary.origin, found.reach, strict=True
        )
    )
