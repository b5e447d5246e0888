"""Where the axis passes from one stretch of the contour to another."""

import numpy as np
import pytest
import shapely
from shapes import outline

from holeplacer.medial_axis import bisector
from holeplacer.medial_axis.boundary import boundary_of
from holeplacer.medial_axis.kinks import kinks

UPPER = [(62, 60), (60, 20), (58, 60), (42, 60), (40, 20), (38, 60)]
NOTCHED = outline(shapely.Polygon([(0, 0), (100, 0), (100, 60), *UPPER, (0, 60)]))
"""Two notches come down to 20 above a straight edge; between them the axis turns at (50, 12.5)."""
BOUNDARY = boundary_of(NOTCHED.region, np.arange(1))
LOW, LEFT_TIP, RIGHT_TIP, FAR = BOUNDARY.tree.nearest(
    shapely.points(np.array([(50, 0), (39.9, 20.1), (60.1, 20.1), (1, 60)]) - BOUNDARY.origin)
)


def on_side(tip, x, y=12.5):
    at = np.array([(x, y)], float) - BOUNDARY.origin
    return bisector.settle(BOUNDARY, at, np.array([[tip, LOW]]))


def found(pair, third, before, after):
    ends = [np.array([end], float) - BOUNDARY.origin for end in (before, after)]
    return kinks(NOTCHED, BOUNDARY, pair, np.array([third]), *ends)


@pytest.mark.parametrize(
    ("tip", "x", "third"),
    [
        (LEFT_TIP, 47, RIGHT_TIP),
        (LEFT_TIP, 53, RIGHT_TIP),
        (RIGHT_TIP, 49.9, LEFT_TIP),
        (RIGHT_TIP, 48, RIGHT_TIP),
    ],
)
def test_kink_is_where_three_stretches_are_equally_far(tip, x, third):
    """Whichever side the disc belongs to, and even if the third one was guessed wrong."""
    kink = found(on_side(tip, x), third, (42, 10.1), (58, 10.1))
    assert kink.step.tolist() == [0]
    for discs in (kink.arriving, kink.leaving):
        assert discs.xy + BOUNDARY.origin == pytest.approx(np.array([(50, 12.5)]), abs=1e-6)
        assert discs.radius == pytest.approx([12.5])
    assert kink.arriving.foot[0] + BOUNDARY.origin == pytest.approx(
        np.array([(40, 20), (50, 0)]), abs=1e-6
    )
    assert kink.leaving.foot[0] + BOUNDARY.origin == pytest.approx(
        np.array([(60, 20), (50, 0)]), abs=1e-6
    )


def test_sides_are_left_then_right_of_the_way():
    """The other way the straight edge lies to the left."""
    turned = on_side(LEFT_TIP, 53).turned(np.array([True]))
    kink = found(turned, RIGHT_TIP, (58, 10.1), (42, 10.1))
    assert kink.arriving.foot[0, 0] + BOUNDARY.origin == pytest.approx(np.array([50, 0]))
    assert kink.arriving.foot[0, 1] + BOUNDARY.origin == pytest.approx(np.array([60, 20]))
    assert kink.leaving.foot[0, 1] + BOUNDARY.origin == pytest.approx(np.array([40, 20]))


def test_kinks_elsewhere_are_not_this_step_s():
    """A kink beyond the step's end, or at it, is not on the step."""
    assert not len(found(on_side(LEFT_TIP, 53), RIGHT_TIP, (42, 10.1), (44, 10.4)).step)
    assert not len(found(on_side(LEFT_TIP, 53), RIGHT_TIP, (42, 10.1), (50, 12.5)).step)


def test_nothing_is_found_where_no_third_stretch_is_near():
    """A disc of two sides far off its axis leads to no kink, and to no error."""
    none = found(on_side(FAR, 20, 30), LEFT_TIP, (10, 30), (12, 30))
    assert not len(none.step)
    nobody = np.empty(0, np.intp)
    asked = on_side(FAR, 20, 30).taken(nobody), nobody, *np.empty((2, 0, 2))
    assert not len(kinks(NOTCHED, BOUNDARY, *asked).step)
