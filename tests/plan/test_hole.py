"""Holes and bosses as values."""

from holeplacer.plan.hole import Boss, Hole


def test_a_new_hole_takes_the_plans_diameter_and_is_free():
    """What is not said of a hole is left to the plan."""
    hole = Hole(3, 1.0, 2.0)
    assert hole.diameter_mm is None
    assert not hole.fixed


def test_values_compare():
    """Holes and bosses that say the same are equal."""
    assert Hole(3, 1.0, 2.0) == Hole(3, 1.0, 2.0, None, False)
    assert Boss(1.0, 2.0, 9.0, 4.0) != Boss(1.0, 2.0, 9.0, 5.0)
