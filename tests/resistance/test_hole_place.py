"""Hole places."""

import pytest

from holeplacer.errors import InputError
from holeplacer.resistance.hole_place import HolePlace


def test_the_side_is_as_near_as_the_edge_unless_given():
    """Without a distance to the side the nearest edge counts there too."""
    assert HolePlace(6.0, 7.0, 12.0).beside_mm == 12.0
    assert HolePlace(6.0, 7.0, 12.0, side_mm=20.0).beside_mm == 20.0


@pytest.mark.parametrize(
    ("figures", "said"),
    [
        ((0.0, 7.0, 12.0), "the stud's diameter in mm is 0"),
        ((6.0, -1.0, 12.0), "the hole's diameter in mm is -1"),
        ((6.0, 7.0, -2.0), "the edge distance in mm is -2"),
        ((6.0, 7.0, 12.0, -3.0), "the edge distance to the side in mm is -3"),
    ],
)
def test_no_hole_that_cannot_be(figures, said):
    """Each length is refused by name."""
    with pytest.raises(InputError, match=said):
        HolePlace(*figures)
