"""Sheet gauges against the formulas that define them.

Sources: Manufacturers' Standard gauge for steel sheet (thickness = weight / 41.82 lb/ft2 per in);
galvanized sheet gauge (steel sheet weight + 2.5 oz/ft2); Brown & Sharpe (AWG). Status: table rows
read on public pages (P), odd gauges recomputed here (R).
"""

import pytest

from holeplacer.sheet import gauge

LB_FT2_PER_IN = 41.82
NUMBERS = range(7, 27)


@pytest.mark.parametrize("number", NUMBERS)
def test_steel_thickness_from_weight(number):
    """Thickness is nominal weight by 41.82 lb/ft2 per inch."""
    row = gauge.gauge("steel", number)
    assert row.thickness_in == pytest.approx(row.nominal_lb_ft2 / LB_FT2_PER_IN, abs=6e-5)


@pytest.mark.parametrize("number", NUMBERS)
def test_galvanized_carries_two_and_a_half_ounces(number):
    """Galvanized weight is the steel's plus 2.5 oz/ft2; its thickness is total."""
    ounces = gauge.gauge("steel", number).nominal_lb_ft2 * 16 + 2.5
    row = gauge.gauge("galvanized", number)
    assert row.nominal_lb_ft2 == pytest.approx(ounces / 16, abs=6e-4)
    assert row.thickness_in == pytest.approx(ounces / 16 / LB_FT2_PER_IN, abs=6e-5)


@pytest.mark.parametrize("number", NUMBERS)
def test_aluminium_is_brown_and_sharpe(number):
    """Thickness is 0.005 in x 92^((36 - n)/39)."""
    row = gauge.gauge("aluminium", number)
    assert row.thickness_in == pytest.approx(0.005 * 92 ** ((36 - number) / 39), abs=6e-5)


@pytest.mark.parametrize(
    ("number", "inches"),
    [
        (7, 3 / 16),
        (10, 9 / 64),
        (11, 1 / 8),
        (12, 7 / 64),
        (14, 5 / 64),
        (16, 1 / 16),
        (20, 3 / 80),
    ],
)
def test_stainless_is_the_old_standard(number, inches):
    """The old standard gauge is made of fractions of an inch."""
    assert gauge.gauge("stainless", number).thickness_in == pytest.approx(inches, abs=6e-5)


def test_printed_rows():
    """Rows as printed: 16 gauge in four metals, 7 gauge galvanized only computed."""
    printed = {"steel": 0.0598, "galvanized": 0.0635, "stainless": 0.0625, "aluminium": 0.0508}
    for metal, inches in printed.items():
        row = gauge.gauge(metal, 16)
        assert (row.thickness_in, row.status) == (inches, "P")
    assert gauge.gauge("galvanized", 7).status == "R"
