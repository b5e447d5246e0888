"""Facts of the DXF reference, each with its source and how sure it is.

Sources:
    [d1] AutoCAD 2018 DXF Reference, HEADER section and group codes (Autodesk). Read.
    [d2] DXF Reference, LWPOLYLINE and POLYLINE/VERTEX entities. Read.
    [d3] DXF Reference, "bulge": tangent of a quarter of the included angle, negative if the arc
         goes clockwise from the start point to the end point; 0 straight, 1 a semicircle. Read.
    [R]  recomputed here or with ezdxf 1.4.5.
    [M]  from memory.
"""

import math
import sys
from pathlib import Path

import numpy as np
import pytest
from ezdxf.enums import InsertUnits

sys.path.insert(0, str(Path(__file__).parent.parent / "artwork"))
from dxf_drafts import circle, drafted, line, only, read, tags

from holeplacer.artwork.dxf_units import INSUNITS
from holeplacer.geometry.evaluate import domain, points_at
from holeplacer.units import DRAWING_UNITS_MM


def polyline(*vertices, flags=0):
    body = "".join(tags(10, x, 20, y, 42, bulge) for x, y, bulge in vertices)
    return drafted(tags(0, "LWPOLYLINE", 70, flags) + body)


def test_bulge_of_a_quarter_turn():
    """[d3] [R] Chord (0, 0)-(10, 0), bulge tan(90/4) = .414214: R 7.0711, centre (5, 5), dips."""
    curve = only(polyline((0, 0, 0.41421356), (10, 0, 0)))
    xy = points_at(curve, np.linspace(0, 1, 21))
    assert np.allclose(np.hypot(*(xy - (5, 5)).T), 7.0711, atol=5e-5)
    assert xy[10] == pytest.approx([5, -2.0711], abs=5e-5)


@pytest.mark.parametrize(("bulge", "sweep"), [(1, 180), (-1, -180), (0.41421356, 90), (0, 0)])
def test_bulge_is_the_tangent_of_a_quarter_of_the_sweep(bulge, sweep):
    """[d3] 1 is a semicircle, 0 a straight step; positive turns anticlockwise."""
    curve = only(polyline((0, 0, bulge), (10, 0, 0)))
    before, after = (np.diff(points_at(curve, t), axis=0)[0] for t in ([0, 1e-6], [1 - 1e-6, 1]))
    turn = math.degrees(math.atan2(*after[::-1]) - math.atan2(*before[::-1]))
    assert math.cos(math.radians(turn - sweep)) == pytest.approx(1, abs=1e-6)


@pytest.mark.parametrize("bulge", [0.1, 0.5, 1.0, 3.0])
def test_radius_and_sagitta(bulge):
    """[R] R = c (1 + b^2) / (4 |b|), sagitta = |b| c / 2."""
    chord = 10
    curve = only(polyline((0, 0, bulge), (chord, 0, 0)))
    middle = points_at(curve, 0.5)[0]
    assert -middle[1] == pytest.approx(bulge * chord / 2)
    radius = chord * (1 + bulge**2) / (4 * bulge)
    centre_y = -middle[1] * -1 + radius
    assert np.hypot(*(points_at(curve, 0.2)[0] - (5, centre_y))) == pytest.approx(radius)


def test_circle_of_two_vertices():
    """[R] A closed polyline of two vertices with bulge 1 each is a circle."""
    curve = only(polyline((0, 0, 1), (10, 0, 1), flags=1))
    xy = points_at(curve, np.linspace(0, 2, 41))
    assert np.allclose(np.hypot(*(xy - (5, 0)).T), 5)


def test_closed_flag_and_bulge_of_the_last_vertex():
    """[d2] Bit 1 of group 70 closes; the last vertex's bulge bends the closing step."""
    curve = only(polyline((0, 0, 0), (10, 0, 0), (10, 10, 1), flags=1))
    assert domain(curve) == (0, 3)
    assert np.hypot(*(points_at(curve, 2.5)[0] - (5, 5))) == pytest.approx(math.hypot(5, 5))


def test_circle_states_its_radius():
    """[R] Group 40 of CIRCLE is the radius, not the diameter."""
    assert only(drafted(circle(0, 0, 3.0))).radius == 3.0


def test_arcs_are_degrees_and_anticlockwise():
    """[M] Groups 50 and 51 of ARC are degrees; the arc always runs anticlockwise."""
    curve = only(drafted(tags(0, "ARC", 10, 0, 20, 0, 40, 1, 50, 90, 51, 0)))
    assert math.degrees(curve.sweep) == pytest.approx(270)


def test_codes_of_insunits_are_the_library_s():
    """[R] Each code names the same unit as ezdxf's enumeration."""
    spelled = {
        "in": "Inches", "ft": "Feet", "mm": "Millimeters", "cm": "Centimeters", "m": "Meters",
        "mil": "Mils", "yd": "Yards", "um": "Microns", "dm": "Decimeters",
    }  # fmt: skip
    assert {code: InsertUnits(code).name for code in INSUNITS} == {
        code: spelled[unit] for code, unit in INSUNITS.items()
    }


@pytest.mark.parametrize(("unit", "mm"), [("in", 25.4), ("mm", 1), ("cm", 10), ("m", 1000)])
def test_sizes_of_units(unit, mm):
    """[d1] What one drawing unit is on the finished sign."""
    assert DRAWING_UNITS_MM[unit] == mm


def test_measurement_is_no_unit():
    """[M] $MEASUREMENT only chooses hatch and line type files."""
    header = tags(9, "$MEASUREMENT", 70, 1)
    assert read(drafted(line(0, 0, 1, 1), header=header)).units is None
