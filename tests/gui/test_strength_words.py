"""Stresses, load effects and statuses in words."""

import math

import pytest

from holeplacer.gui import strength_words as words
from holeplacer.resistance.utilisation import FROM_MEMORY, NOT_ENTERED
from holeplacer.units import LengthUnit


def test_stress_in_either_unit():
    """1 ksi is 6.895 MPa."""
    assert words.format_stress(82.04, LengthUnit.MM) == "82 MPa"
    assert words.format_stress(689.476, LengthUnit.INCH) == "100 ksi"


@pytest.mark.parametrize(
    ("value", "of", "said"),
    [
        (19.7, "N", "19.7 N"), (3.71, "mm", "3.71 mm"), (82.0, "MPa", "82 MPa"),
        (None, "N", NOT_ENTERED), (math.inf, "N", "∞"), (0.5, "", "0.5"),
        (1500.0, "Nmm", "1.5 N m"),
    ],
)  # fmt: skip
def test_effects_bear_their_unit(value, of, said):
    """What is not known says whom to ask."""
    assert words.format_effect(value, of, LengthUnit.MM) == said


def test_a_share_above_one_never_reads_as_one():
    """1.001 fails, and looks so."""
    assert words.share_words(1.001) == "1.01"
    assert words.share_words(1.0) == "1.00"
    assert words.share_words(0.617) == "0.62"
    assert words.share_words(None) == "not known"
    assert words.share_words(math.inf) == "∞"


@pytest.mark.parametrize(
    ("status", "said"),
    [
        ("M", FROM_MEMORY), ("P (combination); M (wind)", FROM_MEMORY),
        ("P", "read on a public page"), ("E", "entered by you"), ("R", "recomputed"),
        ("", FROM_MEMORY),
    ],
)  # fmt: skip
def test_memory_is_always_told(status, said):
    """An M anywhere, or no status, is from memory."""
    assert words.status_words(status) == said


def test_the_worst_that_is_known_and_what_is_not(strength):
    """Not known is named apart, never taken for a pass."""
    worst = words.worst_known(strength).utilisation.utilisation
    shares = [state.utilisation.utilisation for state in strength.states]
    assert worst == max(share for share in shares if share is not None)
    missing = words.not_known(strength)
    assert len(set(missing)) == len(missing)
    assert bool(missing) == (None in shares)


def test_inputs_are_told_with_unit_and_meaning(strength):
    """One after another."""
    item = strength.worst.utilisation
    said = words.inputs_words(item, LengthUnit.MM)
    for given in item.inputs:
        assert f"{given.symbol} = " in said
        assert f"({given.meaning})" in said
