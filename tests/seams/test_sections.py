"""Sections."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Point, box

from holeplacer.outline.outline import Outline
from holeplacer.plan.hole import Hole
from holeplacer.plan.seam import Seam
from holeplacer.seams import sections

BAR = Outline.from_geometry(box(0, 0, 1000, 40))
RING = Outline.from_geometry(Point(0, 0).buffer(200, 64) - Point(0, 0).buffer(160, 64))


def across(x):
    return Seam(x, 0.0, x, 40.0)


def test_without_seams_every_piece_is_a_section():
    """Nothing is cut."""
    (one,) = sections.sections(BAR, [], [Hole(3, 500.0, 20.0)])
    assert (one.number, one.piece, one.holes, one.seams) == (1, 0, (3,), ())
    assert one.polygon.equals(BAR.pieces[0].polygon)


def test_holes_and_seams_of_each_section():
    """Numbered from the left; a hole outside the metal is in none."""
    holes = [Hole(1, 50.0, 20.0), Hole(2, 700.0, 20.0), Hole(7, 50.0, 400.0)]
    found = sections.sections(BAR, [across(600.0), across(200.0)], holes)
    assert [part.number for part in found] == [1, 2, 3]
    assert [part.holes for part in found] == [(1,), (), (2,)]
    assert [part.seams for part in found] == [(1,), (0, 1), (0,)]
    assert [part.area_mm2 for part in found] == pytest.approx([8000, 16000, 16000])


def test_a_ring_needs_two_cuts():
    """One seam parts nothing and is told of its section; two make two halves."""
    right, left = Seam(160.0, 0.0, 200.0, 0.0), Seam(-200.0, 0.0, -160.0, 0.0)
    (whole,) = sections.sections(RING, [right])
    assert whole.seams == (0,)
    assert whole.area_mm2 == pytest.approx(RING.area_mm2)
    halves = sections.sections(RING, [right, left])
    assert [part.seams for part in halves] == [(0, 1), (0, 1)]


def test_a_seam_that_stops_short_parts_nothing():
    """Metal left standing is not cut."""
    assert len(sections.sections(BAR, [Seam(500.0, 0.0, 500.0, 39.0)])) == 1


@settings(max_examples=30, deadline=None)
@given(st.lists(st.floats(5, 995), min_size=1, max_size=5), st.floats(-4, 4))
def test_sections_are_the_outline(places, slant):
    """Their union is the outline, they overlap nowhere, whatever the slant of the seams."""
    seams = [Seam(x, 0.0, x + slant, 40.0) for x in places]
    parts = [part.polygon for part in sections.sections(BAR, seams)]
    union = shapely.union_all(parts)
    weld = float(np.sum(sections.weld_lengths(BAR, seams)))
    assert union.symmetric_difference(BAR.region).area <= 0.01 * weld
    assert sum(part.area for part in parts) == pytest.approx(BAR.area_mm2, rel=1e-9)


def test_root_gap_is_taken_from_both_sides():
    """A 2 mm gap takes 1 mm from either section."""
    found = sections.sections(BAR, [across(400.0)], root_gap_mm=2.0)
    assert found[0].polygon.bounds[2] == pytest.approx(399.0)
    assert found[1].polygon.bounds[0] == pytest.approx(401.0)


def test_weld_is_what_lies_in_metal():
    """A seam that sticks out is welded only where there is metal."""
    assert sections.weld_lengths(BAR, [Seam(5.0, -30.0, 5.0, 60.0)]) == pytest.approx([40.0])
    assert len(sections.weld_lengths(BAR, [])) == 0
