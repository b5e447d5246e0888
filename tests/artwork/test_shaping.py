"""A drawing at its size becomes one region."""

import math

import numpy as np
import pytest
import shapely

from holeplacer.artwork import shaping
from holeplacer.artwork.drawing import Drawing, DrawnContour, DrawnSegment, FillRule, LooseLines
from holeplacer.artwork.shaping import Shaped, shape
from holeplacer.errors import ArtworkError
from holeplacer.geometry.curve import CircularArc, Curve, Polyline, Spline
from holeplacer.geometry.transform import IDENTITY, Matrix, matrix


def square(x: float, y: float, size: float) -> Polyline:
    corners = np.array([[0.0, 0], [1, 0], [1, 1], [0, 1]])
    return Polyline(corners * size + [x, y], None, closed=True)


def contour(curve: Curve, fill: int | None = None) -> DrawnContour:
    return DrawnContour((DrawnSegment(curve, "layer", "kind"),), fill)


def shaped(drawing: Drawing, by: Matrix = IDENTITY) -> Shaped:
    return shape(drawing, by, tolerance=0.02, reach=0.1)


def area_of(result: Shaped) -> float:
    return sum(part.area for part in result.united.polygons)


def test_filled_elements_and_unruled_contours_come_together() -> None:
    """Each element by its rule, the others by nesting, all united."""
    drawing = Drawing(
        contours=(
            contour(square(0, 0, 10), 0),
            contour(square(2, 2, 4), 0),
            contour(square(30, 0, 10), 1),
            contour(square(32, 2, 4), 1),
            contour(square(60, 0, 10)),
            contour(square(62, 2, 4)),
            contour(square(8, 0, 4)),
        ),
        fills=(FillRule.NONZERO, FillRule.EVENODD),
    )
    result = shaped(drawing)
    assert area_of(result) == pytest.approx(100 + 84 + 84 + 8)
    assert len(result.segments) == 7


def test_lines_are_chained_at_final_size() -> None:
    """A gap of 0.06 in the drawing is joined at true size, not at twice that."""
    ends = np.array([[[0.0, 0], [10, 0]], [[10, 0], [5, 9]], [[5, 9], [0, 0.06]]])
    drawing = Drawing(lines=(LooseLines(ends, "0", "LINE"),))
    assert area_of(shaped(drawing)) == pytest.approx(45, abs=0.5)
    twice = shaped(drawing, matrix(2, 0, 0, 2, 0, 0))
    assert twice.united.polygons == ()
    assert twice.ignored[0].what == "open contour (LINE), left out: gap of 0.12 mm"


def test_flattening_holds_its_tolerance_at_final_size() -> None:
    """A circle made a hundred times larger is followed as closely."""
    drawing = Drawing(contours=(contour(CircularArc((0.0, 0.0), 5.0, 0.0, math.tau)),))
    result = shaped(drawing, matrix(100, 0, 0, 100, 0, 0))
    (polygon,) = result.united.polygons
    middles = np.array(polygon.exterior.coords)
    middles = (middles[1:] + middles[:-1]) / 2
    assert 500 - np.hypot(*middles.T).min() <= 0.02


@pytest.mark.parametrize(
    "curve",
    [
        square(1e12, 0, 1),
        square(math.nan, 0, 1),
        CircularArc((0.0, math.inf), 5.0, 0.0, math.tau),
        Spline(1, np.array([[0.0, 0], [math.nan, 1]]), np.array([0.0, 0, 1, 1])),
    ],
)
def test_coordinates_out_of_range_are_left_out_and_told(curve: Curve) -> None:
    """Not numbers, not finite, or beyond the horizon; the rest is read."""
    result = shaped(Drawing(contours=(contour(curve), contour(square(0, 0, 10)))))
    assert area_of(result) == 100
    assert [entry.what for entry in result.ignored] == ["kind with coordinates out of range"]


def test_bulk_lines_out_of_range_are_counted() -> None:
    """One bad line among good ones."""
    ends = np.array(
        [[[0.0, 0], [10, 0]], [[10, 0], [5, 9]], [[5, 9], [0, 0]], [[0, 0], [math.nan, 1]]]
    )
    result = shaped(Drawing(lines=(LooseLines(ends, "0", "LINE"),)))
    assert area_of(result) == pytest.approx(45)
    assert [(entry.what, entry.count) for entry in result.ignored] == [
        ("LINE with coordinates out of range", 1)
    ]


def test_shapes_and_contours_drawn_twice_are_told() -> None:
    """Dropped once, wherever they are drawn again."""
    result = shaped(
        Drawing(
            contours=(
                contour(square(0, 0, 10), 0),
                contour(square(0, 0, 10), 1),
                contour(square(30, 0, 10)),
                contour(square(30, 0, 10)),
            ),
            fills=(FillRule.NONZERO, FillRule.NONZERO),
        )
    )
    assert area_of(result) == pytest.approx(200)
    assert [entry.what for entry in result.mended] == [
        "shape drawn twice, dropped once",
        "contour drawn twice, dropped once",
    ]


def test_every_vertex_of_the_region_is_drawn_or_a_crossing() -> None:
    """Two circles that overlap: all but two vertices are rows of the table."""
    drawing = Drawing(
        contours=tuple(
            contour(CircularArc((x, 0.0), 10.0, 0.3, math.tau), number)
            for number, x in enumerate((0.0, 13.0))
        ),
        fills=(FillRule.NONZERO, FillRule.NONZERO),
    )
    result = shaped(drawing)
    table = {tuple(row) for row in result.rings.xy.tolist()}
    (polygon,) = result.united.polygons
    vertices = shapely.get_coordinates(polygon)[:-1].tolist()
    assert sum(tuple(vertex) not in table for vertex in vertices) == 2


def test_more_contours_than_any_lettering_has_are_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    """Those that chaining closes count too."""
    monkeypatch.setattr(shaping, "MOST_CONTOURS", 3)
    squares = tuple(contour(square(20 * i, 0, 10)) for i in range(3))
    assert area_of(shaped(Drawing(contours=squares))) == pytest.approx(300)
    corners = np.array([[0.0, -20], [10, -20], [0, -10], [0, -20]])
    triangle = LooseLines(np.stack([corners[:-1], corners[1:]], axis=1), "layer", "LINE")
    with pytest.raises(ArtworkError, match="4 closed contours, more than the 3 that are read"):
        shaped(Drawing(contours=squares, lines=(triangle,)))
