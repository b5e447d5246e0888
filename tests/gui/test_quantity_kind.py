"""How figures of each kind are typed and shown."""

import pytest

from holeplacer.errors import InputError
from holeplacer.gui import quantity_kind as kinds
from holeplacer.units import LengthUnit


@pytest.mark.parametrize(
    ("kind", "text", "value"),
    [
        (kinds.PRESSURE, "1 kPa", 1000.0),
        (kinds.SPEED, "50", 50.0),
        (kinds.FORCE, "0.9 kN", 900.0),
        (kinds.TEMPERATURE, "-20", -20.0),
        (kinds.AREA, "0.5 m2", 5e5),
        (kinds.NUMBER, "0,85", 0.85),
    ],
)
def test_typed_in_millimetres(kind, text, value):
    """A unit that the form shows may be left out; that of a pressure may not."""
    assert kind.read(text, "figure", LengthUnit.MM) == pytest.approx(value)


def test_bare_numbers_follow_the_unit_shown():
    """115 is miles an hour beside inches."""
    assert kinds.SPEED.read("115", "speed", LengthUnit.INCH) == pytest.approx(51.4096)
    assert kinds.TEMPERATURE.read("14", "t", LengthUnit.INCH) == pytest.approx(-10.0)


@pytest.mark.parametrize(
    ("kind", "text"),
    [
        (kinds.PRESSURE, "20"), (kinds.PRESSURE, "-1 kPa"), (kinds.AREA, "0 m2"),
        (kinds.NUMBER, "much"), (kinds.NUMBER, "inf"), (kinds.SPEED, "0"),
    ],
)  # fmt: skip
def test_what_can_not_be_meant_is_one_sentence(kind, text):
    """It names the figure."""
    with pytest.raises(InputError) as caught:
        kind.read(text, "Kz", LengthUnit.MM)
    assert "Kz" in str(caught.value)


def test_shown_and_read_back():
    """What is shown can be typed again."""
    for kind, value in ((kinds.PRESSURE, 1250.0), (kinds.AREA, 2.5e5), (kinds.NUMBER, 0.85)):
        for unit in LengthUnit:
            again = kind.read(kind.show(value, unit), "figure", unit)
            assert again == pytest.approx(value, rel=0.01)


def test_feeds_and_times_are_shown_and_read_back():
    """In the unit of the shop; nothing that can't be meant."""
    assert kinds.FEED.show(2540.0, LengthUnit.INCH) == "100 in/min"
    assert kinds.FEED.read("2.5 m/min", "feed", LengthUnit.MM) == 2500.0
    assert kinds.FEED.read("100", "feed", LengthUnit.INCH) == pytest.approx(2540.0)
    assert kinds.DURATION.read("0.8", "pierce", LengthUnit.MM) == 0.8
    assert kinds.DURATION.show(0.8, LengthUnit.INCH) == "0.8 s"
    for kind, text in ((kinds.FEED, "0 mm/min"), (kinds.DURATION, "-1 s"), (kinds.FEED, "3 kg")):
        with pytest.raises(InputError):
            kind.read(text, "figure", LengthUnit.MM)
