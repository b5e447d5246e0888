"""Primitives of a display list."""

import math

import numpy as np
import pytest

from holeplacer.paper import display_list
from holeplacer.paper.display_list import Pen, Subpath


def test_points_of_a_path_can_not_be_written():
    """A path is a value: its points stay what they were."""
    run = Subpath(np.zeros((2, 2)))
    with pytest.raises(ValueError, match="read-only"):
        run.xy[0, 0] = 1.0


def test_a_cross_meets_in_its_middle():
    """Both lines have their middles at the place they mark."""
    for line in display_list.cross(3.0, 4.0, 5.0, Pen()):
        assert (line.x1_mm + line.x2_mm) / 2 == 3.0
        assert (line.y1_mm + line.y2_mm) / 2 == 4.0
        assert math.hypot(line.x2_mm - line.x1_mm, line.y2_mm - line.y1_mm) == 10.0


def test_a_rectangle_has_the_corners_of_its_box():
    """Four corners, closed."""
    (run,) = display_list.rectangle((1.0, 2.0, 5.0, 9.0)).subpaths
    assert run.closed
    assert run.xy.min(axis=0).tolist() == [1.0, 2.0]
    assert run.xy.max(axis=0).tolist() == [5.0, 9.0]


@pytest.mark.parametrize("angle", [0.0, 1.0, -math.pi / 2])
def test_an_arrow_points_where_it_should(angle):
    """Its point is at the place; the rest lies behind it."""
    (run,) = display_list.arrow(10.0, 20.0, angle, 4.0).subpaths
    ahead = (run.xy - (10.0, 20.0)) @ np.array([math.cos(angle), math.sin(angle)])
    assert ahead[0] == 0.0
    assert np.all(ahead[1:] < -3.0)


def test_grey_has_no_hue():
    """All three parts of a grey are alike."""
    assert display_list.grey(0.5) == (0.5, 0.5, 0.5)
