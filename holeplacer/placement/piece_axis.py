"""The axis of one piece alone: pieces are covered one by one, since no way leads between them."""

from dataclasses import dataclass, replace

import numpy as np

from holeplacer.medial_axis.axis import Axis
from holeplacer.medial_axis.ways import Indices


@dataclass(frozen=True, eq=False)
class PieceAxis:
    """One piece's part of the axis.

    Attributes:
        piece: Index of the piece in the outline.
        axis: Its axis, as if it were the only piece.
        branches: (b,) index of each branch in the whole axis.
        nodes: (m,) index of each node in the whole axis.
    """

    piece: int
    axis: Axis
    branches: Indices
    nodes: Indices


def piece_axes(axis: Axis) -> tuple[PieceAxis, ...]:
    """The whole axis, piece by piece."""
    branch_piece = np.fromiter((b.piece for b in axis.branches), np.intp, len(axis.branches))
    number = np.zeros(len(axis.node_xy), np.intp)
    parts = []
    for piece in np.unique(axis.node_piece):
        nodes = np.flatnonzero(axis.node_piece == piece)
        branches = np.flatnonzero(branch_piece == piece)
        number[nodes] = np.arange(len(nodes))
        own = (axis.branches[index] for index in branches)
        part = Axis(
            branches=tuple(
                replace(b, start=int(number[b.start]), end=int(number[b.end]), piece=0) for b in own
            ),
            node_xy=axis.node_xy[nodes],
            node_clearance=axis.node_clearance[nodes],
            node_piece=np.zeros(len(nodes), np.intp),
            tips=tuple(
                replace(tip, node=int(number[tip.node]))
                for tip in axis.tips
                if axis.node_piece[tip.node] == piece
            ),
        )
        parts.append(PieceAxis(int(piece), part, branches, nodes))
    return tuple(parts)
