"""Standoff, fit and hole from the command line."""

import click
import pytest

from holeplacer.cli import hardware
from holeplacer.cli.quantities import NameOrLength
from holeplacer.plan.plan import StandoffChoice

NORMAL = StandoffChoice()


def test_nothing_given_changes_nothing(given_nothing):
    """The plan's hardware stays, whatever finish it gets."""
    assert hardware.hardware(NORMAL, given_nothing, 0.1) is NORMAL


def test_a_fit_alone_makes_the_hole(given_nothing):
    """The class's hole for the stud, and the finish on both its sides."""
    loose = given_nothing | {"fit": NameOrLength("loose", None)}
    found = hardware.hardware(NORMAL, loose, 0.1)
    assert (found.fit, found.name, found.stud_mm) == ("loose", "own", 6.35)
    assert found.hole_mm == pytest.approx(7.544 + 0.2)


def test_a_length_as_fit_is_hole_less_stud(given_nothing):
    """An entered clearance is kept in the plan."""
    found = hardware.hardware(NORMAL, given_nothing | {"fit": NameOrLength(None, 0.5)}, 0.0)
    assert (found.fit, found.clearance_mm) == ("entered", 0.5)
    assert found.hole_mm == pytest.approx(6.85)


def test_an_entered_hole_comes_before_the_fit(given_nothing):
    """With both given the hole is the one given, and the fit what it is held to."""
    given = given_nothing | {"hole": 9.0, "fit": NameOrLength("close", None)}
    found = hardware.hardware(NORMAL, given, 0.0)
    assert (found.hole_mm, found.fit, found.stud_mm) == (9.0, "close", 8.0)


def test_every_part_reaches_the_plan(given_nothing):
    """Each part given by hand stands in the plan, and the size is one's own."""
    given = given_nothing | {
        "standoff": "25 mm, M6 stud", "stud_material": "stainless", "head": "hex",
        "washer_behind": 20.0, "bearing": 12.0, "projection": 60.0, "washer": 18.0,
    }  # fmt: skip
    found = hardware.hardware(NORMAL, given, 0.0)
    assert (found.name, found.stud_mm, found.stud_material) == ("own", 6.0, "stainless")
    assert (found.head, found.washer_behind_mm, found.pressed_mm) == ("hex", 20.0, 12.0)
    assert (found.projection_mm, found.washer_mm) == (60.0, 18.0)


def test_a_named_standoff_keeps_the_fit(given_nothing):
    """Other hardware does not change how freely its studs are wanted to pass."""
    present = StandoffChoice(fit="loose")
    found = hardware.hardware(present, given_nothing | {"standoff": "25 mm, M6 stud"}, 0.0)
    assert (found.fit, found.hole_mm) == ("loose", 6.6)


def test_a_stud_that_does_not_pass_is_refused(given_nothing):
    """One sentence with both figures."""
    with pytest.raises(click.UsageError, match=r"12 mm stud does not pass a 7\.144 mm hole"):
        hardware.hardware(NORMAL, given_nothing | {"stud": 12.0}, 0.0)
