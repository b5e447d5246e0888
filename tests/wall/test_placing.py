"""Where the sign hangs on its wall."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from holeplacer.wall import placing
from holeplacer.wall.wall import ACROSS, UP, Elevation, Placing, Wall

BOUNDS = (10.0, -40.0, 2010.0, 560.0)
ELEVATION = Elevation(6000.0, 3000.0, -150.0)


def hung(across="centred", across_mm=0.0, up="centred", up_mm=0.0, level_mm=None):
    return placing.translation(
        Wall(ELEVATION, Placing(across, across_mm, up, up_mm, level_mm)), BOUNDS
    )


@pytest.mark.parametrize(
    ("how", "left_mm"),
    [(("centred", 0.0), 2000.0), (("centred", 50.0), 2050.0), (("left", 300.0), 300.0),
     (("right", 300.0), 3700.0)],
)  # fmt: skip
def test_across_the_sign_lies_where_it_is_asked(how, left_mm):
    """The sign's left edge on the wall, for every way to say it."""
    assert BOUNDS[0] + hung(*how)[0] == pytest.approx(left_mm)


@pytest.mark.parametrize(
    ("how", "bottom_mm"),
    [
        (("centred", 0.0), 1200.0),
        (("centred", -20.0), 1180.0),
        (("bottom", 400.0), 400.0),
        (("top", 400.0), 2000.0),
        (("ground", 2600.0), 2450.0),
        (("level", 2600.0), 2450.0),
        (("level", 2600.0, 0.0), 2410.0),
    ],
)
def test_upwards_the_sign_lies_where_it_is_asked(how, bottom_mm):
    """The sign's lower edge on the wall; above ground counts from the ground, not the wall."""
    kind, value, *level = how
    assert BOUNDS[1] + hung(up=kind, up_mm=value, level_mm=level[0] if level else None)[
        1
    ] == pytest.approx(bottom_mm)


def test_without_an_elevation_the_sign_is_the_wall():
    """Nothing is moved, nothing is beyond an edge, no height is known."""
    wall = Wall(placing=Placing("left", 300.0))
    assert placing.translation(wall, BOUNDS) == (0.0, 0.0)
    assert placing.overlap_mm(wall, BOUNDS) == 0.0
    assert placing.over_ground_mm(wall, BOUNDS) is None


def test_level_line_and_datum():
    """Unless entered, the level line is the lower edge and the datum its left end."""
    assert placing.level_mm(Placing(), BOUNDS) == -40.0
    assert placing.datum_mm(Placing(), BOUNDS) == (10.0, -40.0)
    assert placing.datum_mm(Placing(level_mm=5.0), BOUNDS) == (10.0, 5.0)
    assert placing.datum_mm(Placing(level_mm=5.0, datum_mm=(0.0, 1.0)), BOUNDS) == (0.0, 1.0)


@given(
    st.sampled_from(ACROSS),
    st.floats(-9000, 9000),
    st.sampled_from(UP),
    st.floats(-9000, 9000),
)
def test_what_reaches_beyond_the_wall_is_told(across, across_mm, up, up_mm):
    """The overlap is zero exactly where all four edges lie on the wall."""
    wall = Wall(ELEVATION, Placing(across, across_mm, up, up_mm))
    dx, dy = placing.translation(wall, BOUNDS)
    inside = (
        BOUNDS[0] + dx >= 0
        and BOUNDS[1] + dy >= 0
        and BOUNDS[2] + dx <= 6000
        and BOUNDS[3] + dy <= 3000
    )
    assert (placing.overlap_mm(wall, BOUNDS) == 0) == inside
    assert placing.over_ground_mm(wall, BOUNDS) == pytest.approx(BOUNDS[1] + dy + 150.0)
