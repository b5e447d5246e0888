"""What a formula is given."""

import math

import pytest

from holeplacer.errors import InputError
from holeplacer.resistance import given


@pytest.mark.parametrize("value", [0.0, -1.0, math.nan, math.inf])
def test_no_length_that_cannot_be(value):
    """Nought, negative and endless lengths are refused by name."""
    with pytest.raises(InputError, match=r"the sheet's thickness in mm is .*; give a number above"):
        given.positive(value, "the sheet's thickness in mm")


@pytest.mark.parametrize("value", [-1e-9, math.nan, math.inf])
def test_no_force_that_cannot_be(value):
    """Negative and endless magnitudes are refused by name, nought is not."""
    with pytest.raises(InputError, match=r"the shear in N is .*; give 0 or"):
        given.not_negative(value, "the shear in N")
    assert given.not_negative(0.0, "the shear in N") == 0
    assert given.positive(2.0, "x") == 2
