"""Blanks and the angles they may be turned by."""

import math

import numpy as np
import pytest
from shapely.geometry import Point, Polygon, box

from holeplacer.cutting import blank
from holeplacer.seams.stock_fit import Usable


def test_turning_by_choice_limits_the_angles():
    """None keeps the sign's own angle, quarter gives four, any the flat ones and all round."""
    area = box(0, 0, 50, 10)
    assert blank.blank_of(1, area, "none").angles == (0.0,)
    assert np.allclose(np.degrees(blank.blank_of(1, area, "quarter").angles), [0, 90, 180, 270])
    assert len(blank.blank_of(1, area, "any").angles) >= 24


def test_the_flat_angle_lays_the_longer_side_along_x():
    """A bar drawn at 30 degrees is turned back by it, or by that and half a turn."""
    bar = blank.Place(5.0, 3.0, math.radians(30)).of(box(0, 0, 50, 10))
    found = blank.blank_of(1, bar, "any")
    assert found.flat_size == pytest.approx((50.0, 10.0))
    assert found.size_at(blank.flat_angle(found.hull))[2] == pytest.approx(50.0)


def test_the_size_at_an_angle_is_that_of_the_turned_area():
    """Left, bottom, width and height agree with the area as it is laid."""
    area = Polygon([(10, 0), (30, 5), (12, 40)])
    left, bottom, width, height = blank.blank_of(1, area, "none").size_at(0.7)
    x0, y0, x1, y1 = blank.Place(0.0, 0.0, 0.7).of(area).bounds
    assert (left, bottom, width, height) == pytest.approx((x0, y0, x1 - x0, y1 - y0))


def test_a_part_that_fits_only_across_the_corners_gets_that_angle():
    """A bar longer than either side of the sheet is given an angle at which it fits."""
    bar = blank.blank_of(1, box(0, 0, 1300, 20), "any")
    usable = Usable(960.0, 960.0, "any")
    narrow = Usable(1305.0 * 0.75, 1305.0 * 0.75, "any")
    assert blank.fits_in(blank.fitting(bar, usable), usable)
    fitted = blank.fitting(bar, narrow)
    assert blank.fits_in(fitted, narrow)
    assert blank.fitting(bar, Usable(600.0, 600.0, "any")) is bar


def test_the_wide_area_covers_the_part():
    """What blanks are pushed together by leaves out nothing of them, and is hardly wider."""
    area = Point(0, 0).buffer(100, quad_segs=200).difference(Point(0, 0).buffer(50))
    found = blank.blank_of(1, area, "none")
    assert found.wide.covers(area)
    assert found.wide.difference(found.area.buffer(0.11)).is_empty
    assert len(found.wide.exterior.coords) < len(area.exterior.coords) / 2


def test_a_point_goes_where_its_area_goes():
    """A corner turned and moved alone lands on the corner of the area laid."""
    place = blank.Place(4.0, -7.0, 0.8)
    laid = place.of(box(1, 2, 3, 5))
    assert Point(place.point(3.0, 5.0)).distance(laid) < 1e-12
    assert Point(place.point(3.0, 5.0)).distance(laid.boundary) < 1e-12
