"""Wind on an attached sign by ASCE 7."""

from dataclasses import replace

import pytest

from holeplacer.loads import asce7
from holeplacer.loads.loading import Asce7Site

SITE = Asce7Site(basic_speed_m_s=50.0, roof_height_mm=5000.0)
AREA = 1e5


def pressure(site, edition="asce7-16", gap_mm=None):
    return asce7.wall_pressure(site, edition, effective_area_mm2=AREA, gap_mm=gap_mm)


def met(site, words, gap_mm=None):
    return next(c.met for c in pressure(site, gap_mm=gap_mm).conditions if words in c.text)


def test_pressure_is_qh_times_coefficients():
    """Off the wall 1.4 qh, on to it 1.0 qh, and both are the last steps."""
    found = pressure(SITE)
    value = {s.symbol: s.value for s in found.steps}
    assert found.out_pa == pytest.approx(1.4 * value["qh"])
    assert found.in_pa == pytest.approx(1.0 * value["qh"])
    assert [s.symbol for s in found.steps[-2:]] == ["p out", "p in"]
    assert (found.out_pa, found.in_pa) == (value["p out"], value["p in"])


def test_both_editions_press_alike_where_their_kz_does():
    """Kd counts once in either, wherever it stands."""
    same = replace(SITE, kz=0.9)
    assert pressure(same).out_pa == pytest.approx(pressure(same, "asce7-22").out_pa)


def test_every_step_has_a_source_and_names_nothing_twice():
    """No coefficient is hidden or unsourced."""
    for edition in ("asce7-16", "asce7-22"):
        steps = pressure(replace(SITE, ground_elevation_mm=1e6), edition).steps
        assert all(s.source and s.status and s.meaning for s in steps)
        symbols = [s.symbol for s in steps]
        assert len(symbols) == len(set(symbols))
        for symbol in ("V", "Kz", "Kzt", "Kd", "Ke", "qh", "A", "GCp out", "GCp in", "GCpi"):
            assert symbol in symbols


@pytest.mark.parametrize(
    ("name", "ratio_out", "ratio_in"),
    [("gcp_out", 2 / 1.4, 1.0), ("gcp_in", 1.0, 2.0), ("gcpi", 3.4 / 1.4, 3.0)],
)
def test_pressure_coefficients_can_be_entered(name, ratio_out, ratio_in):
    """An entered 2 acts where it belongs; pressure behind adds to both ways."""
    plain, own = pressure(SITE), pressure(replace(SITE, **{name: 2.0}))
    assert own.out_pa / plain.out_pa == pytest.approx(ratio_out)
    assert own.in_pa / plain.in_pa == pytest.approx(ratio_in)
    assert sum(s.entered for s in own.steps) == sum(s.entered for s in plain.steps) + 1


def test_the_least_pressure_governs_a_weak_wind_and_says_so():
    """16 psf, from memory, in place of the product; an entered least goes before it."""
    weak = replace(SITE, basic_speed_m_s=20.0)
    last = pressure(weak).steps[-1]
    assert last.value == pytest.approx(766.084, abs=1e-3)
    assert "raised to the least" in last.meaning
    assert last.status == "M"
    free = pressure(replace(weak, least_pressure_pa=0.0))
    assert free.in_pa < 766
    assert "raised" not in free.steps[-1].meaning


def test_conditions_that_can_be_seen_are_judged():
    """Gap, corner and roof are compared; what only the person can know stays open."""
    assert met(SITE, "gap of at most 3 ft (0.914 m)") is None
    assert met(SITE, "gap of at most 3 ft (0.914 m)", gap_mm=914.0) is True
    assert met(SITE, "gap of at most 3 ft (0.914 m)", gap_mm=915.0) is False
    assert met(SITE, "inside the wall's sides") is None
    assert met(replace(SITE, corner_distance_mm=900.0), "inside the wall's sides") is False
    assert met(replace(SITE, corner_distance_mm=920.0), "inside the wall's sides") is None
    assert met(replace(SITE, sign_height_mm=5100.0), "inside the wall's sides") is False
    assert met(SITE, "risk category") is None


def test_flat_land_is_a_condition_until_kzt_is_entered():
    """The default of 1.0 holds only without a hill."""
    assert met(SITE, "No hill") is None
    texts = [c.text for c in pressure(replace(SITE, kzt=1.3)).conditions]
    assert not any("No hill" in text for text in texts)
