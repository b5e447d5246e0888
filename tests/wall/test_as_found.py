"""What was met on site, as values."""

from holeplacer.wall.as_found import AsFound, Revision


def test_a_mark_keeps_its_place():
    """It says where the blocked place was, whatever becomes of the hole."""
    mark = AsFound(7, "steel", 120.0, 40.0)
    assert (mark.hole, mark.x_mm, mark.y_mm) == (7, 120.0, 40.0)


def test_revisions_compare():
    """A revision is its number, its changes and its date."""
    assert Revision(1, ("hole 7 moved",)) != Revision(2, ("hole 7 moved",))
