"""Quantities as people write them."""

import pytest

from holeplacer.errors import InputError
from holeplacer.loads.quantity import Quantity, decimals

WEIGHT = Quantity(noun="a weight", example="3 kg or 2 g", factors={"kg": 1.0, "g": 1e-3})


@pytest.mark.parametrize(
    ("text", "kg"),
    [
        ("3kg", 3.0),
        ("3 KG", 3.0),
        ("  .5 kg ", 0.5),
        ("0,125 kg", 0.125),
        ("1,5 kg", 1.5),
        ("1e3 g", 1.0),
        ("−2 kg", -2.0),
        ("+2. kg", 2.0),
    ],
)
def test_reads_what_people_write(text, kg):
    """Spaces, case, either decimal sign and a true minus are all read."""
    assert WEIGHT.value(text) == pytest.approx(kg)


def test_a_bare_number_is_refused_with_the_way_to_write_it():
    """The unit is asked for; nothing is assumed."""
    with pytest.raises(InputError, match=r"^crate: '3' has no unit; write it like 3 kg or 2 g\.$"):
        WEIGHT.value("3", field="crate")


def test_a_form_may_give_the_unit_of_a_bare_number():
    """What a form shows beside the field holds for a number without a unit, and only for that."""
    assert WEIGHT.value("3", bare="g") == pytest.approx(0.003)
    assert WEIGHT.value("3 kg", bare="g") == 3.0


def test_a_comma_of_two_readings_is_not_guessed():
    """One thousand or one: the person says which."""
    for text in ("1,000 kg", "12,500 kg", "1,000,000 kg"):
        with pytest.raises(InputError, match="thousands or decimals"):
            WEIGHT.value(text)


@pytest.mark.parametrize("text", ["", "kg", "3 lb", "three kg", "3 kg 2", "1e999 kg", "nan kg"])
def test_what_is_no_such_quantity_is_refused(text):
    """One sentence says what it isn't and how to write it."""
    with pytest.raises(InputError, match="is not a weight; write it like"):
        WEIGHT.value(text)


def test_a_very_long_text_is_refused_shortened():
    """A pasted page does not end up in the message."""
    with pytest.raises(InputError) as caught:
        WEIGHT.value("3" * 5000 + " kg")
    assert len(str(caught.value)) < 150


@pytest.mark.parametrize(
    ("value", "places", "text"),
    [(20.0, 2, "20"), (0.125, 2, "0.13"), (100.0, 0, "100"), (-0.001, 2, "0"), (-1.5, 1, "-1.5")],
)
def test_decimals_end_without_noughts(value, places, text):
    """A number is no longer than what it says."""
    assert decimals(value, places) == text
