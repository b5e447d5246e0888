"""What the DXF format says, checked on raw group codes that no library interprets for us.

Sources: Autodesk DXF reference (2012 and later): HEADER section ($ACADVER, $INSUNITS,
$MEASUREMENT), ENTITIES section (LWPOLYLINE 42, CIRCLE 40, ARC 50 and 51, SPLINE 70 to 73), colour
numbers (62). Status: version codes, unit codes, bulge and colour read there; that an ARC always
turns anticlockwise is from memory (M), checked here against GDAL.
"""

import math

import numpy as np
import pyogrio
import pytest
import shapely

from holeplacer.documents import dxf_file
from holeplacer.documents.page import CentreMark, Circle, Contour, Label, Layer, Page, Role, Stroke
from holeplacer.geometry.curve import CircularArc, EllipticArc, Polyline, Spline

LAYERS = (
    Layer("OUTER", Role.CONTOUR, 7),
    Layer("HOLES", Role.HOLE, 1),
    Layer("MARKS", Role.MARK, 3),
)


def page(*curves, circles=(), marks=(), labels=()):
    contours = tuple(Contour((Stroke(curve, "OUTER"),), outer=True) for curve in curves)
    return Page(LAYERS, contours, circles, marks, labels, (0.0, -3.0, 10.0, 10.0), 0.02)


def tags(data):
    """Pairs of group code and value."""
    lines = data.decode("cp1252").split("\r\n")
    return list(zip((int(line) for line in lines[:-1:2]), lines[1::2], strict=True))


def variable(data, name):
    pairs = tags(data)
    return pairs[pairs.index((9, name)) + 1]


def entity(data, kind):
    """Group codes of the first entity of a kind."""
    pairs = tags(data)
    start = pairs.index((0, kind), pairs.index((2, "ENTITIES")))
    end = next(i for i in range(start + 1, len(pairs)) if pairs[i][0] == 0)
    return pairs[start:end]


def values(pairs, code):
    return [value for this, value in pairs if this == code]


@pytest.mark.parametrize(
    ("version", "code"),
    [
        ("R12", "AC1009"), ("R2000", "AC1015"), ("R2004", "AC1018"), ("R2007", "AC1021"),
        ("R2010", "AC1024"), ("R2013", "AC1027"), ("R2018", "AC1032"),
    ],
)  # fmt: skip
def test_version_codes(version, code):
    """$ACADVER names the version by its code."""
    assert variable(dxf_file.dxf_bytes(page(), version=version), "$ACADVER") == (1, code)


@pytest.mark.parametrize(("units", "code", "metric"), [("mm", "4", "1"), ("in", "1", "0")])
def test_unit_codes(units, code, metric):
    """$INSUNITS 4 is millimetres, 1 inches; $MEASUREMENT 1 is metric, 0 English."""
    data = dxf_file.dxf_bytes(page(), units=units)
    assert variable(data, "$INSUNITS") == (70, code)
    assert variable(data, "$MEASUREMENT") == (70, metric)


def test_a_hole_is_a_circle_by_its_radius_in_red():
    """CIRCLE: 8 layer, 62 colour 1 (red), 10 and 20 centre, 40 the radius, not the diameter."""
    data = dxf_file.dxf_bytes(page(circles=(Circle(1, 2.5, 4.0, 6.0),)))
    pairs = entity(data, "CIRCLE")
    assert values(pairs, 8) == ["HOLES"]
    assert values(pairs, 62) == ["1"]
    assert [float(values(pairs, code)[0]) for code in (10, 20, 40)] == [2.5, 4.0, 3.0]


def test_bulge_is_the_tangent_of_a_quarter_of_the_sweep():
    """Chord (0,0) to (10,0) with bulge 0.414214: radius 7.0711, centre (5,5), the arc dips
    2.0711 below the chord. Recomputed by hand; GDAL draws it so."""
    curve = Polyline(np.array([[0.0, 0], [10, 0], [10, 10]]), np.array([0.414214, 0, 0]), True)
    data = dxf_file.dxf_bytes(page(curve))
    pairs = entity(data, "LWPOLYLINE")
    assert values(pairs, 90) == ["3"]
    assert values(pairs, 70) == ["1"]
    assert [float(value) for value in values(pairs, 42)] == [0.414214]


def test_gdal_draws_the_bulge_below_its_chord(tmp_path):
    """The second reader puts the arc's lowest point where the hand calculation has it."""
    curve = Polyline(np.array([[0.0, 0], [10, 0], [10, 10]]), np.array([0.414214, 0, 0]), True)
    (line,) = gdal(tmp_path, page(curve))
    left, bottom, right, top = line.bounds
    assert (left, right, top) == (0.0, 10.0, 10.0)
    assert bottom == pytest.approx(-2.0711, abs=0.005)
    near = [(x, y) for x, y, *_ in line.coords if y < -1]
    assert np.hypot(*(np.array(near) - (5, 5)).T) == pytest.approx(7.0711, abs=1e-3)


@pytest.mark.parametrize("version", ["R12", "R2000"])
def test_gdal_draws_a_clockwise_arc_on_its_own_side(tmp_path, version):
    """A quarter turned clockwise is written anticlockwise and stays the same quarter."""
    arc = CircularArc((0.0, 0.0), 10.0, math.pi / 2, -math.pi / 2)
    (line,) = gdal(tmp_path, page(arc), version=version)
    assert shapely.Point(10 / math.sqrt(2), 10 / math.sqrt(2)).distance(line) < 0.01
    assert line.bounds == pytest.approx((0, 0, 10, 10), abs=1e-6)


def test_a_spline_has_its_numbers(tmp_path):
    """SPLINE: 71 degree, 72 knots, 73 control points; flag 4 says rational, 8 planar."""
    control = np.array([[0.0, 0], [3, 5], [7, 5], [10, 0]])
    knots = np.repeat([0.0, 1.0], 4)
    plain = entity(dxf_file.dxf_bytes(page(Spline(3, control, knots))), "SPLINE")
    assert [values(plain, code) for code in (70, 71, 72, 73)] == [["8"], ["3"], ["8"], ["4"]]
    assert [float(value) for value in values(plain, 40)] == knots.tolist()
    assert [float(value) for value in values(plain, 10)] == control[:, 0].tolist()
    weights = np.array([1.0, 2.0, 0.5, 1.0])
    rational = entity(dxf_file.dxf_bytes(page(Spline(3, control, knots, weights))), "SPLINE")
    assert values(rational, 70) == ["12"]
    assert [float(value) for value in values(rational, 41)] == weights.tolist()


def test_an_ellipse_has_its_axis_and_ratio():
    """ELLIPSE: 11 and 21 the major half axis from the centre, 40 the ratio, 41 and 42 the ends."""
    curve = EllipticArc((1.0, 2.0), (4.0, 3.0), 0.5, 0.25, 1.5)
    pairs = entity(dxf_file.dxf_bytes(page(curve)), "ELLIPSE")
    found = [float(values(pairs, code)[0]) for code in (10, 20, 11, 21, 40, 41, 42)]
    assert found == [1.0, 2.0, 4.0, 3.0, 0.5, 0.25, 1.75]


def test_r12_holds_only_what_r12_knows():
    """No LWPOLYLINE, SPLINE, ELLIPSE, no subclass markers (100), no $INSUNITS."""
    control = np.array([[0.0, 0], [3, 5], [7, 5], [0, 0]])
    data = dxf_file.dxf_bytes(
        page(
            Spline(3, control, np.repeat([0.0, 1.0], 4)),
            Polyline(np.array([[0.0, 0], [5, 0], [5, 5]]), np.array([0.5, 0, 0]), True),
            EllipticArc((1.0, 2.0), (4.0, 3.0), 0.5, 0.0, 2 * math.pi),
            circles=(Circle(1, 1.0, 1.0, 2.0),),
            marks=(CentreMark(1, 1.0, 1.0, 1.0),),
            labels=(Label("1", 0.0, 0.0, 2.0),),
        ),
        version="R12",
    )
    pairs = tags(data)
    begin = pairs.index((2, "ENTITIES"))
    kinds = {value for code, value in pairs[begin:] if code == 0}
    assert kinds == {
        "CIRCLE", "POLYLINE", "VERTEX", "SEQEND", "LINE", "TEXT", "ENDSEC", "EOF",
    }  # fmt: skip
    assert not any(code == 100 for code, _ in pairs)
    assert (9, "$INSUNITS") not in pairs
    assert pairs[0] == (999, "Units: millimetres")


def test_extents_are_stated():
    """$EXTMIN and $EXTMAX are the sign's bounds, so that a viewer opens on it."""
    pairs = tags(dxf_file.dxf_bytes(page(circles=(Circle(1, 1.0, 1.0, 2.0),))))
    low, high = pairs.index((9, "$EXTMIN")), pairs.index((9, "$EXTMAX"))
    assert [float(value) for _, value in pairs[low + 1 : low + 3]] == [0.0, -3.0]
    assert [float(value) for _, value in pairs[high + 1 : high + 3]] == [10.0, 10.0]


def gdal(folder, shown, version="R2000"):
    path = folder / "out.dxf"
    path.write_bytes(dxf_file.dxf_bytes(shown, version=version))
    return [shapely.from_wkb(shape) for shape in pyogrio.raw.read(path)[2]]
