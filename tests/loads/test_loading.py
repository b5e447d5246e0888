"""Loading as a value."""

import dataclasses

import msgspec
import pytest

from holeplacer.loads import loading
from holeplacer.loads.loading import Asce7Site, Loading, WallFixing, WoodScrew


def test_no_wind_is_guessed():
    """Nothing about the wind has a figure until a person enters one."""
    plain = Loading()
    assert plain.method == "none"
    assert plain.pressure_out_pa is None
    assert plain.asce7.basic_speed_m_s is None
    assert plain.asce7.roof_height_mm is None
    assert plain.en1991.basic_speed_m_s is None
    assert plain.en1991.reference_height_mm is None


def test_compares_and_saves_by_value():
    """What goes through JSON comes back equal, nested values included."""
    full = Loading(
        method="asce7-22",
        asce7=Asce7Site(basic_speed_m_s=51.4096, zone="by place", kd=0.9),
        fixing=WallFixing(tension_n=900.0, screw=WoodScrew(kind="wood")),
    )
    back = msgspec.json.decode(msgspec.json.encode(full), type=Loading)
    assert back == full
    assert hash(back) == hash(full)
    assert back != Loading()


def test_an_unknown_word_is_refused_by_the_file():
    """A method that does not exist can't be read."""
    with pytest.raises(msgspec.ValidationError, match="method"):
        msgspec.json.decode(b'{"method": "guessed"}', type=Loading)


def test_is_frozen():
    """A loading is changed by replacing it."""
    with pytest.raises(dataclasses.FrozenInstanceError):
        Loading().method = "entered"


def test_choices_list_every_word():
    """The choices a form offers are the words the value takes."""
    assert loading.METHODS == ("none", "entered", "asce7-16", "asce7-22", "en1991-1-4")
    assert loading.DESIGN_METHODS == ("asd", "lrfd", "en")
    assert Loading().supports in loading.SUPPORTS
    assert Asce7Site().zone in loading.WALL_ZONES
