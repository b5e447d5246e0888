"""Clearance, and the discs it proves wrong."""

from dataclasses import replace

import numpy as np
import pytest
import shapely
from shapes import BAR, outline

from holeplacer.medial_axis import bisector
from holeplacer.medial_axis.boundary import boundary_of
from holeplacer.medial_axis.clearance import clearance, measured, on_axis

SIGN = outline(BAR)
BOUNDARY = boundary_of(SIGN.region, np.arange(1))
LOW, HIGH, LEFT = BOUNDARY.tree.nearest(
    shapely.points(np.array([(200, 0), (200, 40), (0, 20)]) - BOUNDARY.origin)
)


def judged(xy, *segments):
    at = np.array([xy], float) - BOUNDARY.origin
    discs = bisector.touch(BOUNDARY, at, np.array([segments]))
    return bool(on_axis(BOUNDARY, measured(SIGN, BOUNDARY, discs))[0])


def test_clearance_is_the_distance_to_the_drawn_outline():
    """Whatever the local origin."""
    at = np.array([(100.0, 15.0), (3.0, 20.0)]) - BOUNDARY.origin
    assert clearance(SIGN, BOUNDARY, at) == pytest.approx([15, 3])


def test_each_disc_is_measured_once():
    """What has been measured is not measured anew, whatever else was joined to it."""
    at = np.array([(100.0, 20.0)]) - BOUNDARY.origin
    discs = bisector.touch(BOUNDARY, at, np.array([[HIGH, LOW]]))
    known = replace(discs, clearance=np.array([7.0]))
    found = measured(SIGN, BOUNDARY, known.joined(discs))
    assert found.clearance == pytest.approx([7, 20])


def test_discs_on_the_axis():
    """A disc that touches two sides, with nothing inside, is right."""
    assert judged((100, 20), HIGH, LOW)


def test_discs_off_the_axis():
    """Unequal sides, a third side within, or one side twice: wrong."""
    assert not judged((100, 19), HIGH, LOW)
    assert not judged((10, 20), HIGH, LOW)
    assert not judged((10, 20), LEFT, LEFT)


def test_discs_beyond_the_contour():
    """Outside the metal nothing is on the axis, though it be as far from two sides."""
    slot = outline(shapely.box(0, 0, 200, 60).difference(shapely.box(50, 20, 150, 30)))
    boundary = boundary_of(slot.region, np.arange(1))
    places = np.array([(100, 19.9), (100, 30.1), (100, 0.0), (149, 25), (160, 0.0)])
    below, above, low, _, _ = boundary.tree.nearest(shapely.points(places - boundary.origin))
    corner = boundary.tree.nearest(shapely.points(np.array([(150.1, 19.9)]) - boundary.origin))[0]
    at = np.array([(100, 25.0), (100, 10.0), (155, 10.5)]) - boundary.origin
    pairs = np.array([(below, above), (low, below), (low, corner)])
    found = measured(slot, boundary, bisector.settle(boundary, at, pairs))
    assert on_axis(boundary, found).tolist() == [False, True, True]
