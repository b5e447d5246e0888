"""Stock."""

import pytest

from holeplacer.errors import InputError
from holeplacer.sheet import stock
from holeplacer.sheet.stock import Stock
from holeplacer.units import LengthUnit


@pytest.mark.parametrize(
    ("text", "width", "height"),
    [
        ("48 x 48 in", 1219.2, 1219.2),
        ('47 1/8" x 48"', 1196.975, 1219.2),
        ("47 1/8 × 48", 1196.975, 1219.2),
        ("48 by 47-1/8", 1219.2, 1196.975),
        ("4 x 8 ft", 1219.2, 2438.4),
        ("1250x2500", 1250.0, 2500.0),
        ("1.25 m * 2500 mm", 1250.0, 2500.0),
    ],
)
def test_sizes_as_people_write_them(text, width, height):
    """One unit at the end is that of both sides; a fraction is inches."""
    found = stock.parse_stock(text)
    assert (found.width_mm, found.height_mm) == pytest.approx((width, height))
    assert (found.measured, found.nominal, found.count) == (True, "", None)


def test_a_count_and_a_nominal_size():
    """How many there are, and what they were bought as."""
    found = stock.parse_stock("3 of 48 x 48 in", measured=False)
    assert found == Stock(1219.2, 1219.2, False, "48 x 48 in", 3)


def test_a_bare_size_is_in_the_persons_unit():
    """Inches where inches are shown."""
    assert stock.parse_stock("48 x 48", bare=LengthUnit.INCH).width_mm == pytest.approx(1219.2)


@pytest.mark.parametrize(
    "text", ["", "48", "48 x", "x", "a x b", "0 x 5", "-4 x 5", "1 x 2 x 3", "0 of 4 x 4", "9" * 99]
)
def test_what_is_no_sheet_is_refused(text):
    """One sentence says how to write it."""
    with pytest.raises(InputError):
        stock.parse_stock(text)
