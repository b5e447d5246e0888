"""Temperatures as people write them."""

import pytest

from holeplacer.errors import InputError
from holeplacer.loads.degrees import format_change, format_temperature, parse_temperature
from holeplacer.units import LengthUnit


@pytest.mark.parametrize(
    ("text", "celsius"),
    [("-20 C", -20.0), ("−20 °C", -20.0), ("14 °F", -10.0), ("212F", 100.0), ("293.15 K", 20.0)],
)
def test_units(text, celsius):
    """Celsius, Fahrenheit and kelvin, with or without the degree sign."""
    assert parse_temperature(text) == pytest.approx(celsius)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("20", "has no unit"),
        ("400 F", "is no temperature of a sign"),
        ("20 K", "enter -90 °C to 150 °C"),
        ("hot", "is not a temperature"),
    ],
)
def test_what_can_not_be_meant_is_refused(text, said):
    """No unit, or what no wall has known."""
    with pytest.raises(InputError, match=said):
        parse_temperature(text)


def test_reading_in_both_unit_systems():
    """A temperature moves its nought, a difference doesn't."""
    assert format_temperature(20.0) == "20 °C"
    assert format_temperature(20.0, LengthUnit.INCH) == "68 °F"
    assert format_change(40.0) == "40 K"
    assert format_change(40.0, LengthUnit.INCH) == "72 °F"


def test_a_form_may_give_the_unit():
    """A bare number takes the unit that the form shows."""
    assert parse_temperature("68", bare="f") == pytest.approx(20.0)
