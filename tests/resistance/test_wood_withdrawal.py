"""Wood withdrawal."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer import resources
from holeplacer.errors import InputError
from holeplacer.loads.loading import WoodScrew
from holeplacer.resistance import wood_withdrawal

LAG = WoodScrew("lag", 6.35, 38.1, 0.42, 1.6)


def test_tension_alone():
    """W CD p."""
    result = wood_withdrawal.check(LAG, tension_n=500.0, shear_n=0.0, lateral_n=None)
    each = wood_withdrawal.lag_n_per_mm(0.42, 6.35)
    assert result.resistance == pytest.approx(each * 1.6 * 38.1)
    assert result.source == "NDS 12.2.1"


def test_shear_without_a_lateral_value_is_open():
    """The handbook's lateral value is not guessed."""
    result = wood_withdrawal.check(LAG, tension_n=500.0, shear_n=20.0, lateral_n=None)
    assert result.utilisation is None
    assert "not entered" in result.note


def test_tension_and_shear_together():
    """Resultant against Z' at its angle."""
    result = wood_withdrawal.check(LAG, tension_n=300.0, shear_n=400.0, lateral_n=600.0)
    pull = wood_withdrawal.withdrawal_n(LAG)
    allowed = pull * 600 / (pull * 0.64 + 600 * 0.36)
    assert result.demand == pytest.approx(500.0)
    assert result.resistance == pytest.approx(allowed)
    assert result.caveat == "from memory, verify"


def test_wood_screw_in_end_grain_holds_nothing():
    """It is not to be pulled; sideways alone its lateral value counts."""
    screw = WoodScrew("wood", 4.826, 30.0, 0.5, 1.6, end_grain=True)
    pulled = wood_withdrawal.check(screw, tension_n=1.0, shear_n=0.0, lateral_n=None)
    assert pulled.utilisation == math.inf
    assert "end grain" in pulled.note
    both = wood_withdrawal.check(screw, tension_n=1.0, shear_n=1.0, lateral_n=100.0)
    assert both.utilisation == math.inf
    hung = wood_withdrawal.check(screw, tension_n=0.0, shear_n=50.0, lateral_n=100.0)
    assert hung.utilisation == pytest.approx(0.5)


def test_ends_of_the_combined_value():
    """Straight out it is the withdrawal value, along the surface the lateral one."""
    assert wood_withdrawal.combined_n(540, 150, math.pi / 2) == pytest.approx(540)
    assert wood_withdrawal.combined_n(540, 150, 0.0) == pytest.approx(150)
    assert wood_withdrawal.combined_n(0, 150, 1.0) == 0


@pytest.mark.parametrize("field", ["diameter_mm", "thread_mm", "specific_gravity", "load_duration"])
def test_no_screw_that_cannot_be(field):
    """Each figure of nought is refused."""
    figures = {
        "diameter_mm": 6.35,
        "thread_mm": 38.1,
        "specific_gravity": 0.42,
        "load_duration": 1.6,
        field: 0.0,
    }
    with pytest.raises(InputError, match="is 0; give a number above 0"):
        wood_withdrawal.check(
            WoodScrew("lag", **figures), tension_n=1.0, shear_n=0.0, lateral_n=None
        )


def test_wind_is_the_shortest_load():
    """Connections take no load duration factor above 1.6."""
    with pytest.raises(InputError, match=r"CD is 2; connections in wood take at most 1\.6"):
        wood_withdrawal.withdrawal_n(WoodScrew(load_duration=2.0))


def test_tabled_woods_are_woods():
    """Specific gravities lie between cork and ebony."""
    for row in resources.table("wood_species"):
        assert 0.3 <= float(row["specific_gravity"]) <= 0.73


@pytest.mark.parametrize("kind", ["lag", "wood"])
@settings(max_examples=30, deadline=None)
@given(st.floats(3, 12), st.floats(10, 100), st.floats(0.3, 0.7), st.floats(1.0, 1.5))
def test_more_screw_or_wood_is_never_weaker(kind, diameter, thread, gravity, more):
    """Thicker, deeper or in denser wood never lets go sooner."""

    def holds(d, p, g):
        return wood_withdrawal.withdrawal_n(WoodScrew(kind, d, p, g, 1.6))

    base = holds(diameter, thread, gravity) * (1 - 1e-9)
    assert holds(diameter * more, thread, gravity) >= base
    assert holds(diameter, thread * more, gravity) >= base
    assert holds(diameter, thread, gravity * more) >= base
