"""Pressures as people write them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from holeplacer.errors import InputError
from holeplacer.loads.pressure import PA_PER_PSF, format_pressure, parse_pressure
from holeplacer.units import LengthUnit


@pytest.mark.parametrize(
    ("text", "pa"),
    [
        ("20 psf", 957.6051796),
        ("20psf", 957.6051796),
        ("20 lb/ft²", 957.6051796),
        ("20 lb/sq ft", 957.6051796),
        ("1 kPa", 1000.0),
        ("0,958 kPa", 958.0),
        ("958 Pa", 958.0),
        ("958 N/m2", 958.0),
        ("0.001 N/mm2", 1000.0),
        ("0.001 N/mm²", 1000.0),
        ("0.001 MPa", 1000.0),
        ("1 psi", 6894.757293),
        ("5 mbar", 500.0),
        ("10 kgf/m2", 98.0665),
        ("0 Pa", 0.0),
    ],
)
def test_units(text, pa):
    """Each unit is worth its pascals (exact pound-force and foot)."""
    assert parse_pressure(text) == pytest.approx(pa, rel=1e-9)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("20", "'20' has no unit; write it like 20 psf"),
        ("-20 psf", "negative"),
        ("20 N/mm2", "more than any wind"),
        ("20 mPa", "thousandths of a pascal"),
        ("20 mm", "is not a pressure"),
        ("windy", "is not a pressure"),
    ],
)
def test_what_can_not_be_meant_is_refused(text, said):
    """One sentence names the field, what is wrong, and what to do."""
    with pytest.raises(InputError, match=said) as caught:
        parse_pressure(text, field="pressure off the wall")
    assert str(caught.value).startswith("pressure off the wall: ")
    assert caught.value.remedy


@pytest.mark.parametrize(
    ("pa", "metric", "inch"),
    [
        (957.605, "958 Pa", "20 psf"),
        (1250.0, "1.25 kPa", "26.1 psf"),
        (999.7, "1 kPa", "20.9 psf"),
        (45.25, "45.3 Pa", "0.95 psf"),
        (100_000.0, "100 kPa", "2088.5 psf"),
        (0.0, "0 Pa", "0 psf"),
    ],
)
def test_reading_in_both_unit_systems(pa, metric, inch):
    """Pounds on a square foot where inches are shown, else pascals."""
    assert format_pressure(pa) == metric
    assert format_pressure(pa, LengthUnit.INCH) == inch


@given(st.floats(10.0, 99_000.0), st.sampled_from(LengthUnit))
def test_what_is_shown_can_be_typed(pa, unit):
    """A shown pressure reads back within its rounding."""
    assert parse_pressure(format_pressure(pa, unit)) == pytest.approx(pa, rel=0.03, abs=0.01)


def test_a_pound_on_a_square_foot():
    """The usual figure, 47.880 Pa."""
    assert pytest.approx(47.8803, abs=5e-5) == PA_PER_PSF
