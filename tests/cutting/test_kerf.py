"""Paths half a kerf beside the contours."""

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.cutting import contours, kerf
from holeplacer.cutting.contours import Contour, Kind, Part, RoundHole


def paths(part, width):
    return [path for item in contours.contours_of([part], 0.0) for path in kerf.offset(item, width)]


@settings(max_examples=40, deadline=None)
@given(
    st.lists(st.tuples(st.floats(0, 60), st.floats(0, 60)), min_size=4, max_size=9, unique=True),
    st.sampled_from([0.2, 1.5, 3.0]),
)
def test_the_cut_takes_nothing_that_stays_and_leaves_nothing_on_it(places, width):
    """Sweeping the torch along the paths meets the metal that stays and takes none of it."""
    metal = shapely.union_all([shapely.Point(place).buffer(9) for place in places])
    for polygon in shapely.get_parts(metal):
        found = paths(Part("A", polygon), width)
        assert kerf.touched(found, polygon, width) < 1e-3 * polygon.length * width
        outer = next(path for path in found if path.kind is Kind.OUTER)
        assert shapely.LinearRing(outer.xy).distance(polygon) == pytest.approx(width / 2, abs=2e-3)


def test_a_hole_gets_smaller_by_the_kerf():
    """9/32 in with a kerf of 1.5 mm: the path's diameter is 5.644 mm."""
    hole = RoundHole(3, 4, 7.144, 1)
    (path,) = kerf.offset(Contour(Kind.HOLE, 0, contours.round_ring(hole), hole), 1.5)
    assert path.hole.diameter_mm == pytest.approx(5.644)


def test_an_opening_narrower_than_the_kerf_has_no_path():
    """It is told by an empty answer, for holes and counters alike."""
    slit = shapely.box(0, 0, 30, 20).difference(shapely.box(5, 9.5, 25, 10.5))
    kinds = [path.kind for path in paths(Part("A", slit, (RoundHole(5, 5, 1.0, 1),)), 1.5)]
    assert kinds == [Kind.OUTER]


def test_an_inlet_with_a_narrow_mouth_becomes_an_opening_of_its_own():
    """Behind a mouth narrower than the kerf the drop is cut as a counter, anticlockwise."""
    bay = shapely.box(0, 0, 40, 40).difference(shapely.box(10, 10, 30, 30))
    found = paths(Part("A", bay.difference(shapely.box(19.5, 30, 20.5, 41))), 1.5)
    assert [path.kind for path in found] == [Kind.COUNTER, Kind.OUTER]
    assert contours.signed_area_mm2(found[0].xy) > 0 > contours.signed_area_mm2(found[1].xy)


def test_cuts_that_run_into_each_other_are_told():
    """Parts 1 mm apart can't both be cut with 1.5 mm; at 3.2 mm they can."""
    for gap, count in ((1.0, 1), (3.2, 0)):
        found = [
            path
            for index, left in enumerate((0, 20 + gap))
            for path in paths(Part(str(index), shapely.box(left, 0, left + 20, 20)), 1.5)
        ]
        crowded = kerf.crowded(found, 1.5)
        assert len(crowded) == count
        assert all(pair.apart_mm < 1.5 for pair in crowded)


def test_lengths_go_all_round():
    """A square's path is four sides long."""
    (length,) = kerf.lengths_mm(
        [Contour(Kind.OUTER, 0, contours.points_of(shapely.box(0, 0, 9, 9).exterior))]
    )
    assert length == pytest.approx(36.0)
