"""Splines by control points and by fit points."""

import math

import ezdxf
import numpy as np
import pytest
import shapely
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
from ezdxf.math import fit_points_to_cad_cv
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.geometry.curve import Polyline, Spline
from holeplacer.geometry.evaluate import domain, is_closed, points_at

CLAMPED = (0, 0, 0, 0, 1, 1, 1, 1)
CONTROL = ((0, 0), (1, 3), (4, 3), (5, 0))


def spline(control=CONTROL, knots=CLAMPED, weights=(), degree=3, flags=8, fit=(), more=()):
    return (
        tags(0, "SPLINE", 8, "0", 70, flags, 71, degree, *more)
        + "".join(tags(40, knot) for knot in knots)
        + "".join(tags(41, weight) for weight in weights)
        + "".join(tags(10, x, 20, y, 30, 0) for x, y in control)
        + "".join(tags(11, x, 21, y, 31, 0) for x, y in fit)
    )


def by_ezdxf(doc, count=60):
    """Points of the only SPLINE of a document, by ezdxf's own evaluation."""
    (entity,) = doc.modelspace().query("SPLINE")
    curve = entity.construction_tool()
    knots = curve.knots()
    t = np.linspace(knots[curve.order - 1], knots[curve.count], count)
    return t, np.array([tuple(point)[:2] for point in curve.points(t)])


def test_splines_stay_splines():
    """Degree, control points, knots and weights come out as they stand in the file."""
    curve = only(drafted(spline(weights=(1, 2, 2, 1), flags=12)))
    assert isinstance(curve, Spline)
    assert curve.degree == 3
    assert curve.control.tolist() == [list(point) for point in CONTROL]
    assert curve.knots.tolist() == list(CLAMPED)
    assert (curve.weights / curve.weights[0]).tolist() == [1, 2, 2, 1]


def test_equal_weights_are_none():
    """Weights that are all the same leave an ordinary spline."""
    assert only(drafted(spline(weights=(3, 3, 3, 3)))).weights is None


coordinates = st.floats(-50, 50).map(lambda value: round(value, 2))
wild = st.sampled_from([0.0, 1e-300, 1e-12, 1.0, 1 + 1e-15, -3.0, 7.0, 1e9, -1e-9])
controls = st.lists(st.tuples(coordinates, coordinates), min_size=5, max_size=9, unique=True)


@given(
    controls,
    st.sampled_from(["open", "closed", "rational", "closed rational", "uniform"]),
    st.integers(2, 4),
)
@settings(max_examples=30, deadline=None, phases=QUICK)
def test_agrees_with_ezdxf_s_evaluation(control, kind, degree):
    """Open, closed, uniform and rational splines run through the points ezdxf works out."""
    doc = ezdxf.new("R2000")
    control = [(*point, 0.0) for point in control]
    space, weights = doc.modelspace(), [1 + i % 3 for i in range(len(control))]
    if kind == "open":
        space.add_open_spline(control, degree)
    elif kind == "closed":
        space.add_spline(degree=degree).set_closed(control, degree)
    elif kind == "rational":
        space.add_rational_spline(control, weights, degree)
    elif kind == "uniform":
        space.add_spline(degree=degree).set_uniform(control, degree)
    else:
        space.add_spline(degree=degree).set_closed_rational(control, weights, degree)
    curve = only(saved(doc))
    t, expected = by_ezdxf(doc)
    assert np.allclose(points_at(curve, t), expected, atol=1e-6)
    assert is_closed(curve) == kind.startswith("closed")


@given(controls)
@settings(max_examples=10, deadline=None, phases=QUICK)
def test_agrees_with_gdal(tmp_path_factory, control):
    """GDAL draws the same open splines."""
    doc = ezdxf.new("R2000")
    doc.modelspace().add_open_spline(control)
    file = saved(doc)
    theirs = by_gdal(file, tmp_path_factory.mktemp("gdal") / "sign.dxf")
    corners = shapely.get_coordinates(theirs)
    ours = as_lines(read(file))
    assert shapely.distance(ours, shapely.points(corners)).max() < 0.01
    assert furthest(ours, theirs) < 0.05 * float(np.ptp(corners, axis=0).max())


@pytest.mark.parametrize("version", ["R2000", "R2018"])
def test_fit_points_as_drawing_programs_lay_them(version):
    """A spline given by fit points runs through them as ezdxf's imitation of CAD does."""
    points = [(0, 0), (3, 5), (8, 4), (12, -2), (15, 1)]
    doc = ezdxf.new(version)
    doc.modelspace().add_spline(points)
    drawing = read(saved(doc))
    (curve,) = curves_of(drawing)
    expected = fit_points_to_cad_cv(points)
    share = np.linspace(0, 1, 50)
    theirs = np.array([tuple(p)[:2] for p in expected.points(share * expected.max_t)])
    start, end = domain(curve)
    assert np.allclose(points_at(curve, start + share * (end - start)), theirs, atol=1e-9)
    assert "laid through them" in drawing.account.mended[0].what


def test_fit_points_with_end_tangents():
    """End tangents are kept; ezdxf's construction agrees."""
    points, tangents = [(0, 0), (3, 5), (8, 4)], [(0, 2), (1, -1)]
    more = (12, 0, 22, 2, 13, 1, 23, -1)
    curve = only(drafted(spline((), (), fit=points, more=more)))
    expected = fit_points_to_cad_cv(points, tangents)
    share = np.linspace(0, 1, 50)
    theirs = np.array([tuple(p)[:2] for p in expected.points(share * expected.max_t)])
    start, end = domain(curve)
    assert np.allclose(points_at(curve, start + share * (end - start)), theirs, atol=1e-9)


@given(
    st.lists(st.tuples(wild, wild), min_size=2, max_size=7),
    st.sampled_from([0, 1]),
    st.sampled_from([(), (12, 0, 22, 1e-200), (13, 1e9, 23, 3)]),
)
@settings(max_examples=60, deadline=None, phases=QUICK)
def test_any_fit_points_give_a_curve_or_a_reason(points, flags, more):
    """Fit points of wildly different distances are followed or refused, never a crash."""
    drawing = read(drafted(spline((), (), fit=points, flags=flags, more=more) + circle()))
    for curve in curves_of(drawing):
        assert np.isfinite(points_at(curve, domain(curve))).all()
    assert len(curves_of(drawing)) + len(drawing.account.ignored) == 2


def test_closed_fit_points_come_round_smoothly():
    """A closed spline through fit points returns to its start in one smooth curve."""
    points = [(math.cos(a), math.sin(a)) for a in np.arange(8) * math.tau / 8]
    curve = only(drafted(spline((), (), fit=points, flags=1)))
    assert is_closed(curve)
    radius = np.hypot(*points_at(curve, np.linspace(*domain(curve), 200)).T)
    assert np.ptp(radius) < 0.01


def test_two_fit_points_are_a_line():
    """Two points without tangents give a straight step; repeated points count once."""
    curve = only(drafted(spline((), (), fit=[(0, 0), (0, 0), (3, 4)])))
    assert isinstance(curve, Polyline)
    assert curve.xy.tolist() == [[0, 0], [3, 4]]


@pytest.mark.parametrize(
    ("entity", "what"),
    [
        (spline(degree=0), "with a degree"),
        (spline(degree=12), "with a degree"),
        (spline(degree="nan"), "with a degree"),
        (spline(knots=(0, 0, 1, 1)), "with knots that do not fit"),
        (spline(knots=()), "with knots that do not fit"),
        (spline(knots=(0, 0, 0, 0, 1, 1, 1, 0.5)), "with knots that do not fit"),
        (spline(knots=(1,) * 8), "with knots that do not fit"),
        (spline(knots=(0, 0, 0, "nan", 1, 1, 1, 1)), "with knots that do not fit"),
        (spline(knots=(0, 0, 0, 0, "inf", "inf", "inf", "inf")), "with knots that do not fit"),
        (spline(((0, 0),) * 4), "without length"),
        (spline(((0, 0), ("nan", 0), (1, 1), (2, 2))), "with a coordinate that is not a number"),
        (spline(((0, 0), (1e300, 0), (1, 1), (2, 2))), "with a coordinate beyond all bounds"),
        (spline(weights=(1, 0, 1, 1)), "with weights"),
        (spline(weights=(1, -1, 1, 1)), "with weights"),
        (spline(weights=(1, "nan", 1, 1)), "with weights"),
        (spline(weights=(1, 1)), "with weights"),
        (spline() + tags(10, 5), "with unpaired coordinates"),
        (spline(((0, 0), (1, 0), (5, 5), (6, 5)), (0, 0, 1, 1, 2, 2), degree=1), "with a break"),
        (spline((), (), fit=[(0, 0)]), "without length"),
        (spline((), (), fit=[(0, 0), (0, 0)]), "without length"),
        (spline((), (), fit=[(0, 0), ("nan", 0)]), "with a coordinate that is not a number"),
        (spline((), ()), "without length"),
    ],
)
def test_unusable_splines_are_accounted_for(entity, what):
    """A spline that can't be used is named with the reason, and its neighbours are read."""
    drawing = read(drafted(spline() + entity + circle(9, 9, 9) + spline()))
    (entry,) = drawing.account.ignored
    assert entry.what.startswith(f"SPLINE {what}")
    assert len(curves_of(drawing)) == 3


def test_splines_that_leave_the_plane_are_seen_from_above():
    """A SPLINE whose z changes is read, and the account says so."""
    drawing = read(drafted(spline().replace("30\n0\n", "30\n2\n", 1)))
    assert entries(drawing.account.mended) == {
        ("SPLINE not level: read as seen from above", "layer 0"): 1
    }
