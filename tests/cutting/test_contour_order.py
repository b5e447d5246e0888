"""Inside before outside."""

import numpy as np
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.cutting import contour_order, contours
from holeplacer.cutting.contours import Kind, Part, RoundHole


def ring_part(x, y, size=30.0):
    disc = shapely.Point(x, y).buffer(size)
    holes = (RoundHole(x + 0.75 * size, y, 6, 1), RoundHole(x - 0.75 * size, y, 6, 2))
    return Part("A", disc.difference(shapely.Point(x, y).buffer(size / 2)), holes)


@settings(max_examples=30, deadline=None)
@given(st.sets(st.tuples(st.integers(0, 5), st.integers(0, 5)), min_size=1, max_size=8))
def test_everything_inside_a_contour_is_cut_before_it(cells):
    """Every contour once; none before one that lies in it; holes, counters, outer contours."""
    parts = [ring_part(100.0 * x, 100.0 * y) for x, y in cells]
    found = contours.contours_of(parts, 4.0)
    order = contour_order.order(found)
    assert sorted(order) == list(range(len(found)))
    rank = np.argsort(order)
    for i, inner in enumerate(found):
        for j, outer in enumerate(found):
            if i != j and outer.region.contains_properly(inner.region):
                assert rank[i] < rank[j]
    kinds = [found[i].kind for i in order]
    assert kinds == sorted(kinds)


def test_a_part_within_a_counter_is_cut_out_before_the_counter_drops():
    """The small part's outer contour goes before the large one's counter."""
    parts = [ring_part(0, 0, 100.0), Part("B", shapely.box(-10, -10, 10, 10))]
    found = contours.contours_of(parts, 4.0)
    kinds = [(found[i].part, found[i].kind) for i in contour_order.order(found)]
    assert kinds[2:] == [(1, Kind.OUTER), (0, Kind.COUNTER), (0, Kind.OUTER)]


def test_travel_goes_to_the_nearest():
    """Parts in a row are cut from one end to the other, whatever order they came in."""
    parts = [Part(str(x), shapely.box(x, 0, x + 10, 10)) for x in (60, 0, 40, 20)]
    found = contours.contours_of(parts, None)
    assert contour_order.order(found) == (1, 3, 2, 0)
    assert contour_order.order(found, (100.0, 0.0)) == (0, 2, 3, 1)


def test_nothing_to_cut():
    """No contours, no order."""
    assert contour_order.order(()) == ()
