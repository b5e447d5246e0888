"""Peak velocity pressure of EN 1991-1-4."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from holeplacer.errors import InputError
from holeplacer.loads import en1991_velocity, loading
from holeplacer.loads.loading import En1991Site

SITE = En1991Site(basic_speed_m_s=25.0, reference_height_mm=10_000.0)


def figures(site):
    return {step.symbol: step.value for step in en1991_velocity.peak_pressure(site).steps}


def test_every_term_is_a_step():
    """The whole way from vb to ce, each with source and status."""
    steps = en1991_velocity.peak_pressure(SITE).steps
    assert [s.symbol for s in steps] == [
        "vb", "rho", "qb", "ze", "z0", "z", "kr", "cr", "co", "vm", "kI", "Iv", "qp", "ce",
    ]  # fmt: skip
    assert all(s.source and s.status and s.meaning for s in steps)


def test_every_terrain_has_its_roughness():
    """Five categories, each rougher than the last."""
    rows = [en1991_velocity.roughness(name) for name in loading.TERRAINS]
    assert [row.z0_m for row in rows] == [0.003, 0.01, 0.05, 0.3, 1.0]
    assert [row.zmin_m for row in rows] == [1, 1, 2, 5, 10]


def test_below_zmin_nothing_changes():
    """The step names the height that is reckoned with."""
    low = replace(SITE, terrain="III", reference_height_mm=3000.0)
    assert figures(low)["z"] == 5000.0
    assert figures(low)["ze"] == 3000.0
    assert figures(low)["qp"] == figures(replace(low, reference_height_mm=5000.0))["qp"]


def test_density_orography_and_turbulence_can_be_entered():
    """qp is linear in rho; co raises the mean wind and calms its gusts; kI scales these."""
    plain = figures(SITE)
    assert figures(replace(SITE, air_density_kg_m3=1.0))["qp"] == pytest.approx(plain["qp"] / 1.25)
    hill = figures(replace(SITE, orography=1.2))
    assert hill["vm"] == pytest.approx(1.2 * plain["vm"])
    assert hill["Iv"] == pytest.approx(plain["Iv"] / 1.2)
    calm = figures(replace(SITE, turbulence=0.5))
    assert calm["Iv"] == pytest.approx(plain["Iv"] / 2)
    own = en1991_velocity.peak_pressure(
        replace(SITE, air_density_kg_m3=1.0, orography=1.2, turbulence=0.5)
    )
    assert {s.symbol for s in own.steps if s.entered} == {"vb", "ze", "rho", "co", "kI"}


@pytest.mark.parametrize(
    ("change", "named"),
    [
        ({"basic_speed_m_s": None}, "basic wind velocity: it is not entered"),
        ({"reference_height_mm": None}, "reference height: it is not entered"),
        ({"reference_height_mm": 210_000.0}, "above 200 m"),
    ],
)
def test_what_is_missing_or_too_high_is_said(change, named):
    """No figure of the place is guessed."""
    with pytest.raises(InputError, match=named):
        en1991_velocity.peak_pressure(replace(SITE, **change))


@given(st.floats(1000.0, 200_000.0), st.floats(1000.0, 200_000.0))
def test_pressure_never_falls_with_height_and_falls_with_roughness(z1, z2):
    """Higher up or over smoother ground qp is no less."""
    low, high = sorted((z1, z2))
    rising = []
    for terrain in reversed(loading.TERRAINS):
        at = replace(SITE, terrain=terrain)
        below = en1991_velocity.peak_pressure(replace(at, reference_height_mm=low)).qp_pa
        above = en1991_velocity.peak_pressure(replace(at, reference_height_mm=high)).qp_pa
        assert below <= above
        rising.append(below)
    assert rising == sorted(rising)
