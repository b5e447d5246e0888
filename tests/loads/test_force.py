"""Forces as people write them."""

import pytest

from holeplacer.errors import InputError
from holeplacer.loads.force import format_force, parse_force
from holeplacer.units import LengthUnit


@pytest.mark.parametrize(
    ("text", "newtons"),
    [("200 lb", 889.6443), ("200 lbf", 889.6443), ("0.9 kN", 900.0), ("50 kg", 490.3325)],
)
def test_units(text, newtons):
    """Each unit is worth its newtons; a kilogram is its weight."""
    assert parse_force(text) == pytest.approx(newtons, rel=1e-6)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("200", "has no unit"),
        ("0 N", "is no anchor's force"),
        ("-3 lb", "is no anchor's force"),
        ("5000 kN", "at most 1000 kN"),
        ("strong", "is not a force"),
    ],
)
def test_what_can_not_be_meant_is_refused(text, said):
    """No unit, nothing, or more than any anchor carries."""
    with pytest.raises(InputError, match=said):
        parse_force(text, field="allowable tension")


@pytest.mark.parametrize(
    ("newtons", "metric", "inch"),
    [(889.6443, "890 N", "200 lb"), (1250.0, "1.25 kN", "281 lb"), (12.34, "12.3 N", "2.8 lb")],
)
def test_reading_in_both_unit_systems(newtons, metric, inch):
    """Pounds where inches are shown, else newtons."""
    assert format_force(newtons) == metric
    assert format_force(newtons, LengthUnit.INCH) == inch
