"""Wind on a sign along a wall by EN 1991-1-4."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from holeplacer.loads import en1991
from holeplacer.loads.loading import En1991Site

SITE = En1991Site(basic_speed_m_s=25.0, reference_height_mm=10_000.0)
ZONES = ["A", "B", "C", "D", "E"]


def pressure(site, area=1e5):
    return en1991.wall_pressure(site, loaded_area_mm2=area)


def test_out_by_the_chosen_zone_in_by_zone_d():
    """The wind turns: whatever zone pulls, D presses."""
    for zone, cpe in (("A", 1.4), ("B", 1.1), ("C", 0.5), ("E", 0.5)):
        found = pressure(replace(SITE, zone=zone))
        value = {s.symbol: s.value for s in found.steps}
        assert found.out_pa == pytest.approx(cpe * value["qp"])
        assert found.in_pa == pytest.approx(1.0 * value["qp"])
        assert (found.out_pa, found.in_pa) == (value["we out"], value["we in"])


def test_coefficients_from_memory_say_so():
    """Table 7.1 is status M wherever it is shown."""
    for symbol in ("cpe out", "cpe in"):
        assert next(s for s in pressure(SITE).steps if s.symbol == symbol).status == "M"


def test_coefficients_can_be_entered():
    """An entered one goes before zone and area, each for its own way."""
    plain, own = pressure(SITE), pressure(replace(SITE, cpe_out=2.0, cpe_in=0.3))
    assert own.out_pa == pytest.approx(plain.out_pa * 2.0 / 1.4)
    assert own.in_pa == pytest.approx(plain.in_pa * 0.3)
    assert {s.symbol for s in own.steps if s.entered} == {"vb", "ze", "cpe out", "cpe in"}


def test_lee_side_goes_by_height_over_depth():
    """Zone E: 0.3 at 1/4, 0.5 at 1, 0.7 at 5, straight between them and constant beyond."""
    found = [en1991.cpe("E", ratio, 1e5) for ratio in (0.1, 0.25, 0.625, 1.0, 3.0, 5.0, 9.0)]
    assert found == pytest.approx([0.3, 0.3, 0.4, 0.5, 0.6, 0.7, 0.7])
    assert en1991.cpe("D", 0.25, 20e6) == pytest.approx(0.7)


@given(st.sampled_from(ZONES), st.floats(0.0, 1e8), st.floats(0.0, 1e8), st.floats(0.05, 8.0))
def test_a_smaller_area_never_gets_less(zone, area1, area2, ratio):
    """cpe,1 and cpe,10 are the ends, whatever the ratio."""
    small, large = sorted((area1, area2))
    ends = en1991.cpe(zone, ratio, 1e8), en1991.cpe(zone, ratio, 0.0)
    found = en1991.cpe(zone, ratio, large), en1991.cpe(zone, ratio, small)
    assert ends[0] - 1e-12 <= found[0] <= found[1] + 1e-12
    assert found[1] <= ends[1] + 1e-12


def test_conditions():
    """No rule of its own for such a sign; a tall or slender building is seen."""
    low = pressure(SITE).conditions
    assert any("no rule of its own" in c.text for c in low)
    assert [c.met for c in low if "60 ft" in c.text] == [True]
    tall = pressure(replace(SITE, reference_height_mm=20_000.0)).conditions
    assert [c.met for c in tall if "60 ft" in c.text] == [False]
    slender = pressure(replace(SITE, height_to_depth=5.1)).conditions
    assert [c.met for c in slender if "times its depth" in c.text] == [False]
    assert [c.met for c in low if "times its depth" in c.text] == [True]
