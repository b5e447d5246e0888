"""Wind speeds as people write them."""

import pytest

from holeplacer.errors import InputError
from holeplacer.loads.speed import format_speed, parse_speed
from holeplacer.units import LengthUnit


@pytest.mark.parametrize(
    ("text", "m_s"),
    [
        ("115 mph", 51.4096),
        ("51 m/s", 51.0),
        ("180 km/h", 50.0),
        ("180kph", 50.0),
        ("100 ft/s", 30.48),
        ("100 kn", 51.4444),
        ("26,5 m/s", 26.5),
    ],
)
def test_units(text, m_s):
    """Each unit is worth its metres a second."""
    assert parse_speed(text) == pytest.approx(m_s, rel=1e-5)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("115", "has no unit"),
        ("0 mph", "is no wind speed"),
        ("-5 m/s", "is no wind speed"),
        ("900 mph", "at most 150 m/s"),
        ("fast", "is not a speed"),
    ],
)
def test_what_can_not_be_meant_is_refused(text, said):
    """No unit, no speed, or no wind of this world."""
    with pytest.raises(InputError, match=said):
        parse_speed(text)


def test_reading_in_both_unit_systems():
    """What was typed in miles an hour comes back so."""
    assert format_speed(parse_speed("115 mph"), LengthUnit.INCH) == "115 mph"
    assert format_speed(51.4096) == "51.4 m/s"
    assert format_speed(2.125) == "2.13 m/s"
