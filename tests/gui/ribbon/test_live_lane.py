"""A lane that follows a drag, painted where it differs."""

from dataclasses import replace

import numpy as np
import pytest
from PySide6.QtCore import QRect
from PySide6.QtGui import QImage, QPainter

from holeplacer.gui.ribbon.deflection_trace import DeflectionTrace
from holeplacer.gui.ribbon.live_lane import differing, paint_lane
from holeplacer.gui.ribbon.picture import Lane
from holeplacer.gui.ribbon.scale import Scale
from holeplacer.gui.theme import LIGHT


@pytest.fixture
def scale(ribbon):
    return Scale(width_px=1000, height_px=140).fitted(ribbon)


@pytest.fixture
def lane(strokes):
    ways = tuple(np.linspace(0.0, branch.length_mm, 5) for branch in strokes.axis.branches)
    values = tuple(np.full(5, 1.0) for _way in ways)
    trace = DeflectionTrace("deflection", values, {}, 3.0, False, ways=ways, top=4.0)
    return Lane(trace, 80.0, 120.0, trace.height())


def with_values(lane, branch, mm):
    values = list(lane.trace.values)
    values[branch] = np.full(5, mm)
    return replace(lane, trace=replace(lane.trace, values=tuple(values)))


def test_only_runs_that_moved_differ(ribbon, scale, lane):
    """A tenth of a pixel is no reason to paint, a millimetre is."""
    assert list(differing(ribbon, scale, lane, with_values(lane, 0, 1.01))) == []
    (rect,) = differing(ribbon, scale, lane, with_values(lane, 0, 2.0))
    run = next(run for run in ribbon.runs if run.branch == 0)
    assert rect.contains(round(scale.x_px(run, run.x_of(10.0))), 100)


def test_another_limit_differs_too(ribbon, scale, lane):
    """Its line moves."""
    other = replace(lane, trace=replace(lane.trace, limit=2.0))
    assert len(list(differing(ribbon, scale, lane, other))) == len(scale.visible(ribbon))


def colours(image, rect):
    return {image.pixelColor(x, y).name() for x in range(rect.left(), rect.right())
            for y in range(rect.top(), rect.bottom())}  # fmt: skip


def test_painted_in_its_lane_with_the_limit(ribbon, scale, lane):
    """Filled up to the figure, the limit dashed; what breaks it in the alert's colour."""
    run = next(run for run in ribbon.runs if run.branch == 0)
    left = round(scale.x_px(run, run.start_mm)) + 2
    inside = QRect(left, 80, 40, 40)
    for mm, alert in ((1.0, False), (3.9, True)):
        image = QImage(1000, 140, QImage.Format.Format_RGB32)
        image.fill(LIGHT.colour("ground"))
        painter = QPainter(image)
        shown = with_values(lane, 0, mm)
        paint_lane(painter, ribbon, scale, shown, LIGHT, QRect(0, 0, 1000, 140))
        painter.end()
        seen = colours(image, inside)
        assert (LIGHT.clear_width in seen) or alert
        assert any(int(name[1:3], 16) > int(name[5:7], 16) + 40 for name in seen) == alert
        assert colours(image, QRect(0, 0, 1000, 70)) == {LIGHT.ground}


def test_what_is_not_exposed_is_not_painted(ribbon, scale, lane):
    """A drag paints the runs beside it."""
    image = QImage(1000, 140, QImage.Format.Format_RGB32)
    image.fill(LIGHT.colour("ground"))
    painter = QPainter(image)
    paint_lane(painter, ribbon, scale, lane, LIGHT, QRect(0, 0, 1, 1))
    painter.end()
    assert colours(image, image.rect()) == {LIGHT.ground}
