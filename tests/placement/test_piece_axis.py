"""The axis piece by piece."""

from dataclasses import replace

import numpy as np
from graphs import graph

from holeplacer.placement.piece_axis import piece_axes


def test_two_pieces_and_a_blob():
    """Each piece's part is an axis of its own, and says where it came from."""
    axis = graph([(0, 0), (9, 0), (50, 0), (59, 0), (52, 5)], [(0, 1), (2, 3)])
    axis = replace(
        axis,
        node_piece=np.array([0, 0, 2, 2, 1]),
        branches=(axis.branches[0], replace(axis.branches[1], piece=2)),
    )
    first, blob, second = piece_axes(axis)
    assert [part.piece for part in (first, blob, second)] == [0, 1, 2]
    assert len(blob.axis.branches) == 0
    assert blob.nodes.tolist() == [4]
    assert second.branches.tolist() == [1]
    assert (second.axis.branches[0].start, second.axis.branches[0].end) == (0, 1)
    assert [tip.node for tip in second.axis.tips] == [0, 1]
    np.testing.assert_array_equal(second.axis.node_xy, axis.node_xy[2:4])
