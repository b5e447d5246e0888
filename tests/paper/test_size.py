"""Paper sizes."""

import pytest

from holeplacer.errors import InputError
from holeplacer.paper import size


def test_sizes_are_those_of_their_standards():
    """A4 and A3 of ISO 216, sizes A and B in inches."""
    assert (size.paper_size("a4").width_mm, size.paper_size("A4").height_mm) == (210.0, 297.0)
    assert size.paper_size("A3").width_mm == 297.0
    letter, tabloid = size.paper_size("Letter"), size.paper_size("tabloid")
    assert (letter.width_mm / 25.4, letter.height_mm / 25.4) == pytest.approx((8.5, 11.0))
    assert (tabloid.width_mm / 25.4, tabloid.height_mm / 25.4) == pytest.approx((11.0, 17.0))


def test_every_sheet_stands_upright_and_can_lie():
    """The shorter side comes first; on its side it is the other way round."""
    for paper in size.paper_sizes():
        assert paper.width_mm < paper.height_mm
        assert paper.landscape.width_mm == paper.height_mm


def test_rolls_are_wider_than_sheets():
    """Each roll's name states its width."""
    for name, width in size.roll_widths():
        figure, unit = name.split()
        assert width == pytest.approx(float(figure) * (25.4 if unit == "in" else 1.0))


def test_an_unknown_paper_is_refused_with_those_there_are():
    """One sentence that names them."""
    with pytest.raises(InputError, match=r"no paper 'A9'.*letter, A4"):
        size.paper_size("A9")


def test_the_longest_page_is_two_hundred_inches():
    """14 400 points."""
    assert pytest.approx(200 * 25.4) == size.LONGEST_MM
