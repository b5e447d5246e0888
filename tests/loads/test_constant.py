"""Single coefficients of the wind standards."""

import pytest

from holeplacer import resources
from holeplacer.loads.constant import constant


def test_a_coefficient_comes_with_its_source():
    """The step shows value, note, clause and status of the table's row."""
    shown = constant("asce7", "kd").step("Kd", "directionality")
    assert (shown.symbol, shown.value) == ("Kd", 0.85)
    assert shown.meaning.startswith("directionality: ")
    assert shown.source == "ASCE 7 Table 26.6-1"
    assert shown.status.startswith("P")
    assert not shown.entered


def test_lengths_turn_to_millimetres():
    """Feet and metres, by their row's unit."""
    assert constant("asce7", "sign_gap").mm == pytest.approx(914.4)
    assert constant("en1991", "greatest_height").mm == pytest.approx(200_000)


def test_lengths_read_in_both_systems():
    """The standard's own unit first, the other in brackets."""
    assert constant("asce7", "greatest_roof_height").length == "60 ft (18.3 m)"
    assert constant("en1991", "greatest_height").length == "200 m (656 ft)"


def test_a_missing_name_is_a_fault_of_the_program():
    """No coefficient is made up."""
    with pytest.raises(KeyError, match="asce7 luck"):
        constant("asce7", "luck")


def test_no_coefficient_stands_twice():
    """Each name of each standard has one row."""
    names = [(row["standard"], row["name"]) for row in resources.table("wind_constants")]
    assert len(names) == len(set(names))
