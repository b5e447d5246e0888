"""The map from a photograph to the wall."""

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from holeplacer.errors import InputError
from holeplacer.wall import homography
from holeplacer.wall.photo import PhotoPoint

RECTANGLE = [(0.0, 0.0), (3000.0, 0.0), (3000.0, 2000.0), (0.0, 2000.0)]


def known(pixels, places):
    return [PhotoPoint(*pixel, *place) for pixel, place in zip(pixels, places, strict=True)]


def camera(yaw, pitch, roll, far, focal):
    """Pixels of a pinhole camera, y down, that looks at a wall in z = 0."""
    turns = []
    for angle, (i, j) in ((yaw, (0, 2)), (pitch, (1, 2)), (roll, (0, 1))):
        turn = np.eye(3)
        turn[[i, j], [i, j]] = np.cos(angle)
        turn[i, j], turn[j, i] = -np.sin(angle), np.sin(angle)
        turns.append(turn)
    rotation = turns[2] @ turns[1] @ turns[0]

    def seen(xy):
        space = np.column_stack([np.asarray(xy) - (1500.0, 1000.0), np.zeros(len(xy))])
        x, y, z = (space @ rotation.T).T
        return np.column_stack([2000 + focal * x / (far + z), 1500 - focal * y / (far + z)])

    return seen


angle = st.floats(-0.7, 0.7)


@settings(max_examples=80, deadline=None)
@given(
    angle,
    angle,
    st.floats(-3, 3),
    st.floats(4500, 20000),
    st.floats(800, 5000),
    st.lists(st.tuples(st.floats(0, 3000), st.floats(0, 2000)), min_size=1, max_size=6),
)
def test_four_corners_square_up_a_picture_from_any_angle(yaw, pitch, roll, far, focal, places):
    """Every other point of the wall is found where it is, and the way back leads to its pixel."""
    seen = camera(yaw, pitch, roll, far, focal)
    matrix = homography.of_points(known(seen(RECTANGLE).tolist(), RECTANGLE))
    pixels = seen(places)
    assert homography.applied(matrix, pixels) == pytest.approx(np.array(places), abs=1e-5)
    assert homography.in_sight(matrix, pixels).all()
    back = homography.applied(homography.inverse(matrix), places)
    assert back == pytest.approx(pixels, abs=1e-5)


coordinate = st.floats(-4000, 4000)
spot = st.tuples(coordinate, coordinate)


@settings(max_examples=80, deadline=None)
@given(spot, spot, spot, spot, spot)
def test_two_points_scale_and_turn(pixel, other_pixel, place, other_place, any_pixel):
    """Both points are met, and all lengths change alike."""
    assume(np.hypot(*np.subtract(pixel, other_pixel)) > 1)
    assume(np.hypot(*np.subtract(place, other_place)) > 1)
    points = known([pixel, other_pixel], [place, other_place])
    matrix = homography.of_points(points)
    found = homography.applied(matrix, [pixel, other_pixel, any_pixel])
    assert found[:2] == pytest.approx(np.array([place, other_place]), abs=1e-6)
    scale = np.hypot(*np.subtract(place, other_place)) / np.hypot(*np.subtract(pixel, other_pixel))
    away = np.hypot(*np.subtract(any_pixel, pixel))
    assert np.hypot(*(found[2] - place)) == pytest.approx(scale * away, rel=1e-9, abs=1e-6)


def test_a_level_picture_is_only_turned_upright():
    """Pixels run down, the wall runs up: no mirror image."""
    matrix = homography.of_points(known([(100, 900), (1100, 900)], [(0, 0), (2000, 0)]))
    assert homography.applied(matrix, [(100, 400)])[0] == pytest.approx([0.0, 1000.0])


def test_beyond_the_horizon_is_out_of_sight():
    """A wall seen at a slant ends at its vanishing line in the picture."""
    seen = camera(0.0, 0.6, 0.0, 6000.0, 1500.0)
    matrix = homography.of_points(known(seen(RECTANGLE).tolist(), RECTANGLE))
    pixels = np.array([(2000.0, y) for y in (1500.0, -8000.0, 9000.0)])
    sight = homography.in_sight(matrix, pixels)
    assert sight[0]
    assert not sight.all()


@pytest.mark.parametrize(
    ("pixels", "places", "said"),
    [
        ([(0, 0)], [(0, 0)], "1 points"),
        ([(0, 0), (0, 0)], [(0, 0), (9, 0)], "the same"),
        ([(0, 0), (5, 0)], [(9, 0), (9, 0)], "the same"),
        ([(0, 0), (5, 0), (10, 0), (0, 9)], RECTANGLE, "in the picture"),
        ([(0, 0), (0, 0), (10, 5), (0, 9)], RECTANGLE, "in the picture"),
        ([(0, 0)] * 4, RECTANGLE, "in the picture"),
        ([(0, 9), (9, 9), (9, 0), (0, 0)], [(0, 0), (1, 1), (2, 2), (0, 9)], "on the wall"),
        ([(0, 0), (9, 0), (9, 9), (0, 9)], RECTANGLE, "follow each other"),
        ([(0, 9), (9, 0), (9, 9), (0, 0)], RECTANGLE, "follow each other"),
    ],
)
def test_points_that_place_nothing_are_refused(pixels, places, said):
    """Coinciding, in line, or out of order: one sentence, no picture turned inside out."""
    with pytest.raises(InputError, match=said):
        homography.of_points(known(pixels, places))
