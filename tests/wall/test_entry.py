"""Wall, zones and layers as they are typed."""

import contextlib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from holeplacer.errors import InputError
from holeplacer.units import LengthUnit
from holeplacer.wall import entry
from holeplacer.wall.layer import Layer
from holeplacer.wall.wall import Elevation, Placing
from holeplacer.wall.zone import Studs, Zone

IN = 25.4


@pytest.mark.parametrize(
    ("text", "size"),
    [
        ("6000 x 3000", (6000.0, 3000.0)),
        ("20 x 10 ft", (6096.0, 3048.0)),
        ("6 m by 3 m", (6000.0, 3000.0)),
        ("20' × 10' 6\"", (6096.0, 3200.4)),
    ],
)
def test_a_walls_size(text, size):
    """Two lengths; one unit may serve both."""
    assert entry.parse_elevation(text, ground_mm=-50.0) == Elevation(*size, -50.0)


def test_bare_numbers_take_the_unit_that_is_shown():
    """Inches in a window that shows inches."""
    assert entry.parse_elevation("100 x 50", bare=LengthUnit.INCH) == Elevation(2540.0, 1270.0)
    assert entry.parse_layer("soft 2", bare=LengthUnit.INCH).thickness_mm == 2 * IN


@pytest.mark.parametrize(
    ("text", "placing"),
    [
        ("centred", Placing()),
        ("left 12in, ground 8ft", Placing("left", 304.8, "ground", 2438.4)),
        ("top 300", Placing("centred", 0.0, "top", 300.0)),
        ("level 2.4 m, right 1 m", Placing("right", 1000.0, "level", 2400.0)),
        ("Centred -50, middle 20", Placing("centred", -50.0, "centred", 20.0)),
    ],
)
def test_where_the_sign_hangs(text, placing):
    """Each direction by a word and a length, either order."""
    assert entry.parse_placing(text) == placing


@pytest.mark.parametrize(
    ("text", "zone"),
    [
        (
            "beam: 40in, 20in to 60in, 24in",
            Zone("good", "beam", "rectangle", ((1016.0, 508.0), (1524.0, 609.6))),
        ),
        (
            "conduit: 40in,0 to 40in,8ft wide 1 in",
            Zone("good", "conduit", "band", ((1016.0, 0.0), (1016.0, 2438.4)), IN / 2),
        ),
        (
            "0,0; 300,0; 300,200",
            Zone("good", "", "polygon", ((0.0, 0.0), (300.0, 0.0), (300.0, 200.0))),
        ),
        (
            "pipe: 0,0; 300,0; 300,-200 wide 40",
            Zone("good", "pipe", "band", ((0.0, 0.0), (300.0, 0.0), (300.0, -200.0)), 20.0),
        ),
    ],
)
def test_zones(text, zone):
    """Two points are a rectangle, more a polygon; a width makes a band."""
    assert entry.parse_zone("good", text) == zone


def test_studs_and_layers():
    """Spacing and first; kind and thickness, and a name."""
    assert entry.parse_studs("16in from 4in") == Studs(4 * IN, 16 * IN)
    assert entry.parse_studs("600 from 100 wide 45 mm") == Studs(100.0, 600.0, 45.0)
    assert entry.parse_layer("Structure 3 1/2 in: stud") == Layer("structure", 88.9, "stud")
    assert entry.parse_layer("air 25") == Layer("air", 25.0)


@pytest.mark.parametrize(
    ("parse", "text"),
    [
        (entry.parse_elevation, "6000"),
        (entry.parse_elevation, "0 x 3000"),
        (entry.parse_elevation, "a x b"),
        (entry.parse_placing, "left 3, right 3"),
        (entry.parse_placing, "somewhere"),
        (entry.parse_placing, "left far"),
        (entry.parse_placing, ""),
        (entry.parse_studs, "16in"),
        (entry.parse_studs, "16in from x"),
        (entry.parse_layer, "cheese 20"),
        (entry.parse_layer, "soft"),
        (entry.parse_layer, "soft 0"),
        (entry.parse_layer, "soft -3"),
        (lambda text: entry.parse_zone("good", text), "beam: 1,2"),
        (lambda text: entry.parse_zone("good", text), "beam: 1,2,3 to 3,4"),
        (lambda text: entry.parse_zone("good", text), "1,2 to 3,4 wide 5 wide 6"),
        (lambda text: entry.parse_zone("good", text), ""),
        (entry.parse_layer, "x" * 5000),
    ],
)
def test_what_is_none_is_refused(parse, text):
    """One sentence with what may be written."""
    with pytest.raises(InputError) as caught:
        parse(text)
    assert "\n" not in str(caught.value)
    assert len(str(caught.value)) < 300


@given(st.text(max_size=40))
def test_whatever_is_typed_is_a_value_or_a_sentence(text):
    """Never a traceback."""
    parses = (
        entry.parse_elevation,
        entry.parse_placing,
        entry.parse_studs,
        entry.parse_layer,
        lambda typed: entry.parse_zone("blocked", typed),
    )
    for parse in parses:
        with contextlib.suppress(InputError):
            parse(text)
