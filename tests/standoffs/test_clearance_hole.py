"""Studs and the holes they pass."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.standoffs import clearance_hole


@pytest.mark.parametrize(
    ("hole", "stud"),
    [(7.144, 6.35), (9.0, 8.0), (6.6, 6.0), (5.5, 5.0), (5.0, 4.1656), (4.5, 4.0), (11.0, 10.0)],
)
def test_stud_follows_the_hole(hole, stud):
    """A hole is taken for the clearance hole of the thickest stud that fits it closely."""
    assert clearance_hole.stud_for_hole(hole) == pytest.approx(stud)


def test_hole_smaller_than_the_table_keeps_a_share():
    """Below the smallest row the stud is nine tenths of the hole."""
    assert clearance_hole.stud_for_hole(2.0) == pytest.approx(1.8)


def test_normal_fit_leads_back_to_the_stud():
    """From a stud's own normal-fit hole that stud is found, or the other series' thicker twin."""
    for row in clearance_hole.clearance_holes():
        assert clearance_hole.hole_for_stud(row.stud_mm) == row.normal_mm
        found = clearance_hole.stud_for_hole(row.normal_mm)
        assert row.stud_mm <= found <= row.stud_mm * 1.15


@settings(max_examples=60, deadline=None)
@given(st.floats(0.5, 40), st.floats(0.5, 40))
def test_larger_hole_never_means_a_thinner_stud(one, two):
    """The stud grows with the hole and always passes it."""
    small, large = sorted((one, two))
    assert clearance_hole.stud_for_hole(small) <= clearance_hole.stud_for_hole(large)
    assert clearance_hole.stud_for_hole(large) < large


def test_hole_between_and_beyond_rows():
    """A stud between rows takes the next thicker row's hole; beyond them the share is kept."""
    assert clearance_hole.hole_for_stud(5.5) == 6.6
    assert clearance_hole.hole_for_stud(38.1) == pytest.approx(38.1 * 20.625 / 19.05)
