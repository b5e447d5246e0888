"""The deflection on the ribbon while strength is drawn."""

from dataclasses import replace

import numpy as np
import pytest

from holeplacer.gui.ribbon.strength_lane import StrengthLane
from holeplacer.gui.ribbon.view import RibbonView
from holeplacer.gui.strength_shown import StrengthShown
from holeplacer.plan import edit


@pytest.fixture
def shown(windy):
    return StrengthShown.of(windy)


@pytest.fixture
def view(qtbot, windy, theme):
    made = RibbonView(windy, theme)
    made.strength = StrengthLane(windy, made)
    qtbot.addWidget(made)
    made.resize(1000, 140)
    with qtbot.waitExposed(made):
        made.show()
    return made


def test_a_second_lane_while_drawn(view, shown):
    """Named, with its limit; gone with the stage."""
    shown.set_open(True)
    assert [lane.trace.name for lane in view._lanes] == ["clear width", "deflection"]
    assert view._legend.words[1] == ("deflection", "≤ span/60")
    shown.set_open(False)
    assert [lane.trace.name for lane in view._lanes] == ["clear width"]


def test_it_shows_the_response_drawn(view, shown, windy):
    """Without sign, station by station."""
    shown.set_open(True)
    response = shown.response
    trace = view._lanes[1].trace
    for shown_mm, mm in zip(trace.values, response.deflection_mm, strict=True):
        assert np.array_equal(shown_mm, np.abs(mm))


def test_an_entered_limit_stands_instead_of_the_ratio(view, shown, windy):
    """In millimetres, one line everywhere."""
    shown.set_open(True)
    loading = replace(windy.plan.loading, deflection_limit_mm=2.5)
    windy.push(edit.with_loading(windy.plan, loading), "Limit")
    assert view._legend.words[1] == ("deflection", "≤ 2.5 mm")


def test_a_drag_leaves_the_still_picture(view, shown, windy, qtbot):
    """The lane follows; what stands still is not painted again."""
    shown.set_open(True)
    view.viewport().repaint()
    before, trace = view.pictures, view._lanes[1].trace
    for x in range(640, 650):
        windy.preview(edit.with_hole_moved(windy.committed, 3, float(x), 100.0))
        view.viewport().repaint()
    assert view.pictures == before
    assert view._lanes[1].trace is not trace
    assert not all(
        np.array_equal(one, two)
        for one, two in zip(view._lanes[1].trace.values, trace.values, strict=True)
    )


def test_without_wind_there_is_one_lane(view, shown, windy):
    """The wind undone takes the lane along."""
    shown.set_open(True)
    windy.push(edit.with_loading(windy.plan, replace(windy.plan.loading, method="none")), "Calm")
    assert len(view._lanes) == 1
