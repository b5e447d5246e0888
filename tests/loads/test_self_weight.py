"""Self-weight."""

import pytest

from holeplacer.loads import self_weight
from holeplacer.sheet import metal


def test_area_weight_is_the_masss_weight():
    """A square metre weighs as much by its mass as by its area weight."""
    steel = metal.metal("steel")
    by_mass = self_weight.weight_n(steel.mass_kg(1e6, 1.519))
    assert self_weight.area_weight_pa(steel.density_kg_m3, 1.519) == pytest.approx(by_mass)


def test_carried_flat_it_is_jerked():
    """The handling factor multiplies it."""
    still = self_weight.area_weight_pa(2700.0, 2.0)
    assert still == pytest.approx(52.956, abs=1e-3)
    assert self_weight.carried_pa(2700.0, 2.0, 1.5) == pytest.approx(1.5 * still)
