"""The medial axis unrolled."""

import math
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, unary_union

from holeplacer.gui.ribbon.unrolled import unrolled
from holeplacer.medial_axis.axis import Axis, Branch
from holeplacer.medial_axis.medial_axis import medial_axis
from holeplacer.medial_axis.ways import LONE, AxisPoint
from holeplacer.outline.outline import Outline

LETTERS = [
    LineString([(0, 0), (300, 0)]).buffer(20),
    unary_union([LineString(line).buffer(15) for line in
                 ([(0, 0), (400, 0)], [(120, 0), (120, 200)], [(280, 0), (330, -180)])]),
    LineString([(0, 0), (100, 150), (200, 0), (60, 60), (250, 90)]).buffer(12),
    unary_union([LineString([(0, 0), (500, 0)]).buffer(10),
                 LineString([(100, 80), (200, -80), (300, 80), (400, -80)]).buffer(10)]),
]  # fmt: skip


def ends(axis, run):
    """Nodes at which a run begins and ends."""
    branch = axis.branches[run.branch]
    return (branch.end, branch.start) if run.backwards else (branch.start, branch.end)


@pytest.mark.parametrize("letter", range(len(LETTERS)))
def test_every_branch_appears_once_in_unbroken_strokes(letter):
    """Nothing lost, nothing twice; within a stroke each run begins where the last ended."""
    axis = medial_axis(Outline.from_geometry(LETTERS[letter]))
    made = unrolled(axis)
    assert sorted(run.branch for run in made.runs) == list(range(len(axis.branches)))
    for one, two in pairwise(made.runs):
        assert two.start_mm == pytest.approx(one.start_mm + one.length_mm)
        if one.stroke == two.stroke:
            assert ends(axis, one)[1] == ends(axis, two)[0]
            assert one.after_mm == two.before_mm == 0.0
        else:
            assert two.stroke == one.stroke + 1


def test_each_piece_begins_with_its_longest_way_from_left_to_right(strokes, ribbon, foot):
    """The stroke from x 20 to the thin end, before its branch; the ring and the dot once each."""
    main = [run for run in ribbon.runs if ribbon.main[run.stroke] and run.branch >= 0]
    first = [run for run in main if strokes.axis.branches[run.branch].piece == 0]
    assert [run.branch for run in first] == [foot(200, 100).branch, foot(700, 100).branch]
    begins, junction = ends(strokes.axis, first[0])
    assert strokes.axis.node_xy[begins] == pytest.approx((20.0, 100.0), abs=0.1)
    (side,) = [run for run in ribbon.runs if not ribbon.main[run.stroke]]
    assert side.branch == foot(395, 250).branch
    assert ends(strokes.axis, side)[0] == junction


def test_metal_beyond_an_axis_end_is_part_of_its_run(strokes, run_at):
    """Overhang is measured to the tip, so the ribbon reaches as far: 20 mm at the round end."""
    first = run_at(200.0, 100.0)
    tips = {tip.node: tip.reach_mm for tip in strokes.axis.tips}
    assert first.before_mm == pytest.approx(tips[ends(strokes.axis, first)[0]])
    assert first.before_mm == pytest.approx(20.0, abs=0.1)
    assert first.axis_mm == pytest.approx(strokes.axis.branches[first.branch].length_mm)


def test_a_blob_is_as_long_as_it_is_wide(strokes, ribbon):
    """The 60 mm dot."""
    (blob,) = [run for run in ribbon.runs if run.branch == LONE]
    assert blob.length_mm == pytest.approx(60.0, abs=0.1)
    assert ribbon.point(blob, blob.start_mm + 12.0) == AxisPoint(LONE, 0.0, blob.node)
    assert ribbon.place(AxisPoint(LONE, 0.0, blob.node)) == (
        blob,
        blob.start_mm + blob.length_mm / 2,
    )


@settings(max_examples=80, deadline=None)
@given(st.integers(0, 3), st.floats(0.0, 1.0))
def test_places_go_there_and_back(strokes, ribbon, branch, share):
    """Axis point to ribbon and back to the same point."""
    point = AxisPoint(branch, share * strokes.axis.branches[branch].length_mm)
    run, x_mm = ribbon.place(point)
    assert run.start_mm - 1e-9 <= x_mm <= run.start_mm + run.length_mm + 1e-9
    back = ribbon.point(run, x_mm)
    assert (back.branch, back.s_mm) == (branch, pytest.approx(point.s_mm, abs=1e-9))


def test_a_stroke_goes_on_straight_through_a_junction():
    """Two bars crossing at a right angle: the side bar is one stroke, not two halves."""
    nodes = [(0.0, 0.0), (250.0, 0.0), (500.0, 0.0), (240.0, 90.0), (260.0, -90.0)]
    made = unrolled(star(nodes))
    assert made.main == (True, False)
    side = [run for run in made.runs if run.stroke == 1]
    assert {run.branch for run in side} == {2, 3}
    assert sum(run.length_mm for run in side) == pytest.approx(2 * math.hypot(10, 90))


def star(nodes):
    """Straight branches from node 1 to all others."""
    places = np.array(nodes)
    branches = []
    for end in (0, 2, 3, 4):
        xy = np.linspace(places[1], places[end], 11)
        s = np.linspace(0.0, math.dist(nodes[1], nodes[end]), 11)
        branches.append(Branch(1, end, 0, xy, np.full(11, 10.0), s, np.zeros((11, 2, 2))))
    count = len(nodes)
    return Axis(tuple(branches), places, np.full(count, 10.0), np.zeros(count, np.intp), ())


def test_pieces_come_in_the_outlines_order(strokes, ribbon):
    """The order of the tables."""
    pieces = [
        int(strokes.axis.node_piece[run.node]) if run.branch == LONE
        else strokes.axis.branches[run.branch].piece
        for run in ribbon.runs
    ]  # fmt: skip
    assert pieces == sorted(pieces)


def test_no_axis_makes_an_empty_ribbon(strokes):
    """Of no length."""
    axis = strokes.axis
    bare = type(axis)((), axis.node_xy[:0], axis.node_clearance[:0], axis.node_piece[:0], ())
    assert unrolled(bare).length_mm == 0.0
    assert np.array_equal(unrolled(bare).starts_mm, [])
