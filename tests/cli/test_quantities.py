"""Quantities typed on the command line."""

import contextlib
import math

import click
import pytest
from hypothesis import given
from hypothesis import strategies as st

from holeplacer.cli import quantities


def converted(kind, text):
    return kind.convert(text, None, None)


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("300", 300),
        ("9.5 mm", 9.5),
        ('3/8"', 9.525),
        ("3/8", 9.525),
        ("1-1/2in", 38.1),
        ("2cm", 20),
    ],
)
def test_lengths_bear_their_unit(text, mm):
    """A bare number is mm, a bare fraction inches, anything else what it says."""
    assert converted(quantities.POSITIVE, text) == pytest.approx(mm)


@pytest.mark.parametrize(
    "text", ["", "x", "nan", "inf", "-3", "0", "1e9", "1/0", "9" * 10_000, "3 mm 4"]
)
def test_what_is_no_positive_length_is_refused(text):
    """Nonsense, nothing, less than nothing and more than a kilometre are refused in a sentence."""
    with pytest.raises(click.BadParameter) as caught:
        converted(quantities.POSITIVE, text)
    assert "\n" not in caught.value.message
    assert len(caught.value.message) < 200


def test_nothing_is_a_length_where_nothing_is_meant():
    """No ligament of its own is a choice, no width is none."""
    assert converted(quantities.NOT_NEGATIVE, "0") == 0
    assert converted(quantities.ANY, "-2.5 mm") == -2.5


@pytest.mark.parametrize(("text", "value"), [("2", 2), ("0.5", 0.5), ("1:8", 0.125), ("1/4", 0.25)])
def test_factors(text, value):
    """A factor is a number or one number to another."""
    assert converted(quantities.Factor(), text) == pytest.approx(value)


@given(st.text(max_size=12) | st.from_regex(r"[-+0-9.e:/]{1,12}", fullmatch=True))
def test_any_text_is_a_usable_factor_or_refused(text):
    """No text gives nothing, infinity or a hang."""
    with contextlib.suppress(click.BadParameter):
        assert 1e-6 <= converted(quantities.Factor(), text) <= 1e6


@pytest.mark.parametrize("text", ["1e999999999", "nan", "1:0", "0", "-1", "1:1e-99"])
def test_useless_factors_are_refused(text):
    """Nothing, infinity and less than nothing are no factors."""
    with pytest.raises(click.BadParameter):
        converted(quantities.Factor(), text)


def test_angles_are_degrees():
    """Degrees outside, radians inside; more than a turn is a mistake."""
    assert converted(quantities.Angle(), "-90") == pytest.approx(-math.pi / 2)
    assert converted(quantities.Angle(), "12.5°") == pytest.approx(math.radians(12.5))
    for text in ("361", "nan", "inf", "left"):
        with pytest.raises(click.BadParameter):
            converted(quantities.Angle(), text)


def test_a_name_or_a_length():
    """A name in any case of letters, or a length in its place; both ways are kept apart."""
    kind = quantities.Named(("close", "loose"))
    assert converted(kind, "Loose") == quantities.NameOrLength("loose", None)
    assert converted(kind, "1/64in").mm == pytest.approx(0.396875)
    assert converted(kind, quantities.NameOrLength(None, 1.0)).mm == 1.0
    for text in ("tight", "-1", ""):
        with pytest.raises(click.BadParameter, match="neither of close, loose, nor a length"):
            converted(kind, text)


def test_a_metal_by_any_of_its_names():
    """American spelling and alloy numbers lead to the plan's name; others are refused."""
    assert converted(quantities.MetalName(), "aluminum") == "aluminium"
    assert converted(quantities.MetalName(), "304") == "stainless"
    with pytest.raises(click.BadParameter, match="no metal 'tin'; take one of: steel"):
        converted(quantities.MetalName(), "tin")
