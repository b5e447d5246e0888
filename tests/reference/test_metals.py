"""Metals against hand calculations with published expansions and moduli.

Sources: thermal expansions of carbon steel, stainless 304 and aluminium 6061 as engineering tables
print them (11.7, 17.2 and 23.6 e-6 per K); EN 1993-1-1, 3.2.6 (E 210 000 MPa, G about 81 000 MPa);
AISI S100 (E 29 500 ksi, G 11 300 ksi; from memory). Lengthening: alpha L dT, recomputed here.
"""

import pytest

from holeplacer.sheet import metal
from holeplacer.standoffs import thermal_fit
from holeplacer.standoffs.thermal_fit import Change

MPA_PER_KSI = 6.894757


@pytest.mark.parametrize(
    ("name", "lengthening"), [("steel", 2.11), ("stainless", 3.10), ("aluminium-6061", 4.25)]
)
def test_three_metres_through_sixty_kelvin(name, lengthening):
    """2.11 mm of steel, 3.10 mm of stainless, 4.25 mm of aluminium."""
    change = Change(metal.metal(name).expansion_per_k, 0.0, 60.0, 0.0)
    about = thermal_fit.fixed_points([(0, 0), (3000, 0)], [0, 0], [(0, 0)])
    (_, far) = thermal_fit.movements([(0, 0), (3000, 0)], [0, 0], about, change)
    assert far.out_mm == pytest.approx(lengthening, abs=0.005)


@pytest.mark.parametrize(("name", "inches"), [("steel", 0.078), ("aluminium-6061", 0.157)])
def test_ten_feet_through_a_hundred_fahrenheit(name, inches):
    """0.078 in of steel at 6.5e-6 per F, 0.157 in of aluminium at 13.1e-6."""
    expansion = metal.metal(name).expansion_per_k
    assert expansion * 120 * 100 / 1.8 == pytest.approx(inches, abs=6e-4)


def test_shear_modulus_of_european_steel():
    """E / 2 (1 + nu) is 80.77 GPa; the standard says about 81."""
    steel = metal.metal("s235")
    assert steel.elastic_mpa / (2 * (1 + steel.poisson)) == pytest.approx(80_770, abs=5)
    assert steel.shear_mpa == 81_000


def test_american_sheet_steel_in_ksi():
    """29 500 and 11 300 ksi, 33 and 52 ksi."""
    steel = metal.metal("steel")
    assert steel.elastic_mpa == pytest.approx(29_500 * MPA_PER_KSI, rel=3e-3)
    assert steel.shear_mpa == pytest.approx(11_300 * MPA_PER_KSI, rel=3e-3)
    assert steel.yield_mpa == pytest.approx(33 * MPA_PER_KSI, abs=0.6)
    assert steel.ultimate_mpa == pytest.approx(52 * MPA_PER_KSI, abs=0.6)
    assert {"elastic_mpa", "yield_mpa"} <= set(steel.from_memory)
