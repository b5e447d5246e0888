"""Metals and mass."""

import pytest

from holeplacer.errors import InputError
from holeplacer.sheet import gauge, metal


def test_mass_of_a_square_metre():
    """One square metre of 2 mm steel is 15.7 kg."""
    assert metal.metal("steel").mass_kg(1e6, 2.0) == pytest.approx(15.7)


def test_every_metal_with_gauges_has_a_density():
    """No metal can be chosen whose mass is unknown."""
    assert tuple(item.name for item in metal.metals()) == gauge.metals()


def test_mass_is_not_the_gauges_nominal_weight():
    """By density 16 gauge steel is 2.442 lb/ft2, by its gauge 2.500."""
    lb_ft2 = metal.metal("steel").mass_kg(1e6, gauge.gauge("steel", 16).thickness_mm) * 0.204816
    assert lb_ft2 == pytest.approx(2.442, abs=5e-4)
    assert gauge.gauge("steel", 16).nominal_lb_ft2 == 2.5


def test_unknown_metal_is_refused():
    """The refusal lists what there is."""
    with pytest.raises(InputError, match="steel"):
        metal.metal("unobtainium")
