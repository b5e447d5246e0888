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
         "coldest", "hottest", "installed_at", "handling", "anchor_tension", "anchor_shear",
         "lag_screw", "thread", "wood_gravity"]
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


@pytest.mark.parametrize(
    ("stranger", "said"),
    [
        ({"terrain": "III"}, "--terrain goes with --wind en1991-1-4"),
        ({"wall_zone": "A"}, "--wall-zone A goes with --wind en1991-1-4"),
    ],
)
def test_another_standards_figures_are_refused(nothing, stranger, said):
    """A figure that the chosen standard has no use for is not swallowed."""
    given = nothing | {"wind": "asce7-22", "wind_speed": 51.4, "building_height": 4500.0}
    with pytest.raises(click.UsageError, match=said):
        loading.loaded(PLAN, given | stranger)


def test_speed_with_an_entered_pressure_is_refused(nothing):
    """An entered pressure needs no speed: one of both is a mistake."""
    with pytest.raises(click.UsageError, match="--wind-speed goes with --wind"):
        loading.loaded(PLAN, nothing | {"pressure": 1000.0, "wind_speed": 51.4})


@pytest.mark.parametrize("given", [{}, {"wind_speed": 51.4}, {"building_height": 4500.0}])
def test_missing_figure_of_the_place_is_asked_for(nothing, given):
    """A standard without speed or height is refused at once."""
    with pytest.raises(InputError):
        loading.loaded(PLAN, nothing | {"wind": "asce7-22"} | given)


def test_lag_screw_in_place_of_an_anchor(nothing):
    """A screw replaces an anchor's forces and the other way round; both at once are refused."""
    screw = {"lag_screw": 8.0, "thread": 50.0, "wood_gravity": 0.5}
    made = loading.loaded(PLAN, nothing | screw)
    fixing = made.loading.fixing
    assert (fixing.screw.diameter_mm, fixing.screw.thread_mm) == (8.0, 50.0)
    assert fixing.screw.specific_gravity == 0.5
    back = loading.loaded(made, nothing | {"anchor_tension": 900.0}).loading.fixing
    assert (back.screw, back.tension_n) == (None, 900.0)
    for given in (screw | {"anchor_shear": 100.0}, {"thread": 50.0}):
        with pytest.raises(click.UsageError):
            loading.loaded(PLAN, nothing | given)


def test_handling_and_installation(nothing):
    """Handling can be left out, and the day of hanging has its temperature."""
    made = loading.loaded(PLAN, nothing | {"handling": "off", "installed_at": 5.0}).loading
    assert not made.handling
    assert made.temperature.installation_c == 5.0


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
