"""What a sheet must be to be reckoned with."""

import math

import pytest

from holeplacer.errors import InputError
from holeplacer.structure.sheet_stiffness import SheetStiffness


def test_poisson_and_rigidity_follow():
    """Poisson's ratio is E / 2G - 1, D is E t^3 / 12 (1 - nu^2)."""
    sheet = SheetStiffness(3.0, 210e3, 210e3 / 2.6)
    assert sheet.poisson == pytest.approx(0.3)
    assert sheet.rigidity_nmm == pytest.approx(210e3 * 27 / 12 / 0.91)


@pytest.mark.parametrize(
    "figures", [(0, 2e5, 8e4), (-1, 2e5, 8e4), (1, 0, 8e4), (1, 2e5, math.nan)]
)
def test_nonsense_is_refused(figures):
    """Zero, negative and undefined figures get one sentence that names them."""
    with pytest.raises(InputError, match="must be more than zero; enter a positive figure"):
        SheetStiffness(*figures)


def test_contradicting_moduli_are_refused():
    """G as large as E belongs to no metal."""
    with pytest.raises(InputError, match="does not go with"):
        SheetStiffness(1.0, 2e5, 2e5)
