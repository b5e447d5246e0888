"""What can't be divided."""

import pytest
from shapely.geometry import box

from holeplacer.errors import InputError
from holeplacer.plan.hole import Hole
from holeplacer.seams import choice


def told(here):
    with pytest.raises(InputError) as caught:
        choice.choose(here.plan, here.outline, here.axis)
    sentence = str(caught.value)
    assert sentence.count(". ") == 0
    assert sentence.endswith(".")
    return sentence


def test_no_sheet_is_told(sign, shapes):
    """Nothing is guessed."""
    assert "no sheet is given" in told(sign(shapes["bar"], None))


def test_a_sheet_that_is_all_margin_is_told(sign, shapes):
    """The margin is named."""
    assert "margin of 60 mm" in told(sign(shapes["bar"], 100, margin_mm=60.0))


def test_a_stroke_wider_than_the_sheet_is_told(sign):
    """With both figures."""
    sentence = told(sign(box(0, 0, 900, 200), 130))
    assert "200 mm wide is wider than the sheet (120 × 120 mm usable)" in sentence


def test_holes_that_leave_no_room_are_named(sign):
    """A pattern of holes larger than the sheet."""
    holes = tuple(Hole(n, 20.0 * n, 0.0, 6.0) for n in range(1, 15))
    sentence = told(sign(box(0, -10, 300, 10), 130, holes=holes, seam_clear_mm=15.0))
    assert "holes 1, 2, 3" in sentence
    assert "15 mm from every hole" in sentence
    assert "move a hole" in sentence


def test_no_place_for_a_seam_is_told(sign):
    """A short wide bar whose ends take all the room."""
    sentence = told(sign(box(0, -10, 170, 10), 130, seam_clear_mm=90.0))
    assert "no seam has room 90 mm" in sentence
