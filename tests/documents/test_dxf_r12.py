"""What R12 can hold."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.documents import dxf_r12
from holeplacer.documents.page import Layer, Page, Role
from holeplacer.geometry import flatten
from holeplacer.geometry.curve import EllipticArc, Polyline, Spline

KINDS = ("line", "steps", "bulges", "arc", "ellipse", "spline", "rational")


@settings(max_examples=25, deadline=None)
@given(kinds=st.lists(st.sampled_from(KINDS), min_size=3, max_size=8))
def test_a_contour_as_one_polyline_is_the_contour(letter_page, kinds):
    """Every point of the joined polyline lies on the outline, and it goes all the way round."""
    page, outline = letter_page([kinds])
    for contour in page.contours:
        joined = dxf_r12.as_polyline(contour)
        xy = flatten.flatten(joined, 0.005)[1]
        assert joined.closed
        assert np.abs(outline.edge_distance(xy)).max() < 0.05
        ring = max if contour.outer else min
        want = ring(
            r.length for p in outline.pieces for r in (p.polygon.exterior, *p.polygon.interiors)
        )
        assert np.hypot(*np.diff(xy, axis=0).T).sum() == pytest.approx(want, rel=1e-3)


def test_arcs_become_bulges_exactly(letter_page):
    """A circular part is one step with its own bulge, a spline a few arcs, never chords."""
    page, _ = letter_page([["arc", "line", "line"], ["spline", "line", "line"]])
    assert np.count_nonzero(dxf_r12.as_polyline(page.contours[0]).bulges) == 1
    spline = dxf_r12.as_polyline(page.contours[2])
    assert len(spline.xy) < 20
    assert np.count_nonzero(spline.bulges) == len(spline.xy) - 2


def test_only_contours_with_splines_or_ellipses_change(letter_page):
    """Lines, arcs and bulges are kept; splines and ellipses are gone."""
    page, _ = letter_page([["line", "arc", "bulges"], ["line", "spline", "ellipse"]])
    plain = dxf_r12.simplified(page)
    assert [s.curve for s in plain.contours[0].strokes] == [
        s.curve for s in page.contours[0].strokes
    ]
    assert len(plain.contours[2].strokes) == 1
    curves = [s.curve for c in plain.contours for s in c.strokes]
    assert not any(isinstance(curve, Spline | EllipticArc) for curve in curves)
    assert isinstance(plain.contours[2].strokes[0].curve, Polyline)


def test_layer_names_are_plain_and_different():
    """Names lose what R12 forbids, keep 31 signs, and no two become one."""
    names = ["Umriß", "umri?", "a" * 40, "a" * 41, "", "0", "CUT-1", "cut 1", "ВНЕ", "ВНИ"]
    layers = (
        *(Layer(name, Role.CONTOUR, 7) for name in names),
        Layer("HOLES", Role.HOLE, 1),
        Layer("MARKS", Role.MARK, 3),
    )
    page = Page(layers, (), (), (), (), (0, 0, 1, 1), 0.02)
    plain = [layer.name for layer in dxf_r12.simplified(page).layers]
    assert len(set(plain)) == len(plain)
    assert all(set(name) <= set("ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789$-_") for name in plain)
    assert all(1 <= len(name) <= 31 for name in plain)
    assert plain[-2:] == ["HOLES", "MARKS"]
