"""Assembly: the axis as it is handed out, from the skeleton and the strands left of it."""

from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from holeplacer.medial_axis import bisector, blobs
from holeplacer.medial_axis.axis import Axis, Branch, Tip
from holeplacer.medial_axis.bisector import Discs
from holeplacer.medial_axis.blobs import Blobs
from holeplacer.medial_axis.boundary import Boundary, Floats, Indices
from holeplacer.medial_axis.caps import caps
from holeplacer.medial_axis.clearance import LEAST_WAY, clearance, measured, on_axis
from holeplacer.medial_axis.refinement import refined
from holeplacer.medial_axis.rows import Rows, strand_rows
from holeplacer.medial_axis.skeleton import Skeleton
from holeplacer.medial_axis.strands import Network, Strand
from holeplacer.outline.outline import Outline

Scalar = TypeVar("Scalar", bound=np.generic)


def assembled(outline: Outline, boundary: Boundary, skeleton: Skeleton, network: Network) -> Axis:
    """Branches, nodes, blobs and tips.

    Args:
        outline: The drawn outline, to which clearances are measured.
        boundary: Its segments.
        skeleton: All chains.
        network: The strands kept.
    """
    strands = list(network.strands.values())
    rows = strand_rows(skeleton.rows, skeleton.first, strands, skeleton.chains.closed)
    rows = _between_nodes(boundary, rows, strands, skeleton.junctions)
    is_round, dots = blobs.round_strands(boundary, rows, strands, network)
    strands = [strand for strand, gone in zip(strands, is_round, strict=True) if not gone]
    rows = rows.of_stretches(~is_round)
    rows = _kept(outline, boundary, rows, strands, network)
    rows = _kept(outline, boundary, refined(outline, boundary, rows), strands, network)
    rows = rows.taken(np.flatnonzero(~rows.repeated() | rows.ends()))
    number, places = _numbered(rows, strands)
    piece = boundary.piece_of(rows.discs.segment[places, 0])
    dots = _joined(dots, blobs.bare_junctions(boundary, skeleton, network))
    present = np.concatenate((piece, dots.piece))
    dots = _joined(dots, blobs.missing_pieces(outline, boundary, present))
    node_xy = np.concatenate((rows.discs.xy[places], dots.xy))
    return Axis(
        branches=_branches(boundary, rows, strands, number),
        node_xy=_frozen(node_xy + boundary.origin),
        node_clearance=_frozen(clearance(outline, boundary, node_xy)),
        node_piece=_frozen(np.concatenate((piece, dots.piece))),
        tips=_tips(boundary, rows, strands, network, number),
    )


def _frozen(array: NDArray[Scalar]) -> NDArray[Scalar]:
    array = np.ascontiguousarray(array)
    array.setflags(write=False)
    return array


def _joined(first: Blobs, second: Blobs) -> Blobs:
    return Blobs(np.concatenate((first.xy, second.xy)), np.concatenate((first.piece, second.piece)))


def _between_nodes(boundary: Boundary, rows: Rows, strands: list[Strand], junctions: Discs) -> Rows:
    """Rows whose first and last discs sit on the very nodes of their strands.

    A node's disc touches more than two sides; where those known for it are not this strand's, they
    are sought from what the next disc touches.
    """
    first = rows.first(len(strands))
    place = np.column_stack((first[:-1], first[1:] - 1)).ravel()
    inward = np.column_stack((first[:-1] + 1, first[1:] - 2)).ravel()
    inward = np.clip(inward, np.repeat(first[:-1], 2), np.repeat(first[1:] - 1, 2))
    node = np.array([node for strand in strands for node in strand.nodes], dtype=np.intp)
    at_junction = np.flatnonzero(node < len(junctions))
    place, inward, node = place[at_junction], inward[at_junction], node[at_junction]
    known = bisector.touch(boundary, junctions.xy[node], rows.discs.segment[place])
    sought = bisector.touch(boundary, junctions.xy[node], rows.discs.segment[inward])
    better = _unlikeness(boundary, sought) < _unlikeness(boundary, known)
    index = np.flatnonzero(better)
    on_node = known.replaced(index, sought.taken(index))
    return Rows(rows.discs.replaced(place, on_node), rows.stretch)


def _kept(
    outline: Outline, boundary: Boundary, rows: Rows, strands: list[Strand], network: Network
) -> Rows:
    """Rows on the axis, and the ends of all strands; free ends only if these are on it too."""
    rows = Rows(measured(outline, boundary, rows.discs), rows.stretch)
    right = on_axis(boundary, rows.discs)
    rich = np.bincount(rows.stretch[right], minlength=len(strands)) > 1
    free = np.zeros(len(right), bool)
    free[[place for node, place, _ in _ends(rows, strands) if len(network.at[node]) == 1]] = True
    needed = rows.ends() & ~(free & rich[rows.stretch])
    return rows.taken(np.flatnonzero(right | needed))


def _unlikeness(boundary: Boundary, discs: Discs) -> Floats:
    """By how much discs miss one of their sides; a lot if both sides are the same."""
    apart = boundary.way_between(discs.segment, discs.foot) > LEAST_WAY * discs.radius
    unlikeness: Floats = np.where(apart, np.round(discs.mismatch, 9), np.inf)
    return unlikeness


def _ends(rows: Rows, strands: list[Strand]) -> list[tuple[int, int, bool]]:
    """Node, row and whether it is the last one, of both ends of every strand."""
    first = rows.first(len(strands)).tolist()
    return [
        end
        for number, strand in enumerate(strands)
        for end in (
            (strand.nodes[0], first[number], False),
            (strand.nodes[1], first[number + 1] - 1, True),
        )
    ]


def _numbered(rows: Rows, strands: list[Strand]) -> tuple[dict[int, int], Indices]:
    """Axis node of each network node, and a row at each."""
    number: dict[int, int] = {}
    places: list[int] = []
    for node, place, _ in _ends(rows, strands):
        if node not in number:
            number[node] = len(number)
            places.append(place)
    return number, np.array(places, dtype=np.intp)


def _branches(
    boundary: Boundary,
    rows: Rows,
    strands: list[Strand],
    number: dict[int, int],
) -> tuple[Branch, ...]:
    first, way = rows.first(len(strands)), rows.ways()
    piece = boundary.piece_of(rows.discs.segment[first[:-1], 0])
    branches = []
    for index, strand in enumerate(strands):
        run = slice(first[index], first[index + 1])
        branches.append(
            Branch(
                start=number[strand.nodes[0]],
                end=number[strand.nodes[1]],
                piece=int(piece[index]),
                xy=_frozen(rows.discs.xy[run] + boundary.origin),
                clearance=_frozen(rows.discs.clearance[run]),
                s=_frozen(way[run]),
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
    ends = [end for end in _ends(rows, strands) if len(network.at[end[0]]) == 1]
    places = np.array([place for _, place, _ in ends], dtype=np.intp)
    outgoing = np.array([last for _, _, last in ends], dtype=bool)
    found = caps(boundary, rows, places, outgoing)
    tip = (found.tip + boundary.origin).tolist()
    return tuple(
        Tip(number[node], (x, y), reach)
        for (node, _, _), (x, y), reach in zip(ends, tip, found.reach.tolist(), strict=True)
    )
