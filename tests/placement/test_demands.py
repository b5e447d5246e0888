"""What is demanded, and what is left out for want of metal."""

import numpy as np
import pytest
from graphs import NONE, graph, path, star, wanted

from holeplacer.medial_axis import ways
from holeplacer.placement import demands


def neck():
    """1000 mm, clearance 10 but for 400 to 600 where it is 3."""
    clear = np.where((np.arange(101) > 40) & (np.arange(101) < 60), 3.0, 10.0)
    return graph([(0, 0), (1000, 0)], [(0, 1)], clearance=[clear], steps=101)


def test_neck_in_reach():
    """A thin stretch that holes on both sides can serve is demanded."""
    found = wanted(neck(), 150.0)
    assert found.parts.length.sum() == pytest.approx(1000)
    assert len(found.bare) == 0


def test_neck_out_of_reach():
    """Of a longer one only what lies near enough to metal; the rest is bare."""
    found = wanted(neck(), 50.0)
    room = found.room
    middle = (room.high[0] + room.low[1]) / 2
    assert found.bare.low.tolist() == [pytest.approx(room.high[0] + 50)]
    assert found.bare.high.tolist() == [pytest.approx(room.low[1] - 50)]
    assert found.nearest(np.array([0]), np.array([middle])) == pytest.approx(middle - room.high[0])


@pytest.mark.parametrize("length", np.linspace(470.0, 505.0, 40))
def test_nothing_is_demanded_where_the_only_metal_is_too_far(length):
    """The bare part goes on to the very end of the branch, however its length is rounded."""
    clear = np.where(np.arange(60) < 22, 10.0, 3.0)
    axis = graph([(0, 0), (length, 0)], [(0, 1)], clearance=[clear], steps=60)
    found = wanted(axis, 150.0, 100.0)
    asked = found.sampled(150.0 / 6)
    assert found.bare.high.tolist() == [length]
    assert (found.nearest(asked.points.branch, asked.points.s) <= 150.0 + 1e-9).all()


def test_tip_out_of_reach():
    """A tip is demanded only if metal is near enough, its reach counted."""
    axis = path(500.0, reach=30.0)
    assert len(wanted(axis, 150.0, 31.0).tips) == 2
    found = wanted(axis, 150.0, 29.0)
    assert (len(found.tips), found.bare_tips.tolist()) == (0, [0, 1])


def test_radius_at_a_tightness():
    """Half as tight halves the spacing, but never asks for what metal forbids."""
    found = wanted(neck(), 150.0)
    at = found.at(np.array([0, 0]), np.array([100.0, 500.0]))
    assert at.radius(1.0).tolist() == [150.0, 150.0]
    assert at.radius(0.5).tolist() == [75.0, pytest.approx(at.nearest[1])]
    assert at.nearest[1] > 90.0
    assert at.radius(2.0).tolist() == [300.0, 300.0]


def test_sampled():
    """Samples hold both ends and are no further apart than the pitch; tips come last."""
    found = wanted(path(95.0, reach=2.0), 50.0, 30.0)
    asked = found.sampled(10.0)
    assert len(asked) == 11 + 2
    assert np.diff(asked.points.s[:11]).max() <= 10.0
    assert asked.radius(1.0)[-2:].tolist() == [28.0, 28.0]


def test_served():
    """What some holes don't serve is wanted no more."""
    axis = star(300.0, 300.0, 300.0)
    found = wanted(axis, 100.0, 100.0)
    site = ways.AxisPoints.on_branches([0], [250.0])
    left = demands.served(found, site)
    assert left.parts.length.sum() == pytest.approx(150.0)
    assert left.tip_nodes.tolist() == [1]
    assert left.bare_tips.tolist() == [1, 2]
    assert left.bare.length.sum() == pytest.approx(750.0)


def test_holes_that_stay_serve():
    """A hole that stays in thin metal makes what is near it demandable."""
    stays = ways.AxisPoints.on_branches([0], [500.0])
    assert len(wanted(neck(), 60.0).bare) == 1
    assert len(wanted(neck(), 60.0, stays=stays).bare) == 0
    assert len(NONE) == 0
