"""Knots of rings, cut open."""

import pytest
from graphs import NONE, graph, ring, theta, wanted

from holeplacer.placement import axis_steps, knot
from holeplacer.placement.blocks import Block, blocks
from holeplacer.placement.knot import Knot


def of(axis, root=0):
    start, end = [b.start for b in axis.branches], [b.end for b in axis.branches]
    (block,) = blocks(start, end, len(axis.node_xy), root)
    return Knot.of(block, start, end, len(axis.node_xy))


def shared(axis, half_mm):
    """(holes, whether a need, way) that the knot hands over at its only outer node."""
    opened = of(axis)
    judge = opened.judge(axis_steps.steps(wanted(axis, half_mm), NONE, 1.0), {})
    found = knot.through_shared(judge, len(opened.copies), half_mm)
    assert found.settled
    return [option[:3] for option in found.shown]


def test_ring():
    """One hole less than the ring needs leaves a need; as many leave none."""
    assert shared(ring(500.0), 100.0) == [
        (2, True, pytest.approx(50.0, abs=1e-6)),
        (3, False, 0.0),
    ]
    assert shared(ring(400.0), 100.0)[0] == (1, True, pytest.approx(0.0, abs=1e-6))
    assert shared(ring(150.0), 100.0) == [(0, True, pytest.approx(25.0)), (1, False, 0.0)]


def test_theta_is_cut_at_the_shared_node():
    """Three strokes of 100 between two nodes, holes reaching 100: one at the shared node."""
    opened = of(theta(100.0))
    assert not opened.ranged
    assert len(opened.copies) == 3
    assert shared(theta(100.0), 100.0) == [
        (0, True, pytest.approx(0.0, abs=1e-6)),
        (1, False, 0.0),
    ]


def test_theta_hung_by_a_stroke():
    """If the shared node opens one ring only, a node that opens both is cut."""
    axis = graph([(0, 0), (50, 0), (100, 0)], [(0, 1, 50), (1, 2, 50), (0, 2, 100), (0, 2, 100)])
    opened = of(axis, root=1)
    assert opened.ranged
    judge = opened.judge(axis_steps.steps(wanted(axis, 100.0), NONE, 1.0), {})
    found = knot.through_other(judge, len(opened.copies), 100.0, [knot.NOTHING], 0.0, 64)
    shown, hoped = ([option[:3] for option in part] for part in (found.shown, found.hoped))
    assert shown[0][:2] == hoped[0][:2] == (0, True)
    assert hoped[0][2] - 100.0 / 32 <= shown[0][2] <= hoped[0][2]
    assert shown[1] == hoped[1] == (1, False, 0.0)


def test_no_single_cut():
    """Four nodes joined each to each have three rings, and no node opens them all."""
    start, end = [0, 0, 0, 1, 1, 2], [1, 2, 3, 2, 3, 3]
    assert Knot.of(Block(tuple(range(6)), 0), start, end, 4) is None


def test_unsettled_is_judged_at_best():
    """What no number of holes tried can settle counts as good for the bound only."""
    never = lambda root, starts: [(0, True, 5.0, None)]  # noqa: E731 (a judge for this test)
    found = knot.through_shared(never, 2, 100.0)
    assert [option[1] for option in found.shown] == [True]
    assert found.hoped[-1][1:3] == (False, 0.0)
    assert not found.settled
