"""The wall as a value."""

from holeplacer.wall.wall import Wall


def test_a_new_wall_says_nothing():
    """No size, zones, layers or photograph; good zones, once there are some, are preferred."""
    wall = Wall()
    assert (wall.elevation, wall.photo) == (None, None)
    assert wall.zones == wall.studs == wall.layers == wall.as_found == wall.revisions == ()
    assert wall.landing == "prefer"
    assert not wall.sign_cut
    assert wall == Wall()
