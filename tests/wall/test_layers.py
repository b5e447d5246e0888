"""What a fastener passes, and how far its stud stands free."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from holeplacer.wall import layers
from holeplacer.wall.layer import LAYER_KINDS, Layer
from holeplacer.wall.wall import Wall

SKIN, FOAM = Layer("cladding", 6.0, "stucco"), Layer("soft", 19.05, "foam")
BOARD, STUD = Layer("sheathing", 12.0), Layer("structure", 89.0)
GAP, BRICK = Layer("air", 25.0), Layer("masonry", 200.0)


@pytest.mark.parametrize(
    ("stack", "index", "outside", "free"),
    [
        ([SKIN, FOAM, BOARD, STUD], 3, 37.05, 25.05),
        ([BRICK], 0, 0.0, 0.0),
        ([SKIN, BRICK], 1, 6.0, 0.0),
        ([SKIN, BOARD, STUD], 2, 18.0, 0.0),
        ([SKIN, GAP, BOARD, STUD], 3, 43.0, 31.0),
        ([FOAM, BOARD, GAP, STUD], 3, 56.05, 56.05),
        ([BRICK, GAP, STUD], 0, 0.0, 0.0),
        ([SKIN, FOAM], None, 25.05, 25.05),
        ([], None, 0.0, 0.0),
    ],
)
def test_what_bears_and_what_is_passed(stack, index, outside, free):
    """The first layer that may hold bears; a stud is free down to under the innermost soft one."""
    assert layers.bearing_index(stack) == index
    assert layers.outside_mm(stack) == pytest.approx(outside)
    assert layers.free_mm(stack) == pytest.approx(free)
    assert layers.lever_arm_mm(Wall(layers=tuple(stack)), 25.0) == pytest.approx(free + 25.0)


def test_soft_layers_are_named():
    """Those outside the bearing layer only."""
    assert layers.soft_outside([SKIN, FOAM, BOARD, STUD, GAP]) == (FOAM,)
    assert layers.soft_outside([BRICK, GAP, STUD]) == ()


kinds = st.sampled_from(LAYER_KINDS)
stacks = st.lists(st.builds(Layer, kinds, st.floats(0.1, 300)), max_size=8)


@given(stacks)
def test_a_stud_is_never_free_beyond_what_it_passes(stack):
    """Free length lies between nothing and all outer layers, and is none on a solid wall."""
    free = layers.free_mm(stack)
    assert 0 <= free <= layers.outside_mm(stack) + 1e-9
    assert (free > 0) == bool(layers.soft_outside(stack))
