"""How artwork is read, from the command line."""

import click
import pytest

from holeplacer.artwork.options import KnownDistance, ReadOptions
from holeplacer.cli import reading


def test_nothing_given_changes_nothing(given_nothing):
    """A plan's own decisions stay where the command line says nothing."""
    present = ReadOptions(units="in", width_mm=900.0, mirror=True, layers=("cut",))
    assert reading.reading(present, given_nothing) == present


def test_each_option_reaches_its_field(given_nothing):
    """What is given takes the place of what was there."""
    given = given_nothing | {
        "units": "cm", "width": 500.0, "rotate": 0.1, "mirror": True, "layers": ("a", "b"),
        "tolerance": 0.05, "join": 0.2,
    }  # fmt: skip
    assert reading.reading(ReadOptions(), given) == ReadOptions(
        "cm", ("a", "b"), 500.0, None, None, 1.0, 0.1, True, 0.05, 0.2
    )


def test_a_new_size_takes_the_place_of_any_other(given_nothing):
    """A plan scaled by width and now given a height is scaled by height alone."""
    present = ReadOptions(width_mm=900.0)
    assert reading.reading(present, given_nothing | {"height": 50.0}) == ReadOptions(height_mm=50.0)
    known = reading.reading(present, given_nothing | {"known_distance": (0.0, 0.0, 3.0, 4.0, 10.0)})
    assert known == ReadOptions(known=KnownDistance(0.0, 0.0, 3.0, 4.0, 10.0))
    assert reading.reading(present, given_nothing | {"scale": 2.0}) == ReadOptions(scale=2.0)


def test_two_sizes_are_refused(given_nothing):
    """Width and height together, or one point as a distance, can't be meant."""
    with pytest.raises(click.UsageError, match="--width and --height"):
        reading.reading(ReadOptions(), given_nothing | {"width": 1.0, "height": 1.0})
    with pytest.raises(click.UsageError, match="two different points"):
        reading.reading(
            ReadOptions(), given_nothing | {"known_distance": (1.0, 2.0, 1.0, 2.0, 5.0)}
        )


def test_every_option_has_help(given_nothing):
    """No option of a command is left unexplained, and each is known to the reading."""
    command = click.command()(reading.reading_options(lambda **_: None))
    assert all(parameter.help for parameter in command.params)
    assert {parameter.name for parameter in command.params} <= set(given_nothing)
