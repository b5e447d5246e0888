"""Discs that touch three sides."""

import math

import numpy as np
import pytest
import shapely
from shapes import outline

from holeplacer.medial_axis import bisector
from holeplacer.medial_axis.boundary import boundary_of
from holeplacer.medial_axis.junctions import junction_discs

TEE = outline(shapely.box(-80, 0, 80, 10), shapely.box(-5, -80, 5, 10))
BOUNDARY = boundary_of(TEE.region, np.arange(1))


def sides(*points):
    return BOUNDARY.tree.nearest(shapely.points(np.array(points, float) - BOUNDARY.origin))


THREE = sides((-5, -0.001), (5, -0.001), (0, 10))
APPROACH = bisector.settle(
    BOUNDARY, np.array([(0.0, -20.0)]) - BOUNDARY.origin, sides((-5, -20), (5, -20))[None]
)


@pytest.mark.parametrize("guess", [(0.5, 4.0), (0.0, 3.0), (1.0, 5.0)])
def test_settles_on_three_sides(guess):
    """Near enough guesses end in the disc of radius 5/8 of the width."""
    at = np.array([guess]) - BOUNDARY.origin
    found = junction_discs(TEE, BOUNDARY, at, THREE[None], APPROACH)
    assert found.radius == pytest.approx([6.25])
    assert found.xy + BOUNDARY.origin == pytest.approx(np.array([(0, 3.75)]))


def test_follows_the_approach_where_the_guess_fails():
    """With a wrong third side, the axis of the approach is followed to where another ends it."""
    at = np.array([(0.0, 9.0)]) - BOUNDARY.origin
    wrong = sides((-5, -0.001), (-5, -0.001), (5, -0.001))
    found = junction_discs(TEE, BOUNDARY, at, wrong[None], APPROACH)
    assert found.radius == pytest.approx([6.25], abs=1e-6)
    assert found.xy + BOUNDARY.origin == pytest.approx(np.array([(0, 3.75)]), abs=1e-6)


def test_lies_on_the_axis_in_round_caps():
    """Facets of a round cap leave no junction off the axis."""
    sign = outline(shapely.LineString([(0, 0), (100, 0)]).buffer(30, 7))
    cap = boundary_of(sign.region, np.arange(1))
    turn = np.array([0.3, 1.2, -0.9])
    rim = np.column_stack((100 + 30 * np.cos(turn), 30 * np.sin(turn))) - cap.origin
    three = cap.tree.nearest(shapely.points(rim))
    approach = bisector.settle(
        cap,
        np.array([(80.0, 0.0)]) - cap.origin,
        cap.tree.nearest(shapely.points(np.array([(80, 30), (80, -30)]) - cap.origin))[None],
    )
    found = junction_discs(sign, cap, np.array([(100.0, 0)]) - cap.origin, three[None], approach)
    assert math.dist(found.xy[0] + cap.origin, (100, 0)) < 2
    assert found.radius == pytest.approx(sign.edge_distance(found.xy + cap.origin), abs=1e-5)


def test_no_junctions():
    """None asked, none found."""
    empty = np.empty(0, np.intp)
    found = junction_discs(
        TEE, BOUNDARY, np.empty((0, 2)), np.empty((0, 3), np.intp), APPROACH.taken(empty)
    )
    assert len(found) == 0
