"""Zones as values."""

from holeplacer.wall.zone import LEAST_POINTS, ZONE_SHAPES, Studs, Zone


def test_every_shape_says_how_many_points_it_needs():
    """No shape is without its least count."""
    assert set(LEAST_POINTS) == set(ZONE_SHAPES)


def test_values_compare():
    """Zones that say the same are equal; studs are 16 in apart where nothing else is said."""
    corners = ((0.0, 0.0), (1.0, 1.0))
    assert Zone("good", "beam", "rectangle", corners) == Zone("good", "beam", "rectangle", corners)
    assert Studs(0.0).spacing_mm == 16 * 25.4
