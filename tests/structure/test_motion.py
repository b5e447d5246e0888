"""What unit pressure does to one piece."""

import pytest

from holeplacer.structure import grillage
from holeplacer.structure.motion import motion

PLACES = ((40.0, 5.0), (560.0, -6.0), (301.0, -250.0))


@pytest.fixture
def held(tee, metal):
    return grillage.grillage(tee.outline, tee.axis, **metal).bodies[0]


def test_worst_is_that_of_the_metal(held):
    """The edge moves further than the axis, and its place is told."""
    found = motion(held, PLACES, "free")
    assert found.worst >= abs(found.deflection).max()
    x, y = found.worst_at
    assert -30 <= x <= 630
    assert -330 <= y <= 30


def test_worst_stress_is_on_its_branch(held):
    """The stress along the strokes reaches the greatest, on the branch that is named."""
    found = motion(held, PLACES, "free")
    assert found.stress.max() == found.stressed
    index = held.body.branches.index(found.stressed_branch)
    part = slice(held.body.first[index], held.body.first[index + 1])
    assert found.stress[part].max() == found.stressed


def test_what_was_asked_for_is_remembered(held):
    """The same holes are not solved again."""
    assert motion(held, PLACES, "free") is motion(held, PLACES, "free")


def test_a_dot_has_no_branch(drop, metal):
    """A piece without strokes still has a deflection and a stress."""
    dot = grillage.grillage(drop.outline, drop.axis, **metal).bodies[1]
    found = motion(dot, ((500.0, 0.0), (540.0, 10.0), (525.0, -25.0)), "free")
    assert found.stressed_branch == -1
    assert found.worst > 0
    assert found.stressed > 0
    assert len(found.deflection) == 0
