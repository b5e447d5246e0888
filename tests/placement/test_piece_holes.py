"""Holes of one piece."""

from dataclasses import replace

import numpy as np
import pytest
import shapely
from graphs import NO_XY, strokes

from holeplacer.medial_axis.medial_axis import medial_axis
from holeplacer.outline.outline import Outline
from holeplacer.placement.piece_holes import solve, solve_count
from holeplacer.placement.piece_task import tasks_of
from holeplacer.placement.watch import Watch
from holeplacer.rules import neighbours, turning


def task(plan, sign):
    (only,) = tasks_of(plan, sign, medial_axis(sign), Watch())
    return only


def solved(plan, sign, tries=1):
    return solve(task(plan, sign), NO_XY, Watch(), tries=tries)


def disc(radius):
    return Outline.from_geometry(shapely.Point(50, 60).buffer(radius, quad_segs=32))


def test_stroke(plan):
    """Fewest, proven, held, and evenly spread."""
    found = solved(plan, strokes([[(0, 0), (900, 0)]]))
    assert (len(found.centres), found.proven, found.held) == (4, True, True)
    assert found.tightness < 1.0


def test_held_by_a_second_hole(plan):
    """A stroke that one hole serves gets two, a base apart."""
    plan = replace(plan, limits=replace(plan.limits, overhang_mm=150.0))
    found = solved(plan, strokes([[(0, 0), (200, 0)]]))
    assert (len(found.centres), found.bound, found.held) == (2, 2, True)
    base, _ = turning.holding(found.centres, (100.0, 0.0))
    assert base >= found.base_mm - 1e-6


@pytest.mark.parametrize(
    ("radius", "holes", "held"), [(9.0, 0, False), (14.0, 1, False), (25.0, 2, True)]
)
def test_dots(plan, radius, holes, held):
    """A dot gets none, one, or two beside each other, as its metal allows."""
    found = solved(plan, disc(radius))
    assert (len(found.centres), found.held, len(found.unsupported)) == (holes, held, holes == 0)
    assert found.proven


def test_crowded(plan):
    """Where tips ask for holes too near each other one is left out, and what it served is said."""
    lines = [[(0, 0), (26, 0)], [(13, 0), (13, 300)]]
    plan = replace(plan, limits=replace(plan.limits, overhang_mm=30.0, neighbour_mm=60.0))
    found = solved(plan, strokes(lines, half_width=12.0))
    xy = found.centres
    apart = np.hypot(*(xy[:, None] - xy[None]).transpose(2, 0, 1)) + 1e9 * np.eye(len(xy))
    assert apart.min() >= neighbours.limit(plan) - 1e-6


def test_given_number(plan):
    """As many as asked for, and none tighter by much."""
    found, least = solve_count(task(plan, strokes([[(0, 0), (900, 0)]])), 6, Watch(), tries=4)
    assert len(found.centres) == 6
    assert least <= found.tightness <= least * 1.02
