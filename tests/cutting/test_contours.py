"""What is cut, by kind and direction."""

import shapely

from holeplacer.cutting import contours
from holeplacer.cutting.contours import Kind, Part, RoundHole

RING = shapely.Point(0, 0).buffer(50).difference(shapely.Point(0, 0).buffer(20))
HOLES = (RoundHole(35, 0, 7.1, 1), RoundHole(-35, 0, 3.0, 2))


def test_outer_runs_clockwise_and_inside_anticlockwise():
    """The metal that stays is on the right of the travel."""
    for contour in contours.contours_of([Part("A", RING, HOLES)], 4.76):
        clockwise = contours.signed_area_mm2(contour.xy) < 0
        assert clockwise == (contour.kind is Kind.OUTER)


def test_holes_too_small_for_the_process_are_not_cut():
    """The least diameter itself is cut; by hand nothing is."""
    for least, count in ((4.76, 1), (3.0, 2), (None, 0)):
        found = contours.contours_of([Part("A", RING, HOLES)], least)
        assert sum(item.kind is Kind.HOLE for item in found) == count
        assert [item.kind for item in found[count:]] == [Kind.COUNTER, Kind.OUTER]


def test_direction_does_not_depend_on_how_the_polygon_came():
    """A polygon wound the other way gives the same directions."""
    for sign in (-1.0, 1.0):
        part = Part("A", shapely.geometry.polygon.orient(RING, sign))
        areas = [contours.signed_area_mm2(c.xy) for c in contours.contours_of([part], None)]
        assert areas[0] > 0 > areas[1]
