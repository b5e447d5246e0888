"""Utilisation."""

import math

import pytest

from holeplacer.errors import InputError
from holeplacer.resistance import bending, utilisation
from holeplacer.resistance.sheet_grade import SheetGrade
from holeplacer.resistance.utilisation import Given


def made(demand, resistance, status="P"):
    return utilisation.of(
        "bending",
        demand,
        resistance,
        "MPa",
        formula="fb <= Fy/Ω",
        inputs=[Given("fb", demand, "MPa", "stress")],
        source="a standard",
        status=status,
    )


def test_ratio_of_demand_and_resistance():
    """Half the resistance is a utilisation of 0.5, and passes."""
    half = made(50.0, 100.0)
    assert half.utilisation == 0.5
    assert half.passes is True
    assert made(101.0, 100.0).passes is False


def test_missing_resistance_is_neither_pass_nor_fail():
    """What nobody entered leaves the utilisation open."""
    missing = made(50.0, None)
    assert missing.utilisation is None
    assert missing.passes is None


def test_zero_resistance_fails_under_any_load():
    """No resistance under load is infinitely used; under none it is not used."""
    assert made(1e-9, 0.0).utilisation == math.inf
    assert made(1e-9, 0.0).passes is False
    assert made(0.0, 0.0).utilisation == 0.0


@pytest.mark.parametrize("demand", [-1.0, math.nan])
def test_a_demand_is_a_magnitude(demand):
    """A negative load effect is refused in one sentence."""
    with pytest.raises(InputError, match=r"^bending: the load effect is .* MPa; give its magn"):
        made(demand, 1.0)


def test_from_memory_is_said():
    """Status M brings its caveat, others none."""
    assert made(1.0, 2.0, "M").caveat == "from memory, verify"
    assert made(1.0, 2.0, "P").caveat == ""


def test_another_demand_keeps_the_rest():
    """The same resistance serves another load."""
    first = made(50.0, 100.0)
    second = first.under(80.0)
    assert second.utilisation == 0.8
    assert second.inputs == (Given("fb", 80.0, "MPa", "stress"),)
    assert second.formula == first.formula
    assert made(1.0, None).under(2.0).utilisation is None
    with pytest.raises(InputError, match="the load effect is -1 MPa"):
        first.under(-1.0)


def test_another_demand_needs_the_demand_among_the_inputs():
    """Where several load effects are joined no single one can take their place."""
    joined = bending.check(SheetGrade("steel", "asd", 1.5, 228.0, 359.0), 30.0, 40.0)
    with pytest.raises(ValueError, match="its first input is not its demand"):
        joined.under(10.0)
    again = joined.under(50.0, 30.0, 23.1)
    assert [item.value for item in again.inputs][:2] == [30.0, 23.1]
    assert again.inputs[2:] == joined.inputs[2:]
    assert again.demand == 50.0


@pytest.mark.parametrize(
    ("statuses", "worst"),
    [
        (("P", "R"), "R"),
        (("P", "E", "R"), "E"),
        (("P", "M"), "M"),
        (("P (E, G); M (nu)",), "M"),
        (("P; M (formulas)",), "M"),
        (("sources differ: P (both)",), "P"),
        ((), "M"),
    ],
)
def test_the_least_trusted_status_counts(statuses, worst):
    """M before E before R before P; a status with parts counts by its worst letter."""
    assert utilisation.worst_status(*statuses) == worst


def test_what_is_not_known_comes_before_what_passes():
    """Failing first, then not known, then passing."""
    fails, open_, passes = made(2.0, 1.0), made(1.0, None), made(1.0, 1.0)
    assert utilisation.governing([passes, open_, fails]) is fails
    assert utilisation.governing([passes, open_]) is open_
    assert utilisation.governing([passes]) is passes
    assert utilisation.governing([]) is None


def test_notes_are_joined_without_the_empty():
    """Notes stand in one line."""
    assert utilisation.joined("", "one", "", "two") == "one; two"
