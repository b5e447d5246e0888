"""Spacing and overhang, on a bar of metal and a cross."""

from dataclasses import replace

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.sparse.csgraph import connected_components

from holeplacer.medial_axis.axis import Axis, Branch, Tip
from holeplacer.medial_axis.medial_axis import medial_axis
from holeplacer.outline.outline import Outline
from holeplacer.plan import edit
from holeplacer.plan.hole import Hole
from holeplacer.rules import spacing
from holeplacer.rules.finding import PlaceKind

CROSS = shapely.union_all([
    shapely.LineString([(-200, 0), (200, 0)]).buffer(12),
    shapely.LineString([(0, -150), (0, 150)]).buffer(12),
])  # fmt: skip


def with_holes(plan, *xy):
    return replace(plan, holes=tuple(Hole(n, x, y) for n, (x, y) in enumerate(xy, 1)))


def with_limits(plan, **limits):
    return replace(plan, limits=replace(plan.limits, **limits))


def test_exactly_kept(plan, bar, axis):
    """Holes exactly at spacing and overhang break nothing."""
    plan = with_limits(with_holes(plan, (50, 0), (350, 0)), spacing_mm=300, overhang_mm=65)
    assert spacing.check(plan, bar, axis) == ()


def test_span_too_long(plan, bar, axis):
    """A span a hair too long is found where it is worst, with both figures."""
    plan = with_limits(with_holes(plan, (50, 0), (350, 0)), spacing_mm=299, overhang_mm=65)
    (found,) = spacing.check(plan, bar, axis)
    assert (found.rule, found.place.kind) == ("spacing", PlaceKind.STRETCH)
    assert (found.value, found.limit) == (pytest.approx(150), pytest.approx(149.5))
    assert found.place.xy_mm == pytest.approx((200, 0))
    assert found.place.length_mm == pytest.approx(1.0, abs=1e-5)
    assert found.way_out


def test_overhang_too_long(plan, bar, axis):
    """A tip is measured to real metal: along the axis, then its reach."""
    plan = with_limits(with_holes(plan, (50, 0), (350, 0)), spacing_mm=300, overhang_mm=64)
    left, right = spacing.check(plan, bar, axis)
    assert (left.value, left.limit) == (pytest.approx(65), 64)
    assert left.place.xy_mm == (-15.0, 0.0)
    assert right.place.xy_mm == (415.0, 0.0)
    assert left.way_out
    assert "mm" in left.message


def test_no_holes(plan, bar, axis):
    """Without holes the whole stroke and both tips are found, without a figure in the message."""
    found = spacing.check(plan, bar, axis)
    assert [np.isinf(item.value) for item in found] == [True, True, True]
    assert found[0].place.length_mm == pytest.approx(400)
    assert not any("inf" in item.message + item.way_out for item in found)


def test_hole_off_the_axis_counts_if_its_disc_reaches_it(plan, bar, axis):
    """7 mm off in a 30 mm stroke its disc (8 mm) reaches the axis, 8 mm off it doesn't."""
    near = spacing.spans(with_holes(plan, (200, 7)), bar, axis)
    far = spacing.spans(with_holes(plan, (200, 8)), bar, axis)
    assert near.counts.tolist() == [True]
    assert far.counts.tolist() == [False]
    assert np.isinf(far.tips.way_mm).all()


def test_spans_for_the_drag(plan, bar, axis):
    """Both spans of each hole, the holes they lead to, tips and uncovered polylines."""
    plan = with_limits(with_holes(plan, (20, 0), (380, 0), (200, 0)), spacing_mm=150)
    found = spacing.spans(plan, bar, axis)
    np.testing.assert_allclose(found.span_mm, [[np.inf, 180], [180, np.inf], [180, 180]])
    np.testing.assert_array_equal(found.next_hole, [[-1, 2], [2, -1], [0, 1]])
    np.testing.assert_allclose(found.tips.way_mm, [35, 35])
    assert [part.length_mm for part in found.uncovered] == pytest.approx([30, 30])
    np.testing.assert_allclose(found.uncovered[0].lines[0][[0, -1]], [[95, 0], [125, 0]])


def test_arms_share_the_hole_at_a_junction(plan):
    """In a cross one hole in the middle serves all arms; uncovered parts that meet are one."""
    lines = [[(-100, 0), (100, 0)], [(0, -100), (0, 100)]]
    region = shapely.union_all([shapely.LineString(line) for line in lines]).buffer(15)
    outline = Outline.from_geometry(region)
    axis = medial_axis(outline)
    held = with_limits(with_holes(plan, (0, 0)), spacing_mm=202, overhang_mm=117)
    assert spacing.check(held, outline, axis) == ()
    bare = spacing.spans(with_limits(plan, spacing_mm=202), outline, axis)
    assert [part.length_mm for part in bare.uncovered] == [pytest.approx(axis.length_mm)]


def test_corner_demands_nothing(plan, bar, axis):
    """An end branch within 1.5 radii of its junction is a corner."""

    def spur(reach):
        xy = np.array([[0.0, 0.0], [0.0, 10.0]])
        s = np.array([0.0, 10.0])
        contacts = np.stack([xy, xy], axis=1)
        extra = Branch(2, 3, 0, xy + np.array([200, 0]), np.array([15.0, 5.0]), s, contacts)
        halves = [
            Branch(a, b, 0, half, np.full(2, 15.0), np.array([0.0, 200.0]), contacts)
            for a, b, half in (
                (0, 2, np.array([[0.0, 0], [200, 0]])),
                (2, 1, np.array([[200.0, 0], [400, 0]])),
            )
        ]
        nodes = np.array([[0.0, 0], [400, 0], [200, 0], [200, 10]])
        tips = (*axis.tips, Tip(3, (200.0, reach), reach - 10))
        clear = np.array([15.0, 15, 15, 5])
        return Axis((*halves, extra), nodes, clear, np.zeros(4, np.intp), tips)

    assert spacing.corners(spur(22.0)).tolist() == [False, False, True]
    assert spacing.corners(spur(23.0)).tolist() == [False, False, False]
    far = with_limits(with_holes(plan, (0, 0), (400, 0)), spacing_mm=400, overhang_mm=30)
    assert spacing.check(far, bar, spur(22.0)) == ()
    assert len(spacing.check(far, bar, spur(23.0))) == 2


PARTS = st.lists(st.tuples(st.integers(0, 3), st.sampled_from(["start", "end", "whole", "inner"])),
                 max_size=7)  # fmt: skip


@settings(max_examples=40, deadline=None)
@given(PARTS)
def test_parts_are_one_group_if_they_meet_at_nodes(parts):
    """Against the connected components of the graph of parts and nodes."""
    cross = medial_axis(Outline.from_geometry(CROSS))
    assert len(cross.branches) == 4
    branch = np.array([index for index, _ in parts], np.intp)
    length = np.array([cross.branches[index].length_mm for index in branch])
    low = np.array([0.0 if kind in ("start", "whole") else 1.0 for _, kind in parts])
    high = length - [0.0 if kind in ("end", "whole") else 1.0 for _, kind in parts]
    size = len(parts) + len(cross.node_xy)
    joined = np.zeros((size, size))
    for part, index in enumerate(branch):
        item = cross.branches[index]
        joined[part, len(parts) + item.start] = low[part] == 0.0
        joined[part, len(parts) + item.end] = high[part] == length[part]
    _, label = connected_components(joined, directed=False)
    label = label[: len(parts)]
    wanted = [np.flatnonzero(label == value).tolist() for value in dict.fromkeys(label.tolist())]
    found = spacing.connected(cross, branch, low, high)
    assert [group.tolist() for group in found] == wanted


def test_a_glued_standoff_does_not_count(plan, bar, axis):
    """Its stroke is as bare as without the hole; nothing spans to it."""
    plan = with_holes(plan, (40, 0), (200, 0), (360, 0))
    glued = edit.with_hole_fastened(plan, 2, False)
    found = spacing.spans(glued, bar, axis)
    assert found.counts.tolist() == [True, False, True]
    assert found.next_hole[0].tolist() == [-1, 2]
    without = edit.without_hole(plan, 2)
    assert len(spacing.check(plan, bar, axis)) == 0
    assert len(spacing.check(glued, bar, axis)) == len(spacing.check(without, bar, axis)) == 1
