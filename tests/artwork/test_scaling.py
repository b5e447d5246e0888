"""From drawing units to the sign's size, level and hand."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.artwork.options import KnownDistance, ReadOptions
from holeplacer.artwork.scaling import fitting_scale, known_scale, levelled, units_of
from holeplacer.errors import ArtworkError, UnitsMissing


def test_what_the_person_enters_comes_before_what_the_file_states() -> None:
    """And one of the two there must be."""
    assert units_of("in", ReadOptions()) == "in"
    assert units_of("in", ReadOptions(units="mm")) == "mm"
    assert units_of(None, ReadOptions(units="mm")) == "mm"
    with pytest.raises(UnitsMissing, match="the drawing states no units; say what one"):
        units_of(None, ReadOptions())
    with pytest.raises(ArtworkError, match="'cubit' is no unit; take one of mm, cm"):
        units_of("mm", ReadOptions(units="cubit"))


def test_mirror_comes_before_rotation() -> None:
    """(1, 0) inch: mirrored to the left, turned a quarter, ends below."""
    by = levelled("in", ReadOptions(mirror=True, rotation_rad=math.pi / 2))
    np.testing.assert_allclose(by @ [1, 0, 1], [0, -25.4], atol=1e-12)


@settings(max_examples=50, deadline=None)
@given(turn=st.floats(-10, 10), mirror=st.booleans(), x=st.floats(-9, 9), y=st.floats(-9, 9))
def test_levelling_keeps_distances_from_the_origin(
    turn: float, mirror: bool, x: float, y: float
) -> None:
    """Whatever the turn: only the unit stretches."""
    by = levelled("cm", ReadOptions(mirror=mirror, rotation_rad=turn))
    assert math.hypot(*(by @ [x, y, 1])) == pytest.approx(10 * math.hypot(x, y), abs=1e-9)
    assert np.linalg.det(by[:, :2]) == pytest.approx(-100 if mirror else 100)


def test_a_known_distance_gives_the_scale() -> None:
    """Between points as drawn: 5 becomes 20."""
    options = ReadOptions(known=KnownDistance(1, 1, 4, 5, 20.0))
    assert known_scale(options) == pytest.approx(4)
    assert known_scale(ReadOptions(scale=0.5)) == 0.5
    assert known_scale(ReadOptions(width_mm=100.0)) is None


def test_width_or_height_give_the_scale_by_the_bounds() -> None:
    """Of the outline as turned."""
    assert fitting_scale((10, 0, 60, 20), ReadOptions(width_mm=100.0)) == 2
    assert fitting_scale((10, 0, 60, 20), ReadOptions(height_mm=100.0)) == 5
    with pytest.raises(ArtworkError, match="no extent"):
        fitting_scale((10, 0, 10, 20), ReadOptions(width_mm=100.0))


@pytest.mark.parametrize(
    ("options", "sentence"),
    [
        (ReadOptions(width_mm=1.0, height_mm=1.0), "more than one size is given"),
        (ReadOptions(width_mm=1.0, scale=2.0), "more than one size is given"),
        (ReadOptions(scale=0.0), "a scale of 0 is no size; give a positive number"),
        (ReadOptions(width_mm=-5.0), "a width of -5 is no size"),
        (ReadOptions(height_mm=math.nan), "a height of nan is no size"),
        (ReadOptions(tolerance_mm=0.0), "a tolerance of 0 is no size"),
        (ReadOptions(chain_mm=math.inf), "a chaining distance of inf is no size"),
        (ReadOptions(known=KnownDistance(1, 1, 1, 1, 5.0)), "two different points"),
        (ReadOptions(known=KnownDistance(0, 0, 1, 1, -5.0)), "two different points"),
    ],
)
def test_sizes_that_are_none_are_refused(options: ReadOptions, sentence: str) -> None:
    """In one sentence."""
    with pytest.raises(ArtworkError, match=sentence):
        known_scale(options)
