"""Newton steps onto the exact axis."""

import math

import numpy as np
import pytest
import shapely

from holeplacer.medial_axis import bisector
from holeplacer.medial_axis.boundary import boundary_of


def boundary(polygon):
    return boundary_of(shapely.MultiPolygon([polygon]), np.arange(1))


def sides(outline, *points):
    """The segment nearest to each point given in drawn coordinates."""
    return outline.tree.nearest(shapely.points(np.array(points) - outline.origin))


BAR = boundary(shapely.box(0, 0, 400, 40))
ELBOW = boundary(shapely.union(shapely.box(0, 0, 80, 10), shapely.box(0, 0, 10, 80)))


def test_two_sides_meet_on_the_middle_line():
    """Points near the middle of a bar move straight onto it."""
    xy = np.array([(100.0, 13.0), (201.0, 31.0)]) - BAR.origin
    low, high = sides(BAR, (200, 0), (200, 40))
    discs = bisector.settle(BAR, xy, np.array([[high, low]] * 2))
    assert discs.xy + BAR.origin == pytest.approx(np.array([(100, 20), (201, 20)]))
    assert discs.radius == pytest.approx(20)
    assert discs.mismatch == pytest.approx(0, abs=1e-9)
    assert discs.foot[:, 0] + BAR.origin == pytest.approx(np.array([(100, 40), (201, 40)]))


def test_corner_against_wall_is_a_parabola():
    """Between an inner corner and the wall facing it, points end on the parabola."""
    corner, wall = sides(ELBOW, (10, 10.001), (9, 0))
    xy = np.array([(7.0, 6.0), (8.0, 5.0), (9.5, 4.0)]) - ELBOW.origin
    discs = bisector.settle(ELBOW, xy, np.array([[corner, wall]] * 3))
    x, y = (discs.xy + ELBOW.origin).T
    assert y == pytest.approx(((x - 10) ** 2 + 100) / 20, abs=1e-6)


def test_three_sides_have_one_disc():
    """Two walls and the inner corner: the disc of radius (2 - sqrt 2) w."""
    three = np.array([sides(ELBOW, (10, 10.001), (0, 5), (5, 0))])
    discs = bisector.settle(ELBOW, np.array([(6.0, 5.5)]) - ELBOW.origin, three)
    assert discs.radius == pytest.approx([10 * (2 - math.sqrt(2))])
    assert discs.mismatch == pytest.approx([0], abs=1e-9)


def test_touching_moves_nothing():
    """Feet are found without moving the points; what they miss by is told."""
    low, high = sides(BAR, (200, 0), (200, 40))
    xy = np.array([(100.0, 15.0)]) - BAR.origin
    discs = bisector.touch(BAR, xy, np.array([[high, low]]))
    assert discs.xy.tolist() == xy.tolist()
    assert discs.radius == pytest.approx([15])
    assert discs.mismatch == pytest.approx([10])


def test_discs_are_taken_turned_and_put_in_place():
    """Rows of discs keep their parts together."""
    low, high = sides(BAR, (200, 0), (200, 40))
    xy = np.array([(100.0, 15.0), (120.0, 20.0), (140.0, 20.0)]) - BAR.origin
    discs = bisector.touch(BAR, xy, np.array([[high, low]] * 3))
    turned = discs.turned(np.array([True, False, False]))
    assert turned.segment.tolist() == [[low, high], [high, low], [high, low]]
    assert turned.foot[0].tolist() == discs.foot[0, ::-1].tolist()
    placed = discs.replaced(np.array([0]), discs.taken(np.array([2])))
    assert placed.xy[0].tolist() == xy[2].tolist()
    assert len(discs.joined(placed)) == 6
    assert discs.xy[0].tolist() == xy[0].tolist()
