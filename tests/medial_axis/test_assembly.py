"""The axis as it is handed out."""

import numpy as np
import pytest
import shapely
from shapes import CROSS, RING, outline

from holeplacer.medial_axis.medial_axis import medial_axis


def test_left_and_right_contacts():
    """Going along a branch, the first contact lies to the left, the second to the right."""
    axis = medial_axis(outline(CROSS, shapely.Point(0, 0).buffer(50)))
    for branch in axis.branches:
        go = np.diff(branch.xy, axis=0)
        to_left = branch.contacts[:-1, 0] - branch.contacts[:-1, 1]
        assert (go[:, 0] * to_left[:, 1] - go[:, 1] * to_left[:, 0] > 0).all()


def test_loops_come_back_to_their_node():
    """A ring's branch starts and ends at the same place, and says how long it is."""
    (branch,) = medial_axis(outline(RING)).branches
    assert branch.xy[0].tolist() == branch.xy[-1].tolist()
    assert branch.length_mm == pytest.approx(100 * np.pi, rel=2e-3)


def test_merged_junctions_are_one_node():
    """The four arms of a cross start at the same node."""
    axis = medial_axis(outline(CROSS))
    (centre,) = np.flatnonzero(axis.degree == 4)
    assert axis.node_xy[centre] == pytest.approx([0, 0], abs=0.01)
    assert axis.junctions == 1
    for branch in axis.branches:
        assert centre in (branch.start, branch.end)


def test_pieces_are_told_apart():
    """Branches and nodes name the piece they lie in."""
    sign = outline(*(shapely.box(0, 100 * k, 300, 100 * k + 30) for k in range(3)))
    axis = medial_axis(sign)
    for branch in axis.branches:
        inside = sign.pieces[branch.piece].polygon
        assert shapely.contains_xy(inside, branch.xy).all()
    assert sorted(axis.node_piece) == [0, 0, 1, 1, 2, 2]
