"""The page as a DXF file."""

import io
import math

import ezdxf
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.documents import caution, dxf_check, dxf_file, dxf_wish
from holeplacer.documents.page import Contour, Layer, Page, Role, Stroke
from holeplacer.errors import InputError
from holeplacer.geometry.curve import CircularArc, EllipticArc, Polyline, Spline

KINDS = ("line", "steps", "bulges", "arc", "ellipse", "spline", "rational")


def read(data: bytes) -> ezdxf.document.Drawing:
    return ezdxf.read(io.StringIO(data.decode("cp1252"), newline=None))


@settings(max_examples=25, deadline=None)
@given(
    letters=st.lists(
        st.lists(st.sampled_from(KINDS), min_size=3, max_size=7), min_size=1, max_size=2
    ),
    version=st.sampled_from(dxf_wish.VERSIONS),
    units=st.sampled_from(["mm", "in"]),
)
def test_what_is_written_passes_the_read_back(letter_page, letters, version, units):
    """Any mixture of curves, in any version and unit, reads back as the same sign."""
    page, outline = letter_page(letters)
    data = dxf_file.dxf_bytes(page, version=version, units=units)
    dxf_check.check_dxf(data, page, outline, version=version, units=units)


def test_equal_pages_give_equal_bytes(letter_page):
    """No date and no chance identifier is in the file."""
    page, _ = letter_page([KINDS])
    assert dxf_file.dxf_bytes(page) == dxf_file.dxf_bytes(page)


@pytest.mark.parametrize(("units", "code", "metric"), [("mm", 4, 1), ("in", 1, 0)])
def test_the_unit_is_stated(letter_page, units, code, metric):
    """`$INSUNITS` and `$MEASUREMENT` say millimetres or inches, and coordinates follow."""
    page, _ = letter_page([KINDS])
    document = read(dxf_file.dxf_bytes(page, units=units))
    assert (document.header["$INSUNITS"], document.header["$MEASUREMENT"]) == (code, metric)
    (hole,) = document.modelspace().query("CIRCLE[layer=='HOLES']")
    assert hole.dxf.radius == pytest.approx(3.572 / (25.4 if units == "in" else 1), abs=1e-12)


def test_r12_states_its_unit_in_words(letter_page):
    """R12 has no variable for the unit: a comment at the head of the file says it."""
    page, _ = letter_page([KINDS])
    data = dxf_file.dxf_bytes(page, version="R12", units="in")
    assert data.startswith(b"999\r\nUnits: inches\r\n")
    kinds = {entity.dxftype() for entity in read(data).modelspace()}
    assert kinds <= {"LINE", "CIRCLE", "ARC", "POLYLINE", "TEXT"}


def test_curves_keep_their_kind(letter_page):
    """A spline goes out with its own degree, control points, knots and weights."""
    page, _ = letter_page([["spline", "rational", "arc", "ellipse", "line", "bulges"]])
    space = read(dxf_file.dxf_bytes(page)).modelspace()
    kinds = [entity.dxftype() for entity in space if entity.dxf.layer not in ("HOLES", "MARKS")]
    assert sorted(set(kinds)) == ["ARC", "ELLIPSE", "LINE", "LWPOLYLINE", "SPLINE"]
    drawn = [s.curve for c in page.contours[::-1] for s in c.strokes if isinstance(s.curve, Spline)]
    written = list(space.query("SPLINE"))
    assert len(written) == len(drawn) == 4
    for curve, entity in zip(drawn, written, strict=True):
        assert np.array_equal(np.array(entity.control_points)[:, :2], curve.control)
        assert np.array_equal(entity.knots, curve.knots)
        assert np.array_equal(entity.weights, [] if curve.weights is None else curve.weights)


def test_whole_curves_are_whole_entities(letter_page):
    """A full circle, a full ellipse and a closed polyline are one entity each."""
    page, _ = letter_page([KINDS])
    whole = (
        CircularArc((0.0, 0.0), 5.0, 1.0, -2 * math.pi),
        EllipticArc((30.0, 0.0), (4.0, 3.0), 0.5, 2.0, 2 * math.pi),
        Polyline(np.array([[60.0, 0], [70, 0], [70, 9]]), np.array([0.5, 0, -0.2]), closed=True),
    )
    contours = tuple(Contour((Stroke(curve, "0"),), outer=True) for curve in whole)
    page = Page(page.layers, contours, (), (), (), (-5, -9, 70, 9), 0.02)
    space = read(dxf_file.dxf_bytes(page)).modelspace()
    circle, ellipse, polyline = space
    assert [e.dxftype() for e in space] == ["CIRCLE", "ELLIPSE", "LWPOLYLINE"]
    assert circle.dxf.radius == 5.0
    assert (ellipse.dxf.start_param, ellipse.dxf.end_param) == (0.0, 2 * math.pi)
    assert polyline.closed
    assert polyline.get_points("xyb") == [(60, 0, 0.5), (70, 0, 0), (70, 9, -0.2)]


def test_holes_come_first_and_outer_contours_after_counters(letter_page):
    """Entities stand in the order they are cut: holes, counters, outer contours, marks."""
    page, _ = letter_page([["line"] * 4])
    space = read(dxf_file.dxf_bytes(page)).modelspace()
    reach = [abs(e.dxf.start.x) > 40 or abs(e.dxf.start.y + 50) > 40 for e in list(space)[1:9]]
    assert next(iter(space)).dxftype() == "CIRCLE"
    assert reach == [False] * 4 + [True] * 4
    assert {e.dxf.layer for e in list(space)[9:]} == {"MARKS"}


def test_holes_have_their_own_layer_and_colour(letter_page):
    """Holes are red circles on their layer, marks are green on theirs."""
    page, _ = letter_page([["line"] * 4])
    document = read(dxf_file.dxf_bytes(page))
    assert document.layers.get("HOLES").color == 1
    assert [e.dxf.color for e in document.modelspace().query("*[layer=='HOLES']")] == [1]
    assert {e.dxf.color for e in document.modelspace().query("*[layer=='MARKS']")} == {3}
    assert document.audit().errors == []


@pytest.mark.parametrize("wrong", [{"version": "R9"}, {"units": "ell"}])
def test_unknown_wishes_are_refused(letter_page, wrong):
    """A version or unit that can't be written is named in one sentence."""
    page, _ = letter_page([["line"] * 3])
    with pytest.raises(InputError, match="can't be written"):
        dxf_file.dxf_bytes(page, **wrong)


def test_layer_zero_may_hold_the_artwork(letter_page):
    """Layer 0 exists in every file and is not added a second time."""
    page, _ = letter_page([["line"] * 3])
    layers = (Layer("0", Role.CONTOUR, 5), *page.layers[1:])
    page = Page(layers, page.contours, (), (), (), page.bounds_mm, 0.02)
    assert read(dxf_file.dxf_bytes(page)).layers.get("0").color == 5


@pytest.mark.parametrize("version", ["R12", "R2000", "R2018"])
def test_the_caution_heads_the_file(letter_page, version):
    """Every drawing says what its figures are not, in a comment that every reader skips."""
    page, _ = letter_page([["line"] * 4])
    text = dxf_file.dxf_bytes(page, version=version).decode("latin-1")
    assert f"999\r\n{caution.SHORT}\r\n" in text[:300]
