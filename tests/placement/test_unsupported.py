"""What no hole can hold."""

from dataclasses import replace

import numpy as np
import pytest
from graphs import graph, path, wanted

from holeplacer.medial_axis import ways
from holeplacer.outline.outline import Outline
from holeplacer.placement import demands, unsupported
from holeplacer.rules import edge_distance, neighbours

METAL = Outline(())
"""Only walls ask for it."""


def test_neck(plan):
    """A long thin stretch: its length, its widest place, the width needed, ways out and lines."""
    x = np.arange(101) * 10.0
    clear = np.where((x > 400) & (x < 600), 3.0 + (x == 500), 12.0)
    axis = graph([(0, 0), (1000, 0)], [(0, 1)], clearance=[clear], steps=101)
    found = wanted(axis, 50.0, least_mm=edge_distance.limit(plan))
    (part,) = unsupported.of_piece(plan, METAL, found, 4)
    assert part.piece == 4
    assert part.length_mm == pytest.approx(found.bare.length.sum())
    assert (part.x_mm, part.y_mm) == (pytest.approx(500.0), 0.0)
    assert part.clear_width_mm == pytest.approx(8.0)
    assert part.needed_mm == pytest.approx(2 * edge_distance.limit(plan))
    assert "8.0 mm" in part.reason
    assert part.ways_out
    assert part.lines[0][0] == pytest.approx([found.bare.low[0], 0])


def test_parts_that_meet_are_one(plan):
    """Thin arms that meet at a junction are one stretch."""
    axis = graph([(0, 0), (200, 0), (-200, 0), (0, 200)], [(0, 1), (0, 2), (0, 3)], clearance=2.0)
    found = wanted(axis, 50.0, least_mm=9.0)
    (part,) = unsupported.of_piece(plan, METAL, found, 0)
    assert part.length_mm == pytest.approx(600)
    assert len(part.lines) == 3


def test_tip(plan):
    """A tip too far from metal though its stroke is in reach: the excess, with what is needed."""
    clear = np.where(np.arange(101) > 70, 4.0, 12.0)
    axis = graph([(0, 0), (400, 0)], [(0, 1)], clearance=[clear], steps=101, reach=4.0)
    found = wanted(axis, 150.0, 100.0, least_mm=9.0)
    plan = replace(plan, limits=replace(plan.limits, overhang_mm=100.0))
    (part,) = unsupported.of_piece(plan, METAL, found, 0)
    assert part.length_mm == pytest.approx(400 - found.room.high[0] + 4.0 - 100.0)
    assert "tip" in part.reason
    assert part.clear_width_mm == pytest.approx(8.0)


def test_a_tip_let_go_for_distance(plan):
    """Metal is near enough, but its hole would be too near another: that is what is said."""
    clear = np.where((np.arange(101) > 48) & (np.arange(101) < 52), 12.0, 4.0)
    axis = graph([(0, 0), (400, 0)], [(0, 1)], clearance=[clear], steps=101)
    found = wanted(axis, 300.0, 205.0, least_mm=9.0)
    hole = ways.AxisPoints.on_branches([0], [found.room.high[0]])
    plan = replace(plan, limits=replace(plan.limits, overhang_mm=205.0))
    let_go = demands.served(found, hole)
    (part,) = unsupported.of_piece(plan, METAL, let_go, 0, hole)
    assert part.length_mm == pytest.approx(found.room.high[0] - 205.0)
    assert f"{found.room.high[0]:.1f} mm beyond the nearest hole" in part.reason
    assert f"less than {neighbours.limit(plan):.1f} mm from another" in part.reason


def test_nothing(plan):
    """All supported: nothing to say."""
    assert unsupported.of_piece(plan, METAL, wanted(path(300.0), 50.0), 0) == ()


def test_blob(plan):
    """A dot too small for a hole is said with its width."""
    axis = graph([(7, 8)], [], clearance=4.0)
    part = unsupported.blob(plan, METAL, axis, 0, 2)
    assert (part.piece, part.x_mm, part.y_mm) == (2, 7.0, 8.0)
    assert part.clear_width_mm == 20.0
