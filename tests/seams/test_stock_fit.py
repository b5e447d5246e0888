"""Whether a section fits its sheet."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import MultiPoint, Polygon, box

from holeplacer.plan.sections import SectionsChoice
from holeplacer.seams import stock_fit
from holeplacer.seams.stock_fit import Usable
from holeplacer.sheet.stock import Stock


def usable(width, height, turning="any"):
    return Usable(width, height, turning)


def extent(points, angle):
    turn = np.array([[math.cos(angle), math.sin(angle)], [-math.sin(angle), math.cos(angle)]])
    return np.ptp(points @ turn, axis=0)


def test_usable_is_sheet_less_margin_within_travel():
    """Margin on both sides; the table's travel rules where it is smaller, either way round."""
    choice = SectionsChoice((Stock(1200, 2400, True),), 10.0, travel_height_mm=1220)
    sizes = {(size.width_mm, size.height_mm) for size in stock_fit.usable_sizes(choice)}
    assert sizes == {(1180, 1220), (1180, 2380)}


def test_no_sheet_left_and_sheets_all_margin():
    """A size of which there is none, or nothing left within the margin, is of no use."""
    none = SectionsChoice((Stock(1000, 1000, True, count=0), Stock(20, 900, True)), 10.0)
    assert stock_fit.usable_sizes(none) == ()


def test_a_long_bar_lies_along_the_diagonal():
    """1300 x 20 fits a 1000 mm square turned by 45 degrees only; 1400 mm fits at none."""
    bar = stock_fit.hull_of(box(0, 0, 1300, 20))
    found = stock_fit.angles(bar, usable(1000, 1000))
    assert len(found) > 0
    assert not stock_fit.fits(bar, (usable(1000, 1000, "quarter"),))
    assert not stock_fit.fits(stock_fit.hull_of(box(0, 0, 1400, 20)), (usable(1000, 1000),))


def test_the_longest_bar_on_a_diagonal_is_found():
    """At the limit only one angle is feasible, and it is no edge's: closed form finds it."""
    side, wide = 1000.0, 20.0
    longest = math.sqrt(2) * side - wide
    assert stock_fit.fits(stock_fit.hull_of(box(0, 0, longest - 1e-4, wide)), (usable(side, side),))
    assert not stock_fit.fits(
        stock_fit.hull_of(box(0, 0, longest + 1, wide)), (usable(side, side),)
    )


def test_a_quarter_turn_and_none():
    """Without turning a tall section does not fit a wide sheet."""
    tall = stock_fit.hull_of(box(0, 0, 400, 900))
    assert stock_fit.fits(tall, (usable(1000, 500, "quarter"),))
    assert not stock_fit.fits(tall, (usable(1000, 500, "none"),))


points = st.lists(st.tuples(st.floats(0, 100), st.floats(0, 100)), min_size=3, max_size=12)


@settings(max_examples=120, deadline=None)
@given(points, st.floats(20, 140), st.floats(20, 140))
def test_as_turning_by_small_steps(corners, width, height):
    """A fit found by trying every tenth of a degree is found; none is found where a slightly
    larger sheet has none; and every angle given really fits."""
    hull = MultiPoint(corners).convex_hull
    if not isinstance(hull, Polygon):
        return
    hull = stock_fit.hull_of(hull)
    steps = np.radians(np.arange(0, 180, 0.1))
    found = stock_fit.angles(hull, usable(width, height))
    for angle in found:
        assert (extent(hull, angle) <= np.array([width, height]) + 1e-5).all()
    sizes = np.array([extent(hull, angle) for angle in steps])
    if ((sizes[:, 0] <= width) & (sizes[:, 1] <= height)).any():
        assert len(found)
    if not ((sizes[:, 0] <= width + 0.3) & (sizes[:, 1] <= height + 0.3)).any():
        assert not len(found)


def test_angle_is_anticlockwise():
    """Turning the section by the angle given makes it fit."""
    bar = stock_fit.hull_of(Polygon([(0, 0), (100, 50), (99, 52), (-1, 2)]))
    (size,) = (usable(113.0, 3.0),)
    for angle in stock_fit.angles(bar, size):
        turn = np.array([[math.cos(angle), -math.sin(angle)], [math.sin(angle), math.cos(angle)]])
        assert np.ptp(bar @ turn.T, axis=0) == pytest.approx([111.8, 2.24], abs=1.2)
        assert (np.ptp(bar @ turn.T, axis=0) <= [113.0 + 1e-5, 3.0 + 1e-5]).all()
