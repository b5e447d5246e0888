"""The outline's rings as the artist's own curves."""

import itertools
import math

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.documents import contours, dxf_check, dxf_file
from holeplacer.documents.page import Layer, Page, Role
from holeplacer.geometry.curve import CircularArc, Polyline, Spline
from holeplacer.outline import boss, offset
from holeplacer.outline.drawn import DrawnCurves
from holeplacer.outline.outline import Outline

KINDS = ("line", "steps", "bulges", "arc", "ellipse", "spline", "rational")
kind_lists = st.lists(st.sampled_from(KINDS), min_size=3, max_size=7)


def gaps(contour):
    """Distances between each stroke's end and the next one's start."""
    ends = [contours.ends_of(stroke) for stroke in contour.strokes]
    return [math.hypot(*(one[1] - other[0])) for one, other in itertools.pairwise([*ends, ends[0]])]


def prove(found, outline, version="R2000"):
    """Write the contours and have the file proven against the outline."""
    names = dict.fromkeys(stroke.layer for item in found for stroke in item.strokes)
    layers = (
        *(Layer(name, Role.CONTOUR, 7) for name in names),
        Layer("HOLES-1", Role.HOLE, 1),
        Layer("MARKS-1", Role.MARK, 3),
    )
    page = Page(layers, found, (), (), (), outline.bounds_mm, 0.03)
    data = dxf_file.dxf_bytes(page, version=version)
    dxf_check.check_dxf(data, page, outline, version=version, units="mm")


@settings(max_examples=30, deadline=None)
@given(kinds=kind_lists)
def test_untouched_curves_go_out_as_they_were_drawn(drawn_letters, kinds):
    """Every curve of an unmended letter is the very curve that was drawn, on its layer."""
    drawn, outline = drawn_letters([kinds])
    found = contours.contours_of(outline, drawn)
    assert [contour.outer for contour in found] == [True, False]
    strokes = [stroke for contour in found for stroke in contour.strokes]
    assert len(strokes) == len(drawn.curves)
    for stroke in strokes:
        index = [id(curve) for curve in drawn.curves].index(id(stroke.curve))
        assert stroke.layer == drawn.layers[index]
    assert max(gap for contour in found for gap in gaps(contour)) <= 1e-6


@settings(max_examples=30, deadline=None)
@given(one=kind_lists, two=kind_lists, version=st.sampled_from(["R12", "R2000"]))
def test_united_letters_are_closed_and_keep_their_kinds(drawn_letters, one, two, version):
    """Where two letters overlap, curves are trimmed at the crossing and still close."""
    drawn, outline = drawn_letters([one, two], apart=120.0)
    found = contours.contours_of(outline, drawn)
    prove(found, outline, version)
    used = {type(curve) for curve in drawn.curves}
    assert {type(s.curve) for c in found for s in c.strokes} <= used | {Polyline}


@pytest.mark.parametrize("by", [-3.0, 2.0])
def test_an_offset_outline_is_arcs_and_lines(drawn_letters, by):
    """After an offset nothing is left of the drawn curves; arcs stand in for hundreds of chords."""
    drawn, outline = drawn_letters([["spline"] * 4])
    offset_outline = offset.offset(outline, by)
    found = contours.contours_of(offset_outline, drawn)
    prove(found, offset_outline)
    steps = sum(len(stroke.curve.xy) for contour in found for stroke in contour.strokes)
    assert steps < offset_outline.vertex_count / 4
    assert all(stroke.curve.bulges is not None for c in found for stroke in c.strokes)


def test_a_boss_changes_only_its_own_stretch(drawn_letters):
    """With a boss on one side, the curves of the other sides are still the drawn ones."""
    drawn, outline = drawn_letters([["spline"] * 4])
    swollen = boss.with_boss(outline, 80.0, -50.0, 15.0, 10.0)
    found = contours.contours_of(swollen, drawn)
    prove(found, swollen)
    kept = {id(s.curve) for c in found for s in c.strokes} & {id(c) for c in drawn.curves}
    assert len(kept) >= 6
    assert any(isinstance(s.curve, Polyline) for c in found for s in c.strokes)


def test_artwork_without_layers_goes_out_by_what_it_is(drawn_letters):
    """Outer contours on OUTER, counters on COUNTERS."""
    drawn, outline = drawn_letters([["line"] * 4], layer="")
    found = contours.contours_of(outline, drawn)
    assert [{s.layer for s in c.strokes} for c in found] == [{"OUTER"}, {"COUNTERS"}]


def test_new_edges_go_on_the_artwork_s_only_layer(drawn_letters):
    """An offset sign whose artwork has one layer stays on that layer."""
    drawn, outline = drawn_letters([["spline"] * 3], layer="CUT")
    found = contours.contours_of(offset.offset(outline, 1.0), drawn)
    assert {s.layer for c in found for s in c.strokes} == {"CUT"}


def square(second, third):
    """A square of a polyline, a curve and whatever closes it, with a gap between."""
    curves = (Polyline(np.array([[0.0, 0], [40, 0], [40, 40]])), second, third)
    rows = [np.array([[0.0, 0], [40, 0], [40, 40]])]
    rows += [np.array([[40.0, 40], [0, 40]]), np.array([[0.0, 40], [0, 0]])]
    table = np.vstack(rows)
    curve = np.array([0, 0, 0, 1, 1, 2, 2])
    t = np.array([0.0, 1, 2, 0, 1, 0, 1])
    drawn = DrawnCurves(curves, ("",) * 3, ("LINE",) * 3, table, curve, t)
    ring = [(0, 0), (40, 0), (40, 40), (0, 40)]
    return drawn, Outline.from_geometry(shapely.Polygon(ring))


@pytest.mark.parametrize("gap", [0.0, 5e-7, 1e-5, 0.004])
def test_small_gaps_are_closed_by_moving_an_end(gap):
    """Ends a few thousandths apart meet afterwards; no stroke is added."""
    one = Polyline(np.array([[40.0, 40 + gap], [0, 40 + gap]]))
    spline = Spline(1, np.array([[0.0, 40], [gap, 0]]), np.array([0.0, 0, 1, 1]))
    (contour,) = contours.contours_of(*square(one, spline)[::-1])
    assert len(contour.strokes) == 3
    assert max(gaps(contour)) <= 1e-6


def test_wide_gaps_are_bridged():
    """Ends further apart get a straight stroke between, and the curves stay as they are."""
    one = Polyline(np.array([[40.0, 40.05], [0, 40.05]]))
    two = Polyline(np.array([[0.0, 40], [0, 0]]))
    (contour,) = contours.contours_of(*square(one, two)[::-1])
    assert len(contour.strokes) == 5
    assert {id(one), id(two)} < {id(stroke.curve) for stroke in contour.strokes}
    assert max(gaps(contour)) <= 1e-6


def test_an_arc_is_snapped_by_turning_it_a_little():
    """An arc has no end point to move: it is turned and scaled about its start."""
    arc = CircularArc((40.0, 40.0 - 1e-4), 40.0, math.pi / 2, math.pi / 2)
    stroke = contours._reaching(contours.Stroke(arc, ""), np.array([0.0, 40.0]))
    assert isinstance(stroke.curve, CircularArc)
    have = contours.ends_of(stroke)
    assert np.abs(have - [contours.ends_of(contours.Stroke(arc, ""))[0], [0, 40]]).max() < 1e-9
