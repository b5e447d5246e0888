"""Neighbouring curves as one."""

import math

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.documents import joining
from holeplacer.documents.page import Stroke
from holeplacer.geometry import evaluate, flatten, trim
from holeplacer.geometry.curve import CircularArc, Polyline, Spline, cubic


def line(*points, layer=""):
    return Stroke(Polyline(np.array(points, float)), layer)


def round_blob(count, backwards=()):
    """Cubic curves that close smoothly, some of them drawn the other way."""
    turn = np.linspace(0, 2 * math.pi, count, endpoint=False)
    at = np.column_stack([np.cos(turn), np.sin(turn)]) * 50
    along = np.column_stack([-np.sin(turn), np.cos(turn)]) * 60 / count
    strokes = []
    for index in range(count):
        following = (index + 1) % count
        curve = cubic(
            at[index], at[index] + along[index], at[following] - along[following], at[following]
        )
        if index in backwards:
            curve = trim.reversed_curve(curve)
        strokes.append(Stroke(curve, "", index in backwards))
    return strokes


def points(strokes):
    return np.vstack([flatten.flatten(stroke.curve, 0.001)[1] for stroke in strokes])


@settings(max_examples=30, deadline=None)
@given(count=st.integers(2, 9), backwards=st.sets(st.integers(0, 8)), data=st.data())
def test_a_smooth_contour_becomes_one_spline_of_the_same_points(count, backwards, data):
    """All curves of a smooth loop are one spline, and any point of any curve is on it."""
    strokes = round_blob(count, backwards)
    (one,) = joining.joined(strokes)
    assert isinstance(one.curve, Spline)
    assert len(one.curve.knots) == len(one.curve.control) + 4
    which, share = data.draw(st.integers(0, count - 1)), data.draw(st.floats(0, 1))
    want = evaluate.points_at(strokes[which].curve, share)[0]
    local = 1 - share if strokes[which].backwards else share
    have = evaluate.points_at(one.curve, which + local)[0]
    assert np.hypot(*(have - want)) < 1e-9


def test_a_corner_ends_a_spline():
    """Splines join where they go on smoothly and stay apart where they turn."""
    a = cubic([0, 0], [1, 0], [2, 0], [3, 0])
    b = cubic([3, 0], [4, 0], [5, 1], [6, 1])
    c = cubic([6, 1], [6, 2], [3, 3], [0, 0])
    strokes = [Stroke(curve, "") for curve in (b, c, a)]
    found = joining.joined(strokes)
    assert [len(stroke.curve.control) for stroke in found] == [4, 7]
    assert found[0].curve is c


def test_lines_in_a_row_become_one_polyline():
    """Straight strokes join across corners; all round they make a closed polyline."""
    sides = [line((0, 0), (9, 0)), line((9, 0), (9, 5), (3, 5)), line((3, 5), (0, 0))]
    (one,) = joining.joined(sides)
    assert one.curve.closed
    assert one.curve.xy.tolist() == [[0, 0], [9, 0], [9, 5], [3, 5]]
    arc = Stroke(CircularArc((3.0, 0.0), 3.0, math.pi, math.pi), "")
    open_ = joining.joined([line((6, 0), (6, 9)), line((6, 9), (0, 0)), arc])
    assert [len(stroke.curve.xy) for stroke in open_ if stroke is not arc] == [3]


def test_bulges_survive():
    """Arc steps of joined polylines keep their bulges, those without get none."""
    bent = Stroke(Polyline(np.array([[0.0, 0], [9, 0]]), np.array([0.5, 0.0])), "")
    (one,) = joining.joined([bent, line((9, 0), (4, 8)), line((4, 8), (0, 0))])
    assert one.curve.bulges.tolist() == [0.5, 0, 0]


def test_layers_weights_and_degrees_keep_curves_apart():
    """What differs in layer, weights or degree is not joined."""
    a = cubic([0, 0], [1, 0], [2, 0], [3, 0])
    b = cubic([3, 0], [4, 0], [5, 0], [6, 0])
    weighted = Spline(3, b.control, b.knots, np.array([1.0, 2, 1, 1]))
    quadratic = Spline(2, np.array([[3.0, 0], [4, 0], [6, 0]]), np.repeat([0.0, 1.0], 3))
    for other in (Stroke(b, "x"), Stroke(weighted, ""), Stroke(quadratic, "")):
        assert len(joining.joined([Stroke(a, ""), other, line((6, 0), (0, 0))])) == 3
