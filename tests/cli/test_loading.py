"""Loads from the command line."""

import click
import pytest

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.cli import loading
from holeplacer.errors import InputError
from holeplacer.plan.plan import Plan

PLAN = Plan(ArtworkFile("a.svg", b"<svg/>"))


@pytest.fixture
def nothing():
    """Every load option, none of them given."""
    return dict.fromkeys(
        ["pressure", "pressure_in", "wind", "wind_speed", "building_height", "exposure", "terrain",
         "wall_zone", "design_method", "supports", "deflection_limit", "deflection_ratio",
         "coldest", "hottest", "anchor_tension", "anchor_shear"]
    )  # fmt: skip


def test_nothing_given_changes_nothing(nothing):
    """A plan's own loads stay where the command line says nothing."""
    assert loading.loaded(PLAN, nothing) is PLAN


def test_entered_pressure(nothing):
    """A pressure is entered off the wall; on to it the same unless it is given, too."""
    made = loading.loaded(PLAN, nothing | {"pressure": 1000.0}).loading
    assert (made.method, made.pressure_out_pa, made.pressure_in_pa) == ("entered", 1000.0, None)
    both = loading.loaded(PLAN, nothing | {"pressure": 1000.0, "pressure_in": 600.0}).loading
    assert (both.pressure_out_pa, both.pressure_in_pa) == (1000.0, 600.0)


def test_a_new_pressure_counts_both_ways(nothing):
    """A pressure given anew is not mixed with the old one on to the wall."""
    both = loading.loaded(PLAN, nothing | {"pressure": 1000.0, "pressure_in": 600.0})
    assert loading.loaded(both, nothing | {"pressure": 900.0}).loading.pressure_in_pa is None


def test_standard(nothing):
    """A standard takes speed, height, exposure and zone."""
    given = nothing | {"wind": "asce7-22", "wind_speed": 51.4, "building_height": 4500.0,
                       "exposure": "B", "wall_zone": "4"}  # fmt: skip
    made = loading.loaded(PLAN, given).loading
    site = made.asce7
    assert (made.method, site.basic_speed_m_s, site.roof_height_mm) == ("asce7-22", 51.4, 4500.0)
    assert (site.exposure, site.zone) == ("B", "4")
    assert made.en1991.zone == "A"


def test_two_winds_are_refused(nothing):
    """Pressure and standard each decide the wind."""
    with pytest.raises(click.UsageError, match="give one"):
        loading.loaded(PLAN, nothing | {"pressure": 1000.0, "wind": "asce7-16"})
    with pytest.raises(click.UsageError, match="goes with --pressure"):
        loading.loaded(PLAN, nothing | {"pressure_in": 1000.0})


def test_limits_anchors_and_temperature(nothing):
    """What may be borne, and how hot it gets, reach the plan."""
    given = nothing | {"supports": "clamped", "deflection_limit": 3.0, "design_method": "lrfd",
                       "coldest": -30.0, "anchor_tension": 900.0,
                       "anchor_shear": 700.0}  # fmt: skip
    made = loading.loaded(PLAN, given).loading
    assert (made.supports, made.deflection_limit_mm, made.design_method) == ("clamped", 3.0, "lrfd")
    assert (made.temperature.lowest_c, made.temperature.highest_c) == (-30.0, 60.0)
    assert (made.fixing.tension_n, made.fixing.shear_n) == (900.0, 700.0)


def test_upside_down_temperatures_are_refused(nothing):
    """Coldest above hottest can't be meant."""
    with pytest.raises(InputError):
        loading.loaded(PLAN, nothing | {"coldest": 80.0})


@pytest.mark.parametrize(
    ("text", "pascal"), [("20psf", 957.6), ("1 kPa", 1000.0), ("0.001 N/mm2", 1000.0)]
)
def test_pressure_bears_its_unit(text, pascal):
    """Pressures are read with their units."""
    assert loading.PRESSURE.convert(text, None, None) == pytest.approx(pascal, rel=1e-4)


@pytest.mark.parametrize("text", ["20", "-1 kPa", "many psf", "1e9 kPa", "nan Pa", "3 mm"])
def test_bad_pressures_are_refused(text):
    """Without a unit, negative, absurd or no pressure at all: one sentence."""
    with pytest.raises(click.BadParameter) as refused:
        loading.PRESSURE.convert(text, None, None)
    assert text in refused.value.message
