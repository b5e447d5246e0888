"""Round steps for rulers and grid."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.gui.canvas.steps import steps
from holeplacer.units import LengthUnit


@settings(max_examples=150, deadline=None)
@given(st.floats(0.01, 200.0), st.sampled_from(LengthUnit))
def test_marks_keep_their_distance_at_any_scale(px_per_mm, unit):
    """Fine marks at least 5 pixels apart, figures at least 64, unless inches are at their end."""
    found = steps(px_per_mm, unit, fine_px=5.0, strong_px=64.0)
    largest = unit is LengthUnit.INCH and found.strong_mm >= 1200 * 25.4 - 1e-6
    assert found.strong_mm * px_per_mm >= 64.0 - 1e-9 or largest
    assert found.fine_mm * px_per_mm >= 5.0 - 1e-9 or largest
    assert found.strong_mm == pytest.approx(found.fine_mm * found.strong_every)


@settings(max_examples=100, deadline=None)
@given(st.floats(0.01, 200.0))
def test_millimetre_steps_are_round(px_per_mm):
    """Figures step by 1, 2 or 5 times a power of ten."""
    strong = steps(px_per_mm, LengthUnit.MM, fine_px=5.0, strong_px=64.0).strong_mm
    digits = strong / 10.0 ** math.floor(math.log10(strong) + 1e-9)
    assert round(digits, 6) in {1.0, 2.0, 5.0}


@pytest.mark.parametrize(
    ("px_per_mm", "mark", "words"),
    [(0.1, 2, "12"), (4.0, 2, "1/8"), (40.0, 12, "3/16"), (4.0, -24, "−1 1/2"), (4.0, 0, "0")],
)
def test_inch_figures_are_fractions(px_per_mm, mark, words):
    """Rulers in inches read as a tape does."""
    found = steps(px_per_mm, LengthUnit.INCH, fine_px=5.0, strong_px=64.0)
    fine_in = {0.1: 6, 4.0: 1 / 16, 40.0: 1 / 64}[px_per_mm]
    assert found.fine_mm == pytest.approx(fine_in * 25.4)
    assert found.figure(mark) == words


def test_marks_cover_the_range_and_no_more():
    """Every mark between two coordinates, ends included."""
    found = steps(1.0, LengthUnit.MM, fine_px=5.0, strong_px=64.0)
    assert (found.fine_mm, found.strong_every) == (10.0, 10)
    assert list(found.marks(-10.0, 25.0)) == [-1, 0, 1, 2]
    assert [found.is_strong(mark) for mark in (-10, -1, 0, 5, 10)] == [
        True,
        False,
        True,
        False,
        True,
    ]


def test_millimetre_figures_have_a_true_minus():
    """Negative coordinates bear the minus sign, not a hyphen."""
    found = steps(1.0, LengthUnit.MM, fine_px=5.0, strong_px=64.0)
    assert found.figure(-20) == "−200"
