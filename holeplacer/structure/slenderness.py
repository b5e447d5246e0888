"""Slenderness: whether a piece's strokes are long and lean enough to be reckoned as beams."""

import numpy as np

from holeplacer.medial_axis.axis import Axis

JOINED = 0.04
"""Greatest share of a piece's axis that may lie in the discs of its junctions and ends."""


def joined_share(axis: Axis, piece: int) -> float:
    """Share of a piece's axis that lies within discs of junctions and ends; 1 for a dot.

    There metal is held by what surrounds it, and is no strip with two free edges.

    Args:
        axis: The axis.
        piece: Index of the piece.
    """
    total = within = 0.0
    for branch in axis.branches:
        if branch.piece != piece:
            continue
        total += branch.length_mm
        ends = axis.node_clearance[[branch.start, branch.end]]
        loop = branch.start == branch.end and axis.degree[branch.start] == 2
        within += 0.0 if loop else min(float(np.sum(ends)), branch.length_mm)
    return within / total if total > 0.0 else 1.0


def slender(axis: Axis, piece: int) -> bool:
    """Whether a piece is a grillage of strokes.

    Args:
        axis: The axis.
        piece: Index of the piece.
    """
    return joined_share(axis, piece) <= JOINED
