"""Lengths as people write them."""

import contextlib
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer import units
from holeplacer.errors import InputError
from holeplacer.units import LengthUnit

IN = 25.4


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("9.5 mm", 9.5),
        ("9,5mm", 9.5),
        ("12", 12.0),
        (".5", 0.5),
        ("5.", 5.0),
        ('3/8"', 3 / 8 * IN),
        ("3/8", 3 / 8 * IN),
        ("3/8 in", 3 / 8 * IN),
        ("1 1/2 in", 1.5 * IN),
        ('1-1/2"', 1.5 * IN),
        ("1 1/2", 1.5 * IN),
        ("½ in", 0.5 * IN),
        ("1½″", 1.5 * IN),
        ("2⅜", 2.375 * IN),
        ("9⁄32 in", 9 / 32 * IN),
        ("6'", 6 * 304.8),
        ("6' 2 1/2\"", 74.5 * IN),
        ("6 ft 2 in", 74 * IN),
        ("6' 2", 74 * IN),
        ("5’ 3”", 63 * IN),
        ("2 cm", 20.0),
        ("1.2 m", 1200.0),
        ("3 inches", 3 * IN),
        ("10 millimetres", 10.0),
        ("  7 MM ", 7.0),
        ("-3 mm", -3.0),
        ("−1/2 in", -0.5 * IN),
        ("+4", 4.0),
        ("0", 0.0),
    ],
)
def test_lengths_as_written(text, mm):
    """Metric, inches with fractions, feet and inches; a bare fraction is inches."""
    assert units.parse_length(text) == pytest.approx(mm, rel=1e-12)


def test_a_bare_number_takes_the_unit_asked():
    """Where the screen shows inches, a number is inches."""
    assert units.parse_length("2", bare=LengthUnit.INCH) == 2 * IN
    assert units.parse_length("2 mm", bare=LengthUnit.INCH) == 2.0


@pytest.mark.parametrize(
    "text",
    ["", "  ", "mm", "a", "1/0", "1//2", "1 2", "3 mm 4 mm", "1e3", "nan", "inf", "--3", "5 kg",
     "1 1/2 1/2", "9" * 400, "2000000", "3/8/2", "6' 2' 1\"", "6' 20 mm", "-", '"', "½½"],
)  # fmt: skip
def test_what_is_no_length_is_refused(text):
    """One sentence that names the field, quotes the text and shows how to write it."""
    with pytest.raises(InputError) as caught:
        units.parse_length(text, field="spacing")
    sentence = str(caught.value)
    assert sentence.startswith("spacing: ")
    assert "write it like" in sentence
    assert len(sentence) < 200


@pytest.mark.parametrize(
    ("mm", "unit", "text"),
    [
        (12.7, LengthUnit.MM, "12.7 mm"),
        (12.0, LengthUnit.MM, "12 mm"),
        (9.525, LengthUnit.MM, "9.53 mm"),
        (300.04, LengthUnit.MM, "300 mm"),
        (-0.001, LengthUnit.MM, "0 mm"),
        (38.1, LengthUnit.INCH, "1 1/2 in"),
        (9.525, LengthUnit.INCH, "3/8 in"),
        (7.144, LengthUnit.INCH, "9/32 in"),
        (25.4, LengthUnit.INCH, "1 in"),
        (0.0, LengthUnit.INCH, "0 in"),
        (-38.1, LengthUnit.INCH, "-1 1/2 in"),
        (9.7, LengthUnit.INCH, "0.382 in"),
    ],
)
def test_lengths_as_shown(mm, unit, text):
    """Fractions where they are true within 0.05 mm, decimals else."""
    assert units.format_length(mm, unit) == text


@settings(max_examples=150, deadline=None)
@given(st.floats(-9e5, 9e5), st.sampled_from(LengthUnit))
def test_what_is_shown_can_be_typed_again(mm, unit):
    """Reading back what is shown is off by no more than showing rounds."""
    shown = units.format_length(mm, unit)
    again = units.parse_length(shown)
    assert abs(again - mm) <= 0.0501
    assert units.parse_length(units.format_length(again, unit)) == pytest.approx(again, abs=0.0501)


@settings(max_examples=150, deadline=None)
@given(st.text(max_size=12))
def test_any_text_is_a_length_or_an_input_error(text):
    """No text brings anything but a finite number or one clear error."""
    with contextlib.suppress(InputError):
        assert math.isfinite(units.parse_length(text))


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 90), st.integers(1, 63), st.sampled_from([2, 4, 8, 16, 32, 64]))
def test_fractions_are_exact(whole, over, under):
    """Sixty-fourths and coarser are read without rounding."""
    text = f"{whole} {over}/{under} in"
    assert units.parse_length(text) == pytest.approx((whole + over / under) * IN, rel=1e-15, abs=0)


def test_drawing_units():
    """A pixel is 1/96 in, a point 1/72, as style sheets define them."""
    assert units.DRAWING_UNITS_MM["px"] * 96 == pytest.approx(IN)
    assert units.DRAWING_UNITS_MM["pt"] * 72 == pytest.approx(IN)
    assert units.DRAWING_UNITS_MM["ft"] == pytest.approx(12 * units.DRAWING_UNITS_MM["in"])


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        (units.format_way(14_590), "14.59 m"),
        (units.format_way(14_590, units.LengthUnit.INCH), "47.9 ft"),
        (units.format_area(229_187), "0.229 m²"),
        (units.format_area(229_187, units.LengthUnit.INCH), "2.47 sq ft"),
        (units.format_mass(2.73), "2.73 kg"),
        (units.format_mass(2.73, units.LengthUnit.INCH), "6.02 lb"),
    ],
)
def test_large_measures_follow_the_unit(text, shown):
    """Ways, areas and masses are shown in metres and kilograms or in feet and pounds."""
    assert text == shown


def test_a_small_length_is_never_shown_as_nothing():
    """Where the finest fraction would swallow a length, decimals show it."""
    assert units.format_length(0.02, units.LengthUnit.INCH) == "0.0008 in"
    assert units.format_length(1.519, units.LengthUnit.INCH) == "0.0598 in"
