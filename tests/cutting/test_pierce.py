"""Where one may pierce."""

import numpy as np
import shapely

from holeplacer.cutting import contours, pierce
from holeplacer.cutting.contours import Kind, Part

SQUARE = shapely.box(0, 0, 40, 40).difference(shapely.box(10, 10, 30, 30))
SHEET = shapely.box(-20, -20, 120, 60)


def ground(kind, parts, gone=()):
    contour = next(c for c in contours.contours_of(parts, None) if c.kind is kind and c.part == 0)
    drop = pierce.drop_of(contour, parts, SHEET, gone)
    return pierce.Ground(pierce.metal_of(parts), drop, 2.0, 0.75)


def test_an_outer_contour_is_pierced_around_the_part_on_the_sheet():
    """Not in the metal, nor near it, nor in the part's own counter, nor off the sheet."""
    found = ground(Kind.OUTER, [Part("A", SQUARE)])
    places = np.array([(-3.0, 20), (-1, 20), (5, 20), (20, 20), (-25, 20)])
    assert found.pierce_fits(places).tolist() == [True, False, False, False, False]


def test_a_counter_is_pierced_within():
    """Clear of its edge by the clearance."""
    found = ground(Kind.COUNTER, [Part("A", SQUARE)])
    places = np.array([(20.0, 20), (12.1, 20), (11.9, 20), (-3, 20)])
    assert found.pierce_fits(places).tolist() == [True, True, False, False]


def test_no_pierce_where_something_has_dropped_out():
    """A part cut free in a counter has left a void there."""
    parts = [Part("A", SQUARE), Part("B", shapely.box(18, 18, 22, 22))]
    gone = [c for c in contours.contours_of(parts, None) if c.part == 1]
    assert not shapely.contains_xy(ground(Kind.COUNTER, parts, gone).drop, 20, 20)
    assert shapely.contains_xy(ground(Kind.COUNTER, parts, gone).drop, 14, 14)


def test_a_part_within_a_counter_is_pierced_in_that_counter():
    """Its drop is the counter around it, still whole."""
    parts = [Part("B", shapely.box(18, 18, 22, 22)), Part("A", SQUARE)]
    found = ground(Kind.OUTER, parts)
    assert found.pierce_fits(np.array([(14.0, 20.0), (5.0, 20.0)])).tolist() == [True, False]


def test_a_way_may_touch_no_other_part():
    """Half a kerf beside a neighbour is the nearest."""
    parts = [Part("A", shapely.box(0, 0, 40, 40)), Part("B", shapely.box(50, 0, 90, 40))]
    found = ground(Kind.OUTER, parts)
    ways = np.array([shapely.LineString([(x, -10), (x, 20)]) for x in (45.0, 49.2, 49.3, 60.0)])
    assert found.way_is_clear(ways).tolist() == [True, True, False, False]
