"""From pixels of the ribbon to places on the axis."""

import math

import pytest

from holeplacer.gui.canvas.hole_symbol import HoleMark
from holeplacer.gui.ribbon.scale import Scale
from holeplacer.gui.ribbon.sliding import GRAB_PX, Sliding
from holeplacer.gui.ribbon.ticks import Tick


@pytest.fixture
def sliding(ribbon):
    return Sliding(ribbon, Scale(0.5, 0.0, 1000, 140))


def tick(sliding, place, number=1):
    x_px = sliding.x_px(place)
    run, x_mm = sliding.run_at(x_px)
    return Tick(HoleMark(number, *place, 7.0, 0.0), run, x_mm, False)


def test_a_pixel_is_a_place_on_the_axis_and_back(sliding):
    """From the sign to the ribbon and back to the sign."""
    for place in ((100.0, 100.0), (700.0, 100.0), (395.0, 250.0)):
        found = sliding.run_at(sliding.x_px(place))
        assert sliding.place(*found) == pytest.approx(place, abs=1e-6)


def test_between_strokes_there_is_nothing(sliding):
    """Well inside a gap wider than the grab."""
    end = sliding.scale.total_px(sliding.ribbon)
    assert sliding.run_at(end + 50.0) is None
    assert sliding.run_at(-50.0) is None


def test_the_nearest_tick_is_grabbed(sliding):
    """Two near each other, and none too far away."""
    ticks = [tick(sliding, (100.0, 100.0)), tick(sliding, (112.0, 100.0), 2)]
    x = sliding.x_px((110.0, 100.0))
    assert sliding.tick_at(ticks, x).mark.number == 2
    assert sliding.tick_at(ticks, x + GRAB_PX + 20) is None


def test_a_carried_hole_goes_by_the_pointers_way(sliding):
    """50 pixels are 100 mm along the stroke."""
    carried = sliding.carried({1: (100.0, 100.0)}, 1, 50.0)
    assert carried[1] == pytest.approx((200.0, 100.0), abs=1e-6)


def test_the_hole_in_hand_changes_over_to_another_stroke_the_others_do_not(sliding):
    """Far to the right: the one in hand leaves the stroke, its companion stops at the end."""
    held = {1: (100.0, 100.0), 3: (640.0, 100.0)}
    far = sliding.x_px((395.0, 250.0)) - sliding.x_px((100.0, 100.0))
    carried = sliding.carried(held, 1, far)
    assert carried[1] == pytest.approx((395.0, 250.0), abs=1e-3)
    assert carried[3] == pytest.approx((1193.0, 100.0), abs=0.1)


def test_sliding_passes_junctions_and_stops_at_the_strokes_end(sliding):
    """30 mm over the junction at x 395; then 5 m, as far as the axis goes."""
    held = tick(sliding, (380.0, 100.0))
    x, _ = sliding.slid(held, 60.0)
    assert x == pytest.approx(439.0, abs=2.0)
    assert sliding.slid(held, 5000.0) == pytest.approx((1193.0, 100.0), abs=0.1)
    assert sliding.slid(held, -5000.0) == pytest.approx((20.0, 100.0), abs=0.1)
    assert math.dist(sliding.slid(held, 0.0), (380.0, 100.0)) < 1e-6
