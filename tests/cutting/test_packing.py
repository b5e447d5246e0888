"""Packing blanks onto one sheet."""

import itertools
from dataclasses import replace
from typing import get_args

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString, Polygon, box

from holeplacer.cutting import blank, packing
from holeplacer.errors import Cancelled

PLACES = st.integers(0, 15_000).map(lambda hundredths: hundredths / 100)
STROKES = st.lists(
    st.lists(st.tuples(PLACES, PLACES), min_size=2, max_size=4),
    min_size=1,
    max_size=6,
)


def calm():
    """Go on."""


def laid_on(bed, blanks):
    return packing.pack(bed, blanks, calm)


@settings(max_examples=25, deadline=None)
@given(
    STROKES,
    st.sampled_from([0.0, 5.0]),
    st.sampled_from(get_args(packing.Gather)),
    st.sampled_from(["any", "none"]),
)
def test_what_is_laid_is_on_the_sheet_and_far_enough_apart(ways, apart, gather, turning):
    """Measured exactly: within the rectangle, and no two blanks nearer than asked for."""
    strokes = [LineString(way).buffer(6) for way in ways]
    blanks = [blank.blank_of(index, area, turning) for index, area in enumerate(strokes)]
    bed = packing.Bed(260.0, 200.0, apart, 4.0, gather)
    laid = laid_on(bed, blanks)
    areas = [place.of(Polygon(strokes[number].exterior)) for number, place in laid.items()]
    sheet = box(0, 0, 260, 200).buffer(1e-4)
    assert all(sheet.covers(area) for area in areas)
    for one, two in itertools.combinations(areas, 2):
        assert one.distance(two) >= apart - 1e-4
        assert one.intersection(two).area < 1e-3


def test_parts_lie_in_each_others_bays():
    """Two L shapes that fit only when one reaches into the other are both laid."""
    corner = Polygon([(0, 0), (100, 0), (100, 20), (20, 20), (20, 100), (0, 100)])
    blanks = [blank.blank_of(number, corner, "quarter") for number in (1, 2)]
    assert len(laid_on(packing.Bed(135.0, 135.0, 5.0, 2.0), blanks)) == 2


def test_a_part_as_large_as_the_sheet_is_laid():
    """Cells take nothing away from a single blank."""
    bed = packing.Bed(100.0, 50.0, 5.0, 3.0)
    assert laid_on(bed, [blank.blank_of(1, box(7, 7, 107, 57), "none")]) == {
        1: blank.Place(-7.0, -7.0, 0.0)
    }
    assert bed.right_mm == pytest.approx(100.0)


def test_parts_are_pushed_together():
    """Between two bars the distance asked for is left, hardly more."""
    bed = packing.Bed(200.0, 100.0, 5.0, 4.0)
    laid_on(bed, [blank.blank_of(number, box(0, 0, 30, 100), "none") for number in (1, 2)])
    assert bed.right_mm == pytest.approx(65.0, abs=0.3)


def test_a_part_too_many_is_skipped():
    """Those for which there is no room are left over."""
    blanks = [blank.blank_of(number, box(0, 0, 60, 60), "none") for number in (1, 2, 3)]
    assert set(laid_on(packing.Bed(130.0, 70.0, 5.0, 2.0), blanks)) == {1, 2}


def test_a_place_that_is_not_free_is_refused():
    """What would lie on another blank is not laid."""
    bed = packing.Bed(100.0, 100.0, 5.0, 2.0)
    one = blank.blank_of(1, box(0, 0, 60, 60), "none")
    assert bed.lay(one, blank.Place(0.0, 0.0, 0.0)) is not None
    assert bed.lay(one, blank.Place(20.0, 20.0, 0.0)) is None
    assert len(bed.lying) == 1


def test_the_work_stops_when_asked():
    """The look before every angle may raise."""

    def stop():
        raise Cancelled("stopped")

    with pytest.raises(Cancelled):
        packing.pack(
            packing.Bed(9.0, 9.0, 0.0, 1.0), [blank.blank_of(1, box(0, 0, 1, 1), "any")], stop
        )


def test_orders_differ_and_repeat():
    """All orders hold every blank once, differ, and are the same the next time."""
    blanks = [blank.blank_of(n, box(0, 0, 10 + n, 40 - 3 * n), "none") for n in range(7)]
    found = packing.orders(blanks, 8)
    assert len({tuple(item.number for item in order) for order in found}) == len(found) > 4
    assert all({item.number for item in order} == set(range(7)) for order in found)
    assert packing.orders(blanks, 8) == found


def test_near_knows_touching_from_overlapping_where_no_distance_is_asked():
    """Edges may meet at distance 0, areas may not overlap."""
    assert not packing.near(box(0, 0, 1, 1), box(1, 0, 2, 1), 0.0)
    assert packing.near(box(0, 0, 1, 1), box(0.9, 0, 2, 1), 0.0)
    assert packing.near(box(0, 0, 1, 1), box(2, 0, 3, 1), 1.5)


@settings(max_examples=15, deadline=None)
@given(STROKES, st.sampled_from(get_args(packing.Gather)))
def test_no_angle_alone_comes_nearer(ways, gather):
    """Angles that are not looked at could not have done better than the one that is taken."""
    *others, last = [
        blank.blank_of(index, LineString(way).buffer(6), "any") for index, way in enumerate(ways)
    ]
    bed = packing.Bed(260.0, 200.0, 5.0, 4.0, gather)
    laid_on(bed, others)

    def reach(place):
        _, _, right, top = place.of(last.area).bounds
        straight = (last.size_at(place.angle_rad)[2] * last.size_at(place.angle_rad)[3]) ** 0.5
        return {"left": right, "corner": right + top, "straight": right + top + straight}[gather]

    found = bed.place_for(last, calm)
    alone = [bed.place_for(replace(last, angles=(angle,)), calm) for angle in last.angles]
    reaches = [reach(place) for place in alone if place is not None]
    assert (found is None) == (not reaches)
    if found is not None:
        assert reach(found) <= min(reaches) + 1e-5
