"""Polylines with bulges, old and new."""

import math

import ezdxf
import numpy as np
import pytest
from dxf_drafts import (
    QUICK,
    as_lines,
    by_gdal,
    circle,
    curves_of,
    drafted,
    entries,
    furthest,
    only,
    read,
    saved,
    tags,
)
from ezdxf.math import bulge_to_arc
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.geometry.curve import Polyline
from holeplacer.geometry.evaluate import points_at

CORNERS = [(0, 0), (10, 0), (10, 5)]


def light(points, flags=0, *more):
    """A LWPOLYLINE; points are (x, y) or (x, y, bulge)."""
    vertices = "".join(
        tags(10, x, 20, y) + "".join(tags(42, bulge) for bulge in bulges)
        for x, y, *bulges in points
    )
    return tags(0, "LWPOLYLINE", 8, "0", 90, len(points), 70, flags, *more) + vertices


def heavy(points, flags=0, *more, vertex_flags=()):
    """A POLYLINE with its VERTEX records."""
    of_vertex = [*vertex_flags, *[0] * len(points)]
    vertices = "".join(
        tags(0, "VERTEX", 8, "0", 10, x, 20, y, 30, 0, 70, flag)
        + "".join(tags(42, bulge) for bulge in bulges)
        for (x, y, *bulges), flag in zip(points, of_vertex, strict=False)
    )
    return tags(0, "POLYLINE", 8, "0", 66, 1, 70, flags, *more) + vertices + tags(0, "SEQEND")


@pytest.mark.parametrize("written", [light, heavy])
def test_vertices_bulges_and_closing(written):
    """Both forms give the same vertices, bulges and closing."""
    points = [(0, 0), (10, 0, 0.5), (10, 5), (0, 5, -1)]
    curve = only(drafted(written(points, 1)))
    assert isinstance(curve, Polyline)
    assert curve.closed
    assert curve.xy.tolist() == [[x, y] for x, y, *_ in points]
    assert curve.bulges.tolist() == [0, 0.5, 0, -1]
    straight = only(drafted(written(CORNERS)))
    assert straight.bulges is None
    assert not straight.closed


@pytest.mark.parametrize("written", [light, heavy])
def test_planes_from_below_mirror_bulges(written):
    """Seen from below the x of vertices and the sense of bulges change sign."""
    curve = only(drafted(written([(0, 0), (10, 0, 1), (10, 5)], 0, 210, 0, 220, 0, 230, -1)))
    assert curve.xy.tolist() == [[0, 0], [-10, 0], [-10, 5]]
    assert curve.bulges.tolist() == [0, -1, 0]


@pytest.mark.parametrize("written", [light, heavy])
@pytest.mark.parametrize("flag", [0, 1])
def test_ends_in_one_point_close(written, flag):
    """A last vertex on the first one closes the polyline and is not kept twice."""
    curve = only(drafted(written([(0, 0, 0.3), (10, 0), (10, 5, 0.2), (0, 0)], flag)))
    assert curve.closed
    assert curve.xy.tolist() == [[0, 0], [10, 0], [10, 5]]
    assert curve.bulges.tolist() == [0.3, 0, 0.2]


def test_repeated_vertices_are_kept_once():
    """Steps without length vanish with their bulges; the arcs around them stay."""
    curve = only(drafted(light([(0, 0), (0, 0, 0.5), (4, 0, 9), (4, 0), (4, 3), (4, 3)])))
    assert curve.xy.tolist() == [[0, 0], [4, 0], [4, 3]]
    assert curve.bulges.tolist() == [0.5, 0, 0]


def test_circle_of_two_vertices():
    """Two vertices with bulge 1 each are a whole circle."""
    curve = only(drafted(light([(-5, 0, 1), (5, 0, 1)], 1)))
    assert np.allclose(np.hypot(*points_at(curve, np.linspace(0, 2, 50)).T), 5)


def test_fitted_vertices_not_the_frame():
    """A spline-fit POLYLINE is its fitted vertices; the frame that was dragged is left out."""
    points = [(0, 9), (0, 0), (5, 4), (9, 9), (10, 0)]
    curve = only(drafted(heavy(points, 4, vertex_flags=(16, 8, 8, 16, 8))))
    assert curve.xy.tolist() == [[0, 0], [5, 4], [10, 0]]


def test_curve_fit_vertices_and_their_bulges_are_kept():
    """A curve-fit POLYLINE consists of all its vertices, the added ones with their arcs."""
    points = [(0, 0, 0.2), (3, 1, 0.3), (6, 0)]
    curve = only(drafted(heavy(points, 2, vertex_flags=(0, 1, 0))))
    assert curve.bulges.tolist() == [0.2, 0.3, 0]


def test_polylines_in_space():
    """A 3D POLYLINE is seen from above; where it is not level, the account says so."""
    level = heavy(CORNERS, 8)
    rising = level.replace("30\n0\n", "30\n4\n", 1)
    drawing = read(drafted(level + rising))
    assert [curve.xy.tolist() for curve in curves_of(drawing)] == [[[0, 0], [10, 0], [10, 5]]] * 2
    assert entries(drawing.account.mended) == {
        ("POLYLINE not level: read as seen from above", "layer 0"): 1
    }


def test_widths_are_accounted_for():
    """The centre line of a wide polyline is read, and the account says so."""
    wide = light(CORNERS, 0, 43, 2.5) + light(CORNERS).replace("10\n10\n", "10\n10\n40\n3\n", 1)
    wide += heavy(CORNERS, 0, 40, 2, 41, 2) + heavy(CORNERS).replace("70\n0\n0", "41\n2\n0", 1)
    drawing = read(drafted(wide))
    assert len(curves_of(drawing)) == 4
    assert entries(drawing.account.mended) == {
        ("LWPOLYLINE with a width: its centre line is read", "layer 0"): 2,
        ("POLYLINE with a width: its centre line is read", "layer 0"): 2,
    }


@pytest.mark.parametrize(
    ("entity", "what"),
    [
        (light([]), "LWPOLYLINE without length"),
        (light([(1, 1)], 1), "LWPOLYLINE without length"),
        (light([(1, 1), (1, 1), (1, 1)], 1), "LWPOLYLINE without length"),
        (light(CORNERS) + tags(10, 4), "LWPOLYLINE with unpaired coordinates"),
        (light([(0, 0, "nan"), (1, 1)]), "LWPOLYLINE with a bulge that is not a number or"),
        (light([(0, 0, 1e300), (1, 1)]), "LWPOLYLINE with a bulge that is not a number or"),
        (light([(0, 0), ("nan", 1)]), "LWPOLYLINE with a coordinate that is not a number"),
        (heavy([]), "POLYLINE without length"),
        (heavy(CORNERS, 16), "POLYLINE that is a surface mesh"),
        (heavy(CORNERS, 64), "POLYLINE that is a surface mesh"),
        (heavy(CORNERS, 4, vertex_flags=(16,) * 3), "POLYLINE that holds only the frame"),
        (heavy([(0, 0), ("1e308", 1)]), "POLYLINE with a coordinate beyond all bounds"),
        (tags(0, "VERTEX", 10, 1, 20, 1), "VERTEX that belongs to no polyline"),
    ],
)
def test_degenerate_polylines_are_accounted_for(entity, what):
    """A polyline that can't be used is named with the reason, and reading goes on."""
    drawing = read(drafted(entity + circle(9, 9, 9)))
    (entry,) = drawing.account.ignored
    assert entry.what.startswith(what)
    assert len(curves_of(drawing)) == 1


coordinates = st.floats(-50, 50).map(lambda value: round(value, 2))
bulges = st.sampled_from([0.0, 0.0, 0.3, -0.7, 1.0])
"""GDAL takes every larger bulge for a half circle; those are judged by ezdxf instead."""


@given(
    st.lists(st.tuples(coordinates, coordinates, bulges), min_size=3, max_size=8, unique=True),
    st.booleans(),
    st.sampled_from(["R12", "R2010"]),
)
@settings(max_examples=15, deadline=None, phases=QUICK)
def test_agrees_with_gdal(tmp_path_factory, points, closed, version):
    """GDAL draws the same polylines, old and new, straight and bulged."""
    steps = zip(points, points[1:] + points[:1], strict=True)
    if any(math.dist(a[:2], b[:2]) < 0.5 for a, b in steps):
        return
    doc = ezdxf.new(version)
    space = doc.modelspace()
    add = space.add_polyline2d if version == "R12" else space.add_lwpolyline
    add(points, format="xyb", close=closed)
    file = saved(doc)
    path = tmp_path_factory.mktemp("gdal") / "sign.dxf"
    assert furthest(as_lines(read(file)), by_gdal(file, path)) < 0.01


@pytest.mark.parametrize("bulge", [0.1, -0.5, 1, -2.5, 40])
def test_agrees_with_ezdxf_s_arcs(bulge):
    """The circle of a bulged step is the one ezdxf works out, its length that of the sweep."""
    start, end = (1, 2), (7, -3)
    centre, _, _, radius = bulge_to_arc(start, end, bulge)
    curve = only(drafted(light([(*start, bulge), end])))
    xy = points_at(curve, np.linspace(0, 1, 5000))
    assert np.allclose(np.hypot(*(xy - (centre.x, centre.y)).T), radius)
    length = np.hypot(*np.diff(xy, axis=0).T).sum()
    assert length == pytest.approx(radius * 4 * math.atan(abs(bulge)), rel=1e-5)
