"""Clearance holes as printed.

Sources: ISO 273 (P), ASME B18.2.8 (normal and loose P, close M: from memory, verify).
"""

import pytest

from holeplacer.standoffs import clearance_hole

ROWS = {row.stud: row for row in clearance_hole.clearance_holes()}


@pytest.mark.parametrize(
    ("stud", "fine", "medium", "coarse"),
    [("M4", 4.3, 4.5, 4.8), ("M6", 6.4, 6.6, 7.0), ("M8", 8.4, 9.0, 10.0), ("M16", 17, 17.5, 18.5)],
)
def test_metric_rows(stud, fine, medium, coarse):
    """ISO 273: fine, medium, coarse."""
    row = ROWS[stud]
    assert (row.close_mm, row.normal_mm, row.loose_mm) == (fine, medium, coarse)


@pytest.mark.parametrize(
    ("stud", "close", "normal", "loose"),
    [
        ("#10", 0.206, 0.221, 0.238),
        ("1/4 in", 0.266, 0.281, 0.297),
        ("3/8 in", 0.391, 0.406, 0.422),
        ("1/2 in", 0.531, 0.562, 0.609),
    ],
)
def test_inch_rows(stud, close, normal, loose):
    """ASME B18.2.8; not the popular chart, which has 1/2 at .531 and #10 at .201 for normal."""
    row = ROWS[stud]
    inches = [mm / 25.4 for mm in (row.close_mm, row.normal_mm, row.loose_mm)]
    assert inches == pytest.approx([close, normal, loose], abs=3e-5)


def test_number_screws():
    """A number screw's diameter is 0.060 in plus 0.013 in by number."""
    assert ROWS["#10"].stud_mm == pytest.approx(0.190 * 25.4)
    assert ROWS["#4"].stud_mm == pytest.approx(0.112 * 25.4)


def test_fits_are_in_order():
    """Close is under normal under loose, and all pass the stud."""
    for row in ROWS.values():
        assert row.stud_mm < row.close_mm < row.normal_mm < row.loose_mm
        assert row.source
        assert row.status
