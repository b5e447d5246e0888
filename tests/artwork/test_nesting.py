"""Contours without a fill rule: counters by containment, crossing glyphs each with its own."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.artwork.nesting import Nested, nest
from holeplacer.geometry.curve import Points

TOLERANCE = 0.02


def square(x: float, y: float, size: float) -> Points:
    return np.array([[x, y], [x + size, y], [x + size, y + size], [x, y + size]], float)


def nested(*rings: Points) -> Nested:
    return nest(list(rings), TOLERANCE, TOLERANCE)


def area_of(found: Nested) -> float:
    return shapely.union_all(found.regions).area


@pytest.mark.parametrize(
    ("rings", "area"),
    [
        ([square(0, 0, 10)], 100),
        ([square(0, 0, 10), square(2, 2, 4)], 84),
        ([square(2, 2, 4), square(0, 0, 10)[::-1]], 84),
        ([square(0, 0, 10), square(1, 1, 8), square(2, 2, 6), square(3, 3, 4)], 56),
        ([square(0, 0, 10), square(20, 0, 10)], 200),
        ([square(0, 0, 10), square(5, 0, 10)], 150),
        ([square(0, 0, 10), square(2, 2, 2), square(5, 0, 10)], 146),
        ([square(0, 0, 10), square(4, 2, 3), square(6, 0, 10)], 160 - 6),
        ([square(0, 0, 10), square(6, 2, 2), square(5, 0, 10)], 146),
        ([square(0, 0, 10), square(2, 2, 4), square(6, 6, 2)], 80),
        ([square(0, 0, 10), square(0.8 + 10, 0, 10)], 200),
        ([square(0, 0, 10), square(10, 10, 10)], 200),
        ([square(0, 0, 10)[:2]], 0),
        ([], 0),
    ],
    ids=[
        "one", "counter", "either order and sense", "four deep", "apart", "crossing",
        "crossing, own counter", "counter half under a neighbour", "hole in both of two",
        "counters meeting in a point", "0.8 mm apart", "touching in a point", "no area", "none",
    ],
)  # fmt: skip
def test_areas_of_squares_in_squares(rings: list[Points], area: float) -> None:
    """Worked by hand."""
    assert area_of(nested(*rings)) == pytest.approx(area)


def test_a_contour_drawn_twice_counts_once() -> None:
    """Also the other way round, from another start, or a hair off; a parallel one is another."""
    one = square(0, 0, 10)
    for again in (one, one[::-1], np.roll(one, 2, axis=0), one + 0.005):
        found = nested(one, square(2, 2, 4), again)
        assert area_of(found) == pytest.approx(84, abs=0.3)
        assert len(found.repeated) == 1
    assert nested(one, square(0.1, 0.1, 9.8)).repeated == ()


def test_same_bounds_are_not_the_same_contour() -> None:
    """A diamond in a square touches all its sides."""
    diamond = np.array([[5.0, 0], [10, 5], [5, 10], [0, 5]])
    found = nested(square(0, 0, 10), diamond)
    assert found.repeated == ()
    assert area_of(found) == pytest.approx(50)


def test_contours_that_cross_themselves_are_mended_and_told() -> None:
    """An overlap loop is united; a figure of eight keeps both loops and is pointed at."""
    loop = np.array([[0.0, 0], [10, 0], [10, 10], [4, 10], [4, -5], [8, -5], [8, 5], [0, 5]])
    eight = np.array([[20.0, 0], [30, 10], [30, 0], [20, 10]])
    found = nested(loop, eight)
    assert [turns_over for _, turns_over in found.crossing] == [False, True]
    assert found.crossing[1][0] == pytest.approx((25, 5))
    assert area_of(found) == pytest.approx(shapely.union_all([
        shapely.box(0, 0, 10, 5), shapely.box(4, 0, 10, 10), shapely.box(4, -5, 8, 5),
    ]).area + 50)  # fmt: skip


boxes = st.lists(
    st.tuples(st.integers(0, 3), st.integers(0, 3), st.integers(1, 4)), min_size=1, max_size=5,
    unique=True,
)  # fmt: skip


@settings(max_examples=60, deadline=None)
@given(boxes)
def test_nested_rings_without_crossings_are_even_odd(sizes: list[tuple[int, int, int]]) -> None:
    """Concentric squares in a row of cells: by counting how many contain each sampled point."""
    rings = [square(10 * x + y + 0.5, y + 0.5, 9 - 2 * y) for x, y, _ in sizes]
    rings = list({ring.tobytes(): ring for ring in rings}.values())
    region = shapely.union_all(nested(*rings).regions)
    points = np.random.default_rng(0).uniform(0, 40, (400, 2))
    inside = sum(shapely.contains_xy(shapely.Polygon(ring), points).astype(int) for ring in rings)
    np.testing.assert_array_equal(shapely.contains_xy(region, points), inside % 2 == 1)
