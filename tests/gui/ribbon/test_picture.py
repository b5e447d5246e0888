"""The still part of the ribbon."""

import numpy as np
import pytest
from PySide6.QtGui import QColor, QImage, QPainter

from holeplacer.gui.ribbon.picture import (
    FOOT_PX,
    HEAD_PX,
    _broken_parts,
    _thinned,
    lanes,
    paint_picture,
)
from holeplacer.gui.ribbon.scale import Scale
from holeplacer.gui.ribbon.trace import Trace, clear_width
from holeplacer.gui.theme import LIGHT


@pytest.fixture
def image(qapp, strokes, ribbon):
    """The sign's ribbon, 1000 x 140."""
    made = QImage(1000, 140, QImage.Format.Format_RGB32)
    made.fill(QColor(LIGHT.ground))
    scale = Scale(width_px=1000, height_px=140).fitted(ribbon)
    over = lanes((clear_width(strokes.axis, 19.05),), 140)
    painter = QPainter(made)
    paint_picture(painter, ribbon, scale, over, LIGHT)
    painter.end()
    return made, scale, over[0]


def test_height_is_the_clear_width(image, run_at):
    """Over the 40 mm stroke the fill ends 40 mm above the base line."""
    made, scale, lane = image
    run = run_at(150.0, 100.0)
    x = round(scale.x_px(run, run.start_mm + 150.0))
    column = [made.pixelColor(x, y).name() for y in range(140)]
    filled = [y for y in range(140) if column[y] == LIGHT.clear_width]
    assert min(filled) == pytest.approx(lane.base_px - 40.0 * lane.px_per_mm, abs=2.0)
    assert max(filled) == pytest.approx(lane.base_px, abs=2.0)


def test_thin_places_are_shaded_by_pattern(image, run_at, foot):
    """23 to 34 mm up: more than one colour over the thin part, plain fill in the wide one."""
    made, scale, lane = image
    rows = range(round(float(lane.y_px(34.0))), round(float(lane.y_px(23.0))))
    run = run_at(1050.0, 100.0)

    def colours(at_mm):
        centre = round(scale.x_px(run, at_mm))
        return {made.pixelColor(x, y).name() for x in range(centre - 6, centre + 6) for y in rows}

    assert len(colours(run.x_of(foot(1050.0, 100.0).s_mm))) >= 2
    assert len(colours(run.x_of(foot(650.0, 100.0).s_mm))) == 1


def test_the_limit_is_a_line_over_all_strokes(image):
    """Its colour at its height, from stroke to stroke."""
    made, _, lane = image
    row = round(float(lane.y_px(19.05)))
    seen = sum(made.pixelColor(x, y) == QColor(LIGHT.limit) for x in range(1000) for y in (row,))
    assert seen > 300


def test_lanes_share_the_height(strokes):
    """Two traces, two lanes of one height, neither over the other, head and foot left free."""
    width = clear_width(strokes.axis, 19.05)
    one, two = lanes((width, width), 160)
    assert one.top_px == HEAD_PX
    assert two.base_px == pytest.approx(160 - FOOT_PX)
    assert one.base_px < two.top_px
    assert one.base_px - one.top_px == pytest.approx(two.base_px - two.top_px)


def test_broken_stretches_end_where_the_limit_is_crossed():
    """Between two points, by proportion."""
    trace = Trace("width", (), {}, limit=10.0)
    x, values = np.array([0.0, 10.0, 20.0, 30.0]), np.array([20.0, 0.0, 0.0, 20.0])
    assert _broken_parts(x, values, trace) == [pytest.approx((5.0, 25.0))]
    assert _broken_parts(x, np.full(4, 3.0), trace) == [(0.0, 30.0)]
    assert _broken_parts(x, np.full(4, 30.0), trace) == []


def test_thinning_keeps_every_extreme():
    """A spike one point wide among a hundred thousand is still seen."""
    x = np.linspace(0.0, 400.0, 100_000)
    values = np.full(100_000, 20.0)
    values[54_321] = 1.0
    thin_x, thin = _thinned(x, values, 500)
    assert len(thin_x) < 2000
    assert thin.min() == 1.0
    assert np.all(np.diff(thin_x) >= 0)
