"""Curves as DXF entities."""

import math

import ezdxf
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.documents.dxf_entities import EntityWriter
from holeplacer.documents.page import CentreMark, Circle, Label
from holeplacer.geometry import evaluate
from holeplacer.geometry.curve import CircularArc, EllipticArc, Polyline

angle = st.floats(-20.0, 20.0)
turn = st.floats(0.01, 2 * math.pi - 0.01) | st.floats(-2 * math.pi + 0.01, -0.01)


def written(curve, version="R2000", per_mm=1.0):
    return EntityWriter(ezdxf.new(version), per_mm).curve(curve, "0")


def ends(curve):
    return evaluate.points_at(curve, evaluate.domain(curve))


@settings(max_examples=50, deadline=None)
@given(start=angle, sweep=turn)
def test_an_arc_keeps_its_ends_and_its_middle(start, sweep):
    """Whichever way round and from whatever angle, the DXF arc is the same points."""
    curve = CircularArc((3.0, -2.0), 500.0, start, sweep)
    arc = written(curve)
    have = np.array([arc.start_point.vec2, arc.end_point.vec2])
    want = ends(curve) if sweep > 0 else ends(curve)[::-1]
    assert np.abs(have - want).max() < 1e-9
    middle = np.array(
        next(iter(arc.vertices([arc.dxf.start_angle + math.degrees(abs(sweep)) / 2])))
    )
    assert np.hypot(*(middle[:2] - evaluate.points_at(curve, start + sweep / 2)[0])) < 1e-9


@settings(max_examples=50, deadline=None)
@given(start=angle, sweep=turn, ratio=st.floats(0.01, 1.0))
def test_an_elliptic_arc_keeps_its_ends(start, sweep, ratio):
    """Parameters go round anticlockwise from a start within one turn."""
    curve = EllipticArc((3.0, -2.0), (400.0, 300.0), ratio, start, sweep)
    ellipse = written(curve)
    have = np.array([ellipse.start_point.vec2, ellipse.end_point.vec2])
    want = ends(curve) if sweep > 0 else ends(curve)[::-1]
    assert np.abs(have - want).max() < 1e-9
    assert 0 <= ellipse.dxf.start_param <= 2 * math.pi


def test_two_vertices_are_a_line_and_more_a_polyline():
    """A straight step is a LINE; an arc step or more steps make a polyline."""
    two = np.array([[0.0, 0], [3, 4]])
    assert written(Polyline(two)).dxftype() == "LINE"
    assert written(Polyline(two, np.array([0.3, 0.0]))).dxftype() == "LWPOLYLINE"
    assert written(Polyline(np.vstack([two, [[9, 9]]]))).dxftype() == "LWPOLYLINE"
    assert written(Polyline(two, np.array([0.3, 0.0])), "R12").dxftype() == "POLYLINE"


def test_lengths_are_in_the_drawing_s_unit():
    """Centres, radii, marks and letters all follow the scale."""
    document = ezdxf.new("R2000")
    writer = EntityWriter(document, 1 / 25.4)
    hole = writer.circle(Circle(1, 25.4, 50.8, 12.7), "HOLES", 1)
    writer.centre_mark(CentreMark(1, 25.4, 50.8, 50.8), "MARKS", 3)
    writer.label(Label("1", 0.0, 25.4, 50.8), "MARKS", 3)
    assert tuple(hole.dxf.center.vec2) == pytest.approx((1, 2))
    assert hole.dxf.radius == pytest.approx(0.25)
    across, up = document.modelspace().query("LINE")
    assert tuple(across.dxf.start.vec2) == pytest.approx((0, 2))
    assert tuple(up.dxf.end.vec2) == pytest.approx((1, 3))
    (text,) = document.modelspace().query("TEXT")
    assert (text.dxf.height, text.dxf.insert.y) == (pytest.approx(2), pytest.approx(1))
