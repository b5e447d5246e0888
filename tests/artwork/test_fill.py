"""Filled areas against a second method: winding numbers of sampled points, one by one."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.artwork.drawing import FillRule
from holeplacer.artwork.fill import Filled, fill, is_anticlockwise, winding_numbers
from holeplacer.geometry.curve import Points

SQUARE = np.array([[0.0, 0], [30, 0], [30, 30], [0, 30]])
EIGHT = np.array([[0.0, 0], [10, 10], [10, 0], [0, 10]])


def one(rings: list[Points], rule: FillRule = FillRule.NONZERO) -> Filled:
    (filled,) = fill([rings], [rule], 0.02)
    return filled


def angle_winding(point: Points, ring: Points) -> int:
    """Winding number by summing the angles under which the steps are seen."""
    away = ring - point
    following = np.roll(away, -1, axis=0)
    cross = away[:, 0] * following[:, 1] - away[:, 1] * following[:, 0]
    return round(float(np.arctan2(cross, (away * following).sum(axis=1)).sum()) / math.tau)


@pytest.mark.parametrize(
    ("rings", "nonzero", "evenodd"),
    [
        ([SQUARE], 900, 900),
        ([SQUARE, SQUARE / 3 + 5], 900, 800),
        ([SQUARE, (SQUARE / 3 + 5)[::-1]], 800, 800),
        ([SQUARE, (SQUARE / 2 + 5)[::-1], SQUARE / 6 + 10], 700, 700),
        ([SQUARE, SQUARE + 50], 1800, 1800),
        ([SQUARE, SQUARE + 15], 1575, 1350),
        ([SQUARE, SQUARE[::-1] + 15], 1350, 1350),
        ([SQUARE, SQUARE], 900, 0),
        ([SQUARE, SQUARE[::-1]], 0, 0),
        ([EIGHT], 50, 50),
        ([np.vstack([SQUARE, SQUARE + 0.0])], 900, 0),
        ([SQUARE, SQUARE[:2]], 900, 900),
        ([], 0, 0),
    ],
)
def test_each_rule_fills_what_it_says(rings: list[Points], nonzero: float, evenodd: float) -> None:
    """Nested, disjoint, overlapping, repeated and self-crossing contours."""
    assert one(rings).region.area == pytest.approx(nonzero)
    assert one(rings, FillRule.EVENODD).region.area == pytest.approx(evenodd)


def test_vertices_keep_their_coordinates_bit_for_bit() -> None:
    """Those that were drawn and still bound the area, whichever way it was found."""
    rng = np.random.default_rng(3)
    ring = rng.normal(size=(12, 2)) * 100 / 3
    for rings in ([ring], [SQUARE / 7, (SQUARE / 21 + 1 / 3)[::-1]]):
        drawn = {tuple(point) for part in rings for point in part.tolist()}
        after = {tuple(point) for point in shapely.get_coordinates(one(rings).region).tolist()}
        kept = after & drawn
        assert kept
        for x, y in after - drawn:
            nearest = min(math.dist((x, y), point) for point in drawn)
            assert nearest > 1e-9


def test_crossings_are_told_and_turned_over_loops_too() -> None:
    """A figure of eight turns over; a loop wound the same way does not."""
    assert one([SQUARE]).crossing is None
    eight = one([EIGHT])
    assert eight.crossing == pytest.approx((5, 5))
    assert eight.turns_over
    loop = np.array([[0.0, 0], [10, 0], [10, 10], [4, 10], [4, -5], [8, -5], [8, 5], [0, 5]])
    filled = one([loop])
    assert filled.crossing is not None
    assert not filled.turns_over


def test_elements_are_filled_each_by_its_own_rule() -> None:
    """Many at once give the same as each alone."""
    elements = [[SQUARE, SQUARE / 3 + 5], [EIGHT], [], [SQUARE, SQUARE / 3 + 5]]
    rules = [FillRule.EVENODD, FillRule.NONZERO, FillRule.NONZERO, FillRule.NONZERO]
    assert [part.region.area for part in fill(elements, rules, 0.02)] == pytest.approx(
        [800, 50, 0, 900]
    )


coordinate = st.integers(0, 12).map(float)
ring = st.lists(st.tuples(coordinate, coordinate), min_size=3, max_size=9, unique=True).map(
    np.array
)


@settings(max_examples=80, deadline=None)
@given(rings=st.lists(ring, min_size=1, max_size=4), rule=st.sampled_from(FillRule))
def test_any_contours_fill_where_their_winding_number_says(
    rings: list[Points], rule: FillRule
) -> None:
    """Every sampled point that lies on no contour, by the sum of angles."""
    region = one(rings, rule).region
    assert region.is_valid
    x, y = np.meshgrid(np.arange(-0.37, 13, 1.03), np.arange(-0.41, 13, 1.07))
    points = np.column_stack([x.ravel(), y.ravel()])
    edges = shapely.union_all([shapely.LinearRing(part) for part in rings])
    points = points[shapely.distance(edges, shapely.points(points)) > 1e-6]
    number = np.array([sum(angle_winding(point, part) for part in rings) for point in points])
    inside = number % 2 != 0 if rule is FillRule.EVENODD else number != 0
    np.testing.assert_array_equal(shapely.contains_xy(region, points), inside)
    np.testing.assert_array_equal(winding_numbers(points, rings), number)


def test_anticlockwise_is_told_far_from_the_origin() -> None:
    """Where the products of coordinates would drown the area."""
    tiny = SQUARE / 1e4 + 1e7
    assert is_anticlockwise(tiny)
    assert not is_anticlockwise(tiny[::-1])
