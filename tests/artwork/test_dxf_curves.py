"""Lines, arcs, circles and ellipses."""

import math

import ezdxf
import numpy as np
import pytest
from dxf_drafts import (
    QUICK,
    as_lines,
    by_gdal,
    circle,
    drafted,
    ends_of_lines,
    entries,
    furthest,
    line,
    only,
    read,
    saved,
    tags,
)
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.geometry.curve import CircularArc, EllipticArc
from holeplacer.geometry.evaluate import domain, points_at


def arc(start, end, *more):
    return tags(0, "ARC", 8, 0, 10, 0, 20, 0, 40, 2, 50, start, 51, end, *more)


def ellipse(ratio, start, end, *more):
    return tags(0, "ELLIPSE", 10, 1, 20, 2, 11, 4, 21, 0, 40, ratio, 41, start, 42, end, *more)


def test_lines_keep_their_ends():
    """A LINE is its two points, on its layer."""
    drawing = read(drafted(line(0.1, -2e3, 1 / 3, 1e-9, on="A")))
    assert ends_of_lines(drawing).tolist() == [[0.1, -2e3, 1 / 3, 1e-9]]
    assert drawing.lines[0].layer == "A"


def test_slanting_lines_are_seen_from_above():
    """A LINE that rises in z is read from above, and the account says so."""
    drawing = read(drafted(line(0, 0, 1, 1, 30, 0, 31, 5) + line(0, 0, 1, 1, 30, 7, 31, 7)))
    assert len(ends_of_lines(drawing)) == 2
    assert entries(drawing.account.mended) == {
        ("LINE not level: read as seen from above", "layer 0"): 1
    }


@pytest.mark.parametrize(
    ("start", "end", "sweep"),
    [(0, 90, 90), (350, 10, 20), (90, 0, 270), (0, 360, 360), (-180, 180, 360), (0, -360, 360)],
)
def test_arcs_run_anticlockwise(start, end, sweep):
    """An ARC turns anticlockwise from its start to its end angle, a whole turn if they agree."""
    curve = only(drafted(arc(start, end)))
    assert curve.radius == 2
    assert math.degrees(curve.sweep) == pytest.approx(sweep)
    first = math.radians(start)
    assert points_at(curve, curve.start)[0] == pytest.approx(
        [2 * math.cos(first), 2 * math.sin(first)]
    )


def test_arcs_from_below_run_clockwise():
    """Seen from below an ARC is mirrored: x changes its sign, and so does the sweep."""
    curve = only(drafted(arc(0, 90, 210, 0, 220, 0, 230, -1)))
    assert np.allclose(points_at(curve, domain(curve)), [[-2, 0], [0, 2]])
    assert curve.sweep == pytest.approx(-math.pi / 2)


def test_whole_ellipse_by_default():
    """An ELLIPSE without parameters is whole."""
    curve = only(drafted(tags(0, "ELLIPSE", 10, 1, 20, 2, 11, 0, 21, 4, 40, 0.5)))
    assert curve.sweep == pytest.approx(math.tau)
    assert np.allclose(points_at(curve, [0, math.pi / 2]), [[1, 6], [-1, 2]])


def test_odd_ellipses_mean_what_they_say():
    """A ratio above 1 swaps the axes; a negative one and a plane from below turn the sense."""
    long = only(drafted(ellipse(2, 0, math.pi / 2)))
    assert isinstance(long, EllipticArc)
    assert long.ratio == 0.5
    assert np.allclose(points_at(long, domain(long)), [[5, 2], [1, 10]])
    below = only(drafted(ellipse(0.5, 0, math.pi / 2, 210, 0, 220, 0, 230, -1)))
    negative = only(drafted(ellipse(-0.5, 0, math.pi / 2)))
    for curve in (below, negative):
        assert np.allclose(points_at(curve, domain(curve)), [[5, 2], [1, 0]])


@pytest.mark.parametrize(
    ("entity", "what"),
    [
        (line(1, 1, 1, 1), "LINE without length"),
        (circle(0, 0, 0), "CIRCLE with a radius that is not positive"),
        (circle(0, 0, -3), "CIRCLE with a radius that is not positive"),
        (arc(45, 45), "ARC without length"),
        (arc("nan", 45), "ARC with a coordinate that is not a number"),
        (ellipse(0, 0, 1), "ELLIPSE with half axes that are not positive"),
        (ellipse(0.5, 1, 1), "ELLIPSE without length"),
        (ellipse(0.5, 0, 1, 31, 3), "ELLIPSE in a plane that is tilted against the drawing"),
        (tags(0, "ELLIPSE", 8, 0), "ELLIPSE with a coordinate that is not a number"),
    ],
)
def test_degenerate_entities_are_accounted_for(entity, what):
    """An entity that draws nothing is named with the reason."""
    drawing = read(drafted(entity + circle(9, 9, 9)))
    assert entries(drawing.account.ignored) == {(what, "layer 0"): 1}
    assert len(drawing.contours) == 1


numbers = st.floats(-100, 100).map(lambda value: round(value, 3))
angles = st.floats(0, 360).map(lambda value: round(value, 2))
sides = st.sampled_from([(0, 0, 1), (0, 0, -1)])


@given(st.data())
@settings(max_examples=12, deadline=None, phases=QUICK)
def test_agrees_with_gdal(tmp_path_factory, data):
    """GDAL draws the same arcs, circles and ellipses, from both sides."""
    doc = ezdxf.new("R2000")
    space = doc.modelspace()
    centre = (data.draw(numbers), data.draw(numbers))
    size, side = data.draw(st.floats(1, 50)), data.draw(sides)
    start, end = data.draw(angles), data.draw(angles)
    if abs((end - start) % 360) < 1 or abs((end - start) % 360) > 359:
        end = start + 90
    space.add_circle(centre, size, dxfattribs={"extrusion": side})
    space.add_arc(centre, size / 2, start, end, dxfattribs={"extrusion": side})
    major = (size * math.cos(start), size * math.sin(start))
    ratio = data.draw(st.floats(0.2, 1))
    whole = space.add_ellipse(centre, major, ratio, math.radians(start), math.radians(end))
    whole.dxf.extrusion = side
    file = saved(doc)
    path = tmp_path_factory.mktemp("gdal") / "sign.dxf"
    assert furthest(as_lines(read(file)), by_gdal(file, path)) < 0.01


def test_kinds_are_kept():
    """A circle is a CircularArc, whatever its size: no polygon and no spline."""
    curve = only(drafted(circle(1, 2, 1234.5)))
    assert isinstance(curve, CircularArc)
    assert (curve.centre, curve.radius, curve.sweep) == ((1, 2), 1234.5, math.tau)
