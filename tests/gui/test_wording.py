"""Sentences of the core are shown in the unit the person chose."""

import pytest

from holeplacer.gui.wording import in_unit
from holeplacer.units import LengthUnit

SENTENCE = "Hole 3: edge distance 6.35 mm (1.5 × 12.7 mm stud), at x -25.4, y 50.8 mm"


def test_inches_everywhere():
    """Every length and both coordinates are converted, factors and numbers are not."""
    shown = in_unit(SENTENCE, LengthUnit.INCH)
    assert shown == "Hole 3: edge distance 1/4 in (1.5 × 1/2 in stud), at x -1 in, y 2 in"


def test_millimetres_stay():
    """In millimetres nothing is touched."""
    assert in_unit(SENTENCE, LengthUnit.MM) == SENTENCE


@pytest.mark.parametrize("text", ["7 holes", "2.5 mm² of metal", "M6 stud", "120.5 mmol"])
def test_what_is_no_length_stays(text):
    """Only lengths are lengths."""
    assert "in" not in in_unit(text, LengthUnit.INCH).replace("metal", "")
