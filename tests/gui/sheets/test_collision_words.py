"""What stands beside a section that collides."""

from holeplacer.cutting.hand_layout import Collision
from holeplacer.gui.sheets.collision_words import collision_words
from holeplacer.units import LengthUnit


def said(item, unit=LengthUnit.MM):
    return list(collision_words(item, 8.0, unit))


def test_each_case_has_its_words():
    """Past the edge, one on the other, too near: with figure and limit."""
    assert said(Collision(0, 2, None, -12.5, 90.0, 0, 0)) == [(2, "12.5 mm past what may be cut")]
    assert said(Collision(0, 1, 2, 0.0, 90.0, 0, 0)) == [
        (1, "overlaps section 2"),
        (2, "overlaps section 1"),
    ]
    near = said(Collision(0, 1, 2, 3.0, 0.0, 0, 0))
    assert near[0] == (1, "3 mm from section 2, at least 8 mm")
    assert near[1][0] == 2


def test_inches_where_inches_are_shown():
    """The figure in the window's unit."""
    ((_, words),) = said(Collision(0, 2, None, -25.4, 1.0, 0, 0), LengthUnit.INCH)
    assert words.startswith("1 in ")
