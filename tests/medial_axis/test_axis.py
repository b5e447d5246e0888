"""The axis as a value: lengths, degrees, junctions."""

import numpy as np
import pytest

from holeplacer.medial_axis.axis import Axis, Branch, Tip


def branch(start, end, xy):
    xy = np.array(xy, float)
    way = np.append(0.0, np.cumsum(np.hypot(*np.diff(xy, axis=0).T)))
    ones = np.ones(len(xy))
    return Branch(start, end, 0, xy, ones, way, np.zeros((len(xy), 2, 2)))


def test_degree_counts_branch_ends():
    """A loop counts twice at its node; a blob has none."""
    axis = Axis(
        branches=(branch(0, 1, [(0, 0), (3, 4)]), branch(1, 1, [(3, 4), (5, 4), (3, 4)])),
        node_xy=np.array([(0.0, 0.0), (3, 4), (9, 9)]),
        node_clearance=np.ones(3),
        node_piece=np.zeros(3, np.intp),
        tips=(Tip(0, (-1.0, 0.0), 1.0),),
    )
    assert axis.degree.tolist() == [1, 3, 0]
    assert axis.junctions == 1
    assert axis.length_mm == pytest.approx(9)


def test_empty_axis():
    """No branches, no length."""
    axis = Axis((), np.empty((0, 2)), np.empty(0), np.empty(0, np.intp), ())
    assert axis.length_mm == 0
    assert axis.degree.tolist() == []
