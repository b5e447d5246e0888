"""Load effects: a plan's wind on its own outline, both ways."""

from dataclasses import replace

import numpy as np
import pytest

from holeplacer.errors import InputError
from holeplacer.loads.loading import Asce7Site, Loading
from holeplacer.plan.hole import Hole
from holeplacer.rules import load_effects
from holeplacer.wall.layer import Layer
from holeplacer.wall.wall import Wall

HOLES = tuple(Hole(n, x, y) for n, (x, y) in enumerate([(40, 3), (200, -3), (360, 3)], 1))


@pytest.fixture
def windy(plan):
    """One kilopascal off the wall, half of it on to it."""
    loading = Loading("entered", pressure_out_pa=1000.0, pressure_in_pa=500.0)
    return replace(plan, loading=loading, holes=HOLES)


def test_no_wind_is_guessed(plan):
    """A plan without a chosen wind asks for nothing."""
    assert not load_effects.is_asked(plan)


def test_balance_both_ways(windy, bar, axis):
    """The standoffs pull back the pressure times the metal's area, each way with its own sign."""
    effects = load_effects.load_effects(windy, bar, axis)
    assert [case.name for case in effects.wind] == ["pressure out", "pressure in"]
    for case, pressure_mpa in zip(effects.wind, (1e-3, -0.5e-3), strict=True):
        assert case.total_load_n == pytest.approx(pressure_mpa * bar.area_mm2, rel=1e-9)
        assert sum(case.reactions_n) == pytest.approx(case.total_load_n, rel=1e-9)


def test_same_sign_same_grillage(windy, bar, axis):
    """Moving a hole builds nothing anew."""
    first = load_effects.load_effects(windy, bar, axis)
    moved = replace(windy, holes=(replace(HOLES[0], x_mm=45.0), *HOLES[1:]))
    assert load_effects.load_effects(moved, bar, axis).grillage is first.grillage


def test_thinner_sheet_gives_more(windy, bar, axis):
    """Deflection goes with the cube of the thickness."""
    thin = replace(windy, sheet=replace(windy.sheet, gauge=None, thickness_mm=1.0))
    thick = replace(windy, sheet=replace(windy.sheet, gauge=None, thickness_mm=2.0))
    one, two = (load_effects.load_effects(p, bar, axis).wind[0] for p in (thin, thick))
    assert one.max_deflection_mm / two.max_deflection_mm == pytest.approx(8.0, rel=0.02)


def test_zinc_carries_nothing(windy):
    """Of a galvanized sheet the zinc is taken off before it is reckoned."""
    sheet = replace(windy.sheet, metal="galvanized", gauge=16, thickness_mm=1.613)
    assert sheet.material.bearing_thickness_mm(1.613) < 1.613


def test_missing_figure_is_asked_for(plan):
    """A standard without its wind speed is one clear sentence."""
    asking = replace(plan, loading=Loading("asce7-22", asce7=Asce7Site()))
    with pytest.raises(InputError, match="speed"):
        load_effects.design_pressure(asking)


def test_wind_of_a_standard_does_not_hang_on_the_holes(plan):
    """The area for its coefficients follows from the spacing allowed: a drag leaves it alone."""
    site = Asce7Site(basic_speed_m_s=51.4, roof_height_mm=4500.0)
    asking = replace(plan, loading=Loading("asce7-16", asce7=site))
    moved = replace(asking, holes=HOLES)
    assert load_effects.design_pressure(asking) == load_effects.design_pressure(moved)


def test_weight_hangs_on_the_studs(windy, bar, axis):
    """What all holes push their studs with is the weight, in every case in the sign's plane."""
    effects = load_effects.load_effects(windy, bar, axis)
    weight_n = windy.sheet.material.mass_kg(bar.area_mm2, windy.sheet.thickness_mm) * 9.80665
    assert [case.name for case in effects.in_plane] == ["weight", "weight, hottest",
                                                        "weight, coldest"]  # fmt: skip
    for case in effects.in_plane:
        x, y = case.result.forces_n.sum(axis=0)
        assert (x, y) == (pytest.approx(0.0, abs=1e-3), pytest.approx(-weight_n, rel=1e-3))


@pytest.mark.parametrize(("method", "factor"), [("asd", 1.0), ("lrfd", 1.4), ("en", 1.35)])
def test_weight_has_the_design_methods_factor(windy, bar, axis, method, factor):
    """Against design strengths weight goes with its factor, as the wind does."""
    plan = replace(windy, loading=replace(windy.loading, design_method=method))
    weight_n = plan.sheet.material.mass_kg(bar.area_mm2, plan.sheet.thickness_mm) * 9.80665
    (case, *_) = load_effects.load_effects(plan, bar, axis).in_plane
    assert case.result.forces_n.sum(axis=0)[1] == pytest.approx(-factor * weight_n, rel=1e-3)


@pytest.mark.parametrize(("method", "factor"), [("asd", 1.0), ("lrfd", 1.0), ("en", 1.5)])
def test_temperature_has_the_design_methods_factor(windy, bar, axis, method, factor):
    """Movement by heat goes with its factor: an end hole moves so much further."""
    loading = replace(windy.loading, gravity=False, design_method=method)
    plan = replace(windy, loading=loading, standoff=replace(windy.standoff, hole_mm=20.0))
    hot = load_effects.load_effects(plan, bar, axis).in_plane[1].result.movement_mm
    grown = plan.sheet.material.expansion_per_k * 40.0 * 320.0
    assert hot[2, 0] - hot[0, 0] == pytest.approx(factor * grown, rel=1e-3)


def test_tension_along_the_strokes(windy, bar, axis):
    """One row for each case in the plane; none where only the wind is asked for."""
    assert load_effects.load_effects(windy, bar, axis).tensions_n.shape == (3, 3)
    assert load_effects.load_effects(windy, bar, axis, wind_only=True).tensions_n.size == 0


def test_gravity_can_be_left_out(windy, bar, axis):
    """Without gravity nothing hangs."""
    floating = replace(windy, loading=replace(windy.loading, gravity=False))
    case = load_effects.load_effects(floating, bar, axis).in_plane[0]
    assert abs(case.result.forces_n).max() == pytest.approx(0.0, abs=1e-6)


def test_finish_takes_room(windy):
    """Paint in a hole leaves its stud less room; a hole painted full leaves none."""
    bare = load_effects.stud_of(windy).room_mm
    painted = replace(windy, sheet=replace(windy.sheet, finish="entered", finish_mm=0.1))
    assert load_effects.stud_of(painted).room_mm == pytest.approx(bare - 0.1)
    full = replace(windy, sheet=replace(windy.sheet, finish="entered", finish_mm=2.0))
    assert load_effects.stud_of(full).room_mm == 0.0


def test_caps_steady_a_bar_without_stiffening_it(plan, bar, axis):
    """On two holes in its own line a bar sags in between as a simple beam with overhangs does."""
    loading = Loading("entered", pressure_out_pa=1000.0)
    holes = (Hole(1, 50.0, 0.0), Hole(2, 350.0, 0.0))
    steadied = replace(plan, loading=loading, holes=holes)
    found = load_effects.load_effects(steadied, bar, axis).wind[0]
    assert found.mechanisms
    line, sheet = 1e-3 * 30.0, plan.sheet.material
    stiff = sheet.elastic_mpa * 30.0 * plan.sheet.thickness_mm**3 / 12
    overhang_moment = line * 65.0**2 / 2
    expected = 5 * line * 300**4 / (384 * stiff) - overhang_moment * 300**2 / (8 * stiff)
    ways = load_effects.bare(steadied, bar, axis).ways[0]
    middle = float(np.interp(200.0, ways, found.deflection_mm[0]))
    assert middle == pytest.approx(expected, rel=0.05)


def test_a_glued_standoff_carries_nothing(windy, bar, axis):
    """Out, in and hanging: all is as without it, and its own entries are nothing."""
    glued = replace(windy, holes=(HOLES[0], replace(HOLES[1], fastened=False), HOLES[2]))
    without = replace(windy, holes=(HOLES[0], HOLES[2]))
    found = load_effects.load_effects(glued, bar, axis)
    wanted = load_effects.load_effects(without, bar, axis)
    for case, other in zip(found.wind, wanted.wind, strict=True):
        assert case.max_deflection_mm == pytest.approx(other.max_deflection_mm, rel=1e-9)
        assert case.reactions_n[1] == 0.0
        assert np.delete(case.reactions_n, 1) == pytest.approx(other.reactions_n, rel=1e-9)
        assert not case.moments_nmm[1].any()
    for case, other in zip(found.in_plane, wanted.in_plane, strict=True):
        assert not case.result.forces_n[1].any()
        kept = np.delete(case.result.forces_n, 1, axis=0)
        assert kept == pytest.approx(other.result.forces_n, rel=1e-6, abs=1e-6)


def test_soft_layers_lengthen_the_lever(windy):
    """2 in of foam and 1 in of gap: three times the lever of the gap alone."""
    foam = (Layer("soft", 50.8), Layer("structure", 89.0))
    soft = replace(windy, wall=Wall(layers=foam))
    assert load_effects.lever_mm(soft) == pytest.approx(3 * load_effects.lever_mm(windy))
    assert load_effects.stud_of(soft).projection_mm == pytest.approx(76.2)
