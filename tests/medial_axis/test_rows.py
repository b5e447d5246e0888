"""Rows of discs along chains and strands."""

import numpy as np
import pytest
import shapely
from shapes import BAR

from holeplacer.medial_axis import bisector
from holeplacer.medial_axis.boundary import boundary_of
from holeplacer.medial_axis.chains import chains
from holeplacer.medial_axis.rows import Rows, back_from, chain_rows, headings, strand_rows
from holeplacer.medial_axis.strands import Strand

BOUNDARY = boundary_of(shapely.MultiPolygon([BAR]), np.arange(1))
LOW, HIGH, LEFT = BOUNDARY.tree.nearest(
    shapely.points(np.array([(200, 0), (200, 40), (0, 20)]) - BOUNDARY.origin)
)


def discs(*x, sides=(HIGH, LOW)):
    at = np.array([(value, 20.0) for value in x]).reshape(-1, 2) - BOUNDARY.origin
    every = np.array([sides] * len(x), dtype=np.intp).reshape(-1, len(sides))
    return bisector.touch(BOUNDARY, at, every)


ROWS = Rows(discs(50, 100, 160, 300, 310, 340), np.array([0, 0, 0, 2, 2, 2]))


def test_ways_and_ends():
    """Ways start anew in each stretch; first and last rows are ends."""
    assert ROWS.ways() == pytest.approx([0, 50, 110, 0, 10, 40])
    assert ROWS.first(3).tolist() == [0, 3, 3, 6]
    assert ROWS.ends().tolist() == [True, False, True, True, False, True]
    assert Rows(discs(), np.empty(0, np.intp)).ends().tolist() == []


def test_repeated_discs_are_told():
    """A disc where the last one was says nothing new; nor one where the end comes next."""
    rows = Rows(discs(50, 50, 100, 160, 160, 160, 200), np.array([0, 0, 0, 0, 0, 1, 1]))
    assert rows.repeated()[[1, 2, 3]].tolist() == [True, False, True]


def test_stretches_are_numbered_anew():
    """Leaving a stretch out closes the gap in the numbers."""
    assert ROWS.of_stretches(np.array([True, False, True])).stretch.tolist() == [0, 0, 0, 1, 1, 1]
    kept = ROWS.of_stretches(np.array([False, False, True]))
    assert kept.stretch.tolist() == [0, 0, 0]
    assert kept.ways() == pytest.approx([0, 10, 40])


def test_going_back_from_ends():
    """So far and no further than the stretch."""
    places, outgoing = np.array([0, 2, 3, 5]), np.array([False, True, False, True])
    assert back_from(ROWS, places, outgoing, np.full(4, 30.0)).tolist() == [1, 1, 5, 4]
    assert back_from(ROWS, places, outgoing, np.full(4, 1e9)).tolist() == [2, 0, 5, 3]
    assert back_from(ROWS, places, outgoing, np.zeros(4)).tolist() == places.tolist()


def test_headings_lead_out():
    """Out over the first row is back along the axis, out over the last is on along it."""
    found = headings(ROWS, np.array([0, 5]), np.array([False, True]))
    assert found == pytest.approx(np.array([(-1, 0), (1, 0)]), abs=1e-9)
    lone = Rows(discs(50), np.array([0]))
    assert headings(lone, np.array([0]), np.array([True])) == pytest.approx(np.array([(1, 0)]))


def test_chains_get_their_junctions():
    """A chain that starts at a junction starts with its disc, seen from the chain's two sides."""
    crossed = discs(50, 100, 160)
    found = chains(np.array([0, 1, 2]), np.array([1, 2, 3]), 4)
    junction = discs(20, sides=(LOW, LEFT, HIGH))
    sides = np.array([[(x, 40), (x, 0)] for x in (50.0, 100, 160)]) - BOUNDARY.origin
    rows = chain_rows(
        found, crossed, np.array([True, False, True]), sides, junction, np.array([0, -1, -1, -1])
    )
    x = rows.discs.xy[:, 0] + BOUNDARY.origin[0]
    assert sorted(x) == pytest.approx([20, 50, 160])
    at = int(np.argmin(x))
    assert set(rows.discs.segment[at]) == {HIGH, LOW}
    heading = rows.discs.foot[at, 0] - rows.discs.foot[at, 1]
    assert (heading[1] > 0) == (at == 0)


def test_strands_run_through_chains_either_way():
    """Backwards, left and right change about; the disc two chains share comes once."""
    rows = Rows(discs(100, 50, 100, 160), np.array([0, 0, 1, 1]))
    strand = Strand((0, 1), [(0, True), (1, False)], 110.0)
    found = strand_rows(rows, rows.first(2), [strand], np.zeros(2, bool))
    assert found.discs.xy[:, 0] + BOUNDARY.origin[0] == pytest.approx([50, 100, 160])
    assert found.discs.segment.tolist() == [[LOW, HIGH], [LOW, HIGH], [HIGH, LOW]]
    closed = strand_rows(rows, rows.first(2), [Strand((0, 0), [(0, False)], 1.0)], np.ones(2, bool))
    assert closed.discs.xy[0].tolist() == closed.discs.xy[-1].tolist()
    assert not len(strand_rows(rows, rows.first(2), [], np.zeros(2, bool)).stretch)
