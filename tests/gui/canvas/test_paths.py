"""Painter paths from numpy points, and their thinned copies."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from PySide6.QtCore import QPointF, Qt
from shapely.geometry import LineString, MultiLineString, Polygon

from holeplacer.gui.canvas import paths

WAVE = np.column_stack([np.linspace(0, 900, 2001), 40 * np.sin(np.linspace(0, 40, 2001))])


def points_of(path):
    return np.array(
        [(path.elementAt(i).x, path.elementAt(i).y) for i in range(path.elementCount())]
    )


def test_a_polygon_holds_exactly_the_points():
    """Every coordinate arrives bit for bit, whatever the array's layout."""
    backwards = WAVE[::-1]
    made = paths.polygon(backwards)
    assert [(p.x(), p.y()) for p in made] == [tuple(row) for row in backwards.tolist()]


def test_an_empty_array_makes_an_empty_polygon():
    """No points are no crash."""
    assert paths.polygon(np.empty((0, 2))).isEmpty()


def test_a_counter_is_an_opening_whichever_way_it_runs():
    """The odd-even rule keeps it open clockwise and anticlockwise."""
    outer = np.array([(0, 0), (10, 0), (10, 10), (0, 10), (0, 0)], float)
    inner = np.array([(3, 3), (7, 3), (7, 7), (3, 7), (3, 3)], float)
    for counter in (inner, inner[::-1]):
        path = paths.painter_path([outer, counter])
        assert path.fillRule() is Qt.FillRule.OddEvenFill
        assert path.contains(QPointF(1, 1))
        assert not path.contains(QPointF(5, 5))


@settings(max_examples=12, deadline=None)
@given(st.floats(0.05, 30.0))
def test_a_copy_strays_less_than_a_quarter_pixel(px_per_mm):
    """Measured by the distance between both lines, at any scale."""
    copy = LineString(points_of(paths.Detail(LineString(WAVE)).path(px_per_mm)))
    strays_px = shapely.hausdorff_distance(copy, LineString(WAVE)) * px_per_mm
    assert strays_px <= paths.COARSE_PX + 1e-9


def test_far_away_few_points_are_left():
    """A view that shows the whole sign paints a small part of its vertices."""
    assert paths.Detail(LineString(WAVE)).path(0.1).elementCount() < len(WAVE) / 20


def test_close_up_every_point_is_painted():
    """Where a pixel is smaller than any tolerance, nothing is thinned."""
    assert paths.level_of(100.0) is None
    assert paths.Detail(LineString(WAVE)).path(100.0).elementCount() == len(WAVE)


def test_a_copy_is_made_once_for_each_power_of_two():
    """Scales within one power of two share their copy; another power has its own."""
    detail = paths.Detail(LineString(WAVE))
    assert detail.path(1.1).elementCount() == detail.path(1.9).elementCount()
    assert paths.level_of(1.1) == paths.level_of(1.9) != paths.level_of(2.1)
    assert detail.path(8.1).elementCount() > detail.path(1.1).elementCount()


@pytest.mark.parametrize("lines", [MultiLineString(), Polygon().boundary])
def test_no_lines_make_an_empty_path(lines):
    """An outline without pieces is drawn as nothing."""
    assert paths.Detail(lines).path(1.0).isEmpty()
