"""Basic shapes against their areas and bounds in closed form."""

import math

import numpy as np
import pytest
import shapely
from lxml import etree

from holeplacer.artwork.svg_length import Viewport
from holeplacer.artwork.svg_shapes import read_shape
from holeplacer.geometry.curve import CircularArc, EllipticArc
from holeplacer.geometry.flatten import flatten
from holeplacer.geometry.transform import matrix

VIEWPORT = Viewport(200, 100)


def element(text: str) -> etree._Element:
    return etree.fromstring(text)


def area_of(text: str) -> shapely.Polygon:
    (subpath,) = read_shape(element(text), VIEWPORT).subpaths
    return shapely.Polygon(np.concatenate([flatten(curve, 1e-5)[1] for curve in subpath.curves]))


@pytest.mark.parametrize(
    ("text", "area", "bounds"),
    [
        ('<rect x="1" y="2" width="3" height="4"/>', 12, (1, 2, 4, 6)),
        ('<rect width="50%" height="50%"/>', 5000, (0, 0, 100, 50)),
        ('<rect width="30" height="20" rx="5"/>', 600 - (4 - math.pi) * 25, (0, 0, 30, 20)),
        ('<rect width="30" height="20" ry="5"/>', 600 - (4 - math.pi) * 25, (0, 0, 30, 20)),
        ('<rect width="30" height="20" rx="4" ry="6"/>', 600 - (4 - math.pi) * 24, (0, 0, 30, 20)),
        ('<rect width="30" height="20" rx="99" ry="99"/>', math.pi * 150, (0, 0, 30, 20)),
        ('<rect width="30" height="20" rx="0" ry="5"/>', 600, (0, 0, 30, 20)),
        ('<circle cx="5" cy="6" r="4"/>', 16 * math.pi, (1, 2, 9, 10)),
        ('<ellipse cx="5" cy="6" rx="4" ry="2"/>', 8 * math.pi, (1, 4, 9, 8)),
        ('<ellipse cx="5" cy="6" rx="2" ry="4"/>', 8 * math.pi, (3, 2, 7, 10)),
        ('<ellipse cx="5" cy="6" rx="2"/>', 4 * math.pi, (3, 4, 7, 8)),
        ('<polygon points="0,0 4,0 4,3"/>', 6, (0, 0, 4, 3)),
        ('<polyline points="0 0 4 0 4 3"/>', 6, (0, 0, 4, 3)),
        ('<polyline points="1e1 0 4 0 4 3"/>', 9, (4, 0, 10, 3)),
        ('<path d="M0 0h4v3z"/>', 6, (0, 0, 4, 3)),
        ('<circle cx="1in" cy="50%" r="5"/>', 25 * math.pi, (91, 45, 101, 55)),
    ],
)
def test_shapes_have_the_area_and_bounds_of_their_formulas(
    text: str, area: float, bounds: tuple[float, ...]
) -> None:
    """Within what flattening at 1e-5 can lose."""
    shape = area_of(text)
    assert shape.area == pytest.approx(area, rel=1e-5)
    assert shape.bounds == pytest.approx(bounds, abs=1e-4)


def test_a_percentage_of_no_direction_is_one_of_the_diagonal() -> None:
    """r = 10 % of sqrt((200^2 + 100^2) / 2)."""
    assert area_of('<circle r="10%"/>').area == pytest.approx(math.pi * 250, rel=1e-5)


def test_circles_and_ellipses_are_whole_curves() -> None:
    """One curve each, so that they can go out as they came in."""
    for text, kind in (('<circle r="4"/>', CircularArc), ('<ellipse rx="4" ry="3"/>', EllipticArc)):
        (subpath,) = read_shape(element(text), VIEWPORT).subpaths
        (curve,) = subpath.curves
        assert isinstance(curve, kind)
        assert abs(curve.sweep) == math.tau


def test_a_map_that_stretches_makes_a_circle_an_ellipse() -> None:
    """Exactly, not by chords."""
    by = matrix(2, 0, 0, -1, 0, 0)
    (subpath,) = read_shape(element('<circle r="4"/>'), VIEWPORT, by).subpaths
    (curve,) = subpath.curves
    assert isinstance(curve, EllipticArc)
    assert (math.hypot(*curve.major), curve.ratio) == pytest.approx((8, 0.5))


@pytest.mark.parametrize(
    ("text", "error"),
    [
        ('<rect width="-3" height="4"/>', "a negative size"),
        ('<circle r="-3"/>', "a negative radius"),
        ('<polygon points="0,0 4,0 4,3 x"/>', "x"),
        ('<polygon points="0,0 4,0 4"/>', "4"),
    ],
)
def test_errors_are_told(text: str, error: str) -> None:
    """Negative sizes draw nothing; lists of points are drawn up to the error."""
    assert read_shape(element(text), VIEWPORT).error == error


@pytest.mark.parametrize(
    "text",
    ["<rect/>", '<rect width="3"/>', '<circle r="0"/>', "<polygon/>", '<line x1="1" x2="1"/>'],
)
def test_shapes_without_extent_are_nothing(text: str) -> None:
    """And no error either."""
    path = read_shape(element(text), VIEWPORT)
    assert (path.subpaths, path.error) == ((), "")


def test_a_line_is_one_open_step() -> None:
    """From its first to its second point."""
    (subpath,) = read_shape(element('<line x1="1" y1="2" x2="3"/>'), VIEWPORT).subpaths
    np.testing.assert_array_equal(subpath.curves[0].xy, [[1, 2], [3, 0]])  # type: ignore[union-attr]
    assert not subpath.closed


def test_path_data_of_a_style_sheet_comes_first() -> None:
    """As CSS has it where the attribute is a presentation attribute."""
    path = read_shape(element('<path d="M0 0h9"/>'), VIEWPORT, d="M0 0h4v3z")
    assert len(path.subpaths[0].curves) == 1
