"""Blobs: what is a dot and what a stroke."""

import numpy as np
import pytest
import shapely
from shapes import outline, stroke

from holeplacer.medial_axis.blobs import missing_pieces
from holeplacer.medial_axis.boundary import boundary_of
from holeplacer.medial_axis.medial_axis import medial_axis


@pytest.mark.parametrize("quad_segs", [4, 8, 33, 400])
def test_discs_are_blobs_however_flattened(quad_segs):
    """A round dot is one lone node near its centre, without tips."""
    axis = medial_axis(outline(shapely.Point(50, 7).buffer(12, quad_segs)))
    assert axis.branches == ()
    assert axis.tips == ()
    assert axis.node_xy == pytest.approx(np.array([(50, 7)]), abs=0.5)


def test_what_reaches_further_is_a_stroke():
    """An oblong dot has a short branch with two tips."""
    axis = medial_axis(outline(stroke([(0, 0), (4, 0)], 12)))
    assert len(axis.branches) == 1
    assert len(axis.tips) == 2


def test_dots_beside_strokes():
    """A dot over a stem has its own node and piece."""
    axis = medial_axis(outline(stroke([(0, 0), (0, 80)], 8), shapely.Point(0, 110).buffer(9)))
    assert axis.degree.tolist().count(0) == 1
    assert sorted(axis.node_piece) == [0, 0, 1] or sorted(axis.node_piece) == [0, 1, 1]


def test_pieces_without_axis_get_their_largest_disc():
    """A piece that nothing was found in is given a lone node."""
    sign = outline(shapely.box(0, 0, 10, 10), shapely.box(20, 0, 60, 10))
    boundary = boundary_of(sign.region, np.arange(2))
    found = missing_pieces(sign, boundary, np.array([1]))
    assert found.piece.tolist() == [0]
    assert found.xy + boundary.origin == pytest.approx(np.array([(5, 5)]), abs=0.2)
    assert len(missing_pieces(sign, boundary, np.array([0, 1])).piece) == 0
