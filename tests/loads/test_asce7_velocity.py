"""Velocity pressure of ASCE 7."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from holeplacer.errors import InputError
from holeplacer.loads import asce7_velocity
from holeplacer.loads.loading import Asce7Site

SITE = Asce7Site(basic_speed_m_s=50.0, roof_height_mm=8000.0)


def symbols(edition):
    return [step.symbol for step in asce7_velocity.velocity_pressure(SITE, edition).steps]


def test_every_factor_is_a_step_in_the_editions_order():
    """In 7-16 Kd stands before qh, in 7-22 after it."""
    assert symbols("asce7-16") == ["V", "h", "Kz", "Kzt", "Kd", "Ke", "qh"]
    assert symbols("asce7-22") == ["V", "h", "Kz", "Kzt", "Ke", "qh", "Kd"]


@pytest.mark.parametrize("edition", ["asce7-16", "asce7-22"])
def test_the_pressure_is_the_product_of_its_steps(edition):
    """0.00256 times all the K and the square of the speed in mph, nothing twice."""
    found = asce7_velocity.velocity_pressure(SITE, edition)
    value = {step.symbol: step.value for step in found.steps}
    product = 0.00256 * value["Kz"] * value["Kzt"] * value["Kd"] * value["Ke"]
    psf = product * (value["V"] / 0.44704) ** 2
    assert found.qh_pa * found.kd_later == pytest.approx(psf * 47.88025898)


@pytest.mark.parametrize("name", ["kz", "kzt", "kd", "ke"])
def test_every_coefficient_can_be_entered(name):
    """Its step says so, and the pressure follows it."""
    for edition in ("asce7-16", "asce7-22"):
        plain = asce7_velocity.velocity_pressure(SITE, edition)
        own = asce7_velocity.velocity_pressure(replace(SITE, **{name: 0.5}), edition)
        before = {s.symbol.lower(): s.value for s in plain.steps}[name]
        entered = [s for s in own.steps if s.entered and s.symbol not in ("V", "h")]
        assert [s.symbol.lower() for s in entered] == [name]
        ratio = own.qh_pa * own.kd_later / (plain.qh_pa * plain.kd_later)
        assert ratio == pytest.approx(0.5 / before)


@pytest.mark.parametrize(
    ("change", "named"),
    [
        ({"basic_speed_m_s": None}, "basic wind speed: it is not entered; take V from the map"),
        ({"roof_height_mm": None}, "mean roof height: it is not entered"),
        ({"roof_height_mm": 18_300.0}, "above 60 ft.*licensed engineer"),
    ],
)
def test_what_is_missing_or_too_high_is_said(change, named):
    """No figure of the place is guessed, and above 60 ft an engineer is asked."""
    with pytest.raises(InputError, match=named):
        asce7_velocity.velocity_pressure(replace(SITE, **change), "asce7-22")


def test_sixty_feet_is_still_in():
    """The limit itself belongs to the figure."""
    at_limit = replace(SITE, roof_height_mm=60 * 304.8)
    assert asce7_velocity.velocity_pressure(at_limit, "asce7-16").qh_pa > 0


def test_the_floor_of_exposure_b_ends_where_the_formula_passes_it():
    """Above about 30 ft the formula's Kz holds and says nothing of a floor."""
    high = asce7_velocity.kz_step(replace(SITE, exposure="B", roof_height_mm=12_000.0), "asce7-16")
    assert high.value > 0.70
    assert "0.70" not in high.meaning


def test_exposures_c_and_d_have_no_floor():
    """Theirs is above it anyway."""
    for exposure in ("C", "D"):
        low = asce7_velocity.kz_step(
            replace(SITE, exposure=exposure, roof_height_mm=3000.0), "asce7-22"
        )
        assert low.value == asce7_velocity.kz_by_formula(3000.0, exposure, "asce7-22") > 0.8


@given(
    st.floats(500.0, 18_000.0),
    st.floats(500.0, 18_000.0),
    st.sampled_from(["B", "C", "D"]),
    st.sampled_from(["asce7-16", "asce7-22"]),
)
def test_kz_never_falls_with_height_and_rises_with_exposure(z1, z2, exposure, edition):
    """Higher up and over smoother ground the wind is no weaker."""
    low, high = sorted((z1, z2))
    kz = asce7_velocity.kz_by_formula
    assert kz(low, exposure, edition) <= kz(high, exposure, edition)
    assert kz(low, "B", edition) < kz(low, "C", edition) < kz(low, "D", edition)
