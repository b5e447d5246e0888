"""Hole forces."""

from dataclasses import replace

import numpy as np
import pytest

from holeplacer.loads.loading import Loading
from holeplacer.plan.hole import Hole
from holeplacer.rules import hole_forces, load_effects, spacing

HOLES = tuple(Hole(n, x, y) for n, (x, y) in enumerate([(40, 3), (200, -3), (360, 3)], 1))


@pytest.fixture
def windy(plan):
    return replace(
        plan, loading=Loading("entered", pressure_out_pa=1000.0, pressure_in_pa=2000.0), holes=HOLES
    )


def forces_of(plan, bar, axis, **asked):
    effects = load_effects.load_effects(plan, bar, axis, **asked)
    spans = spacing.spans(plan, bar, axis)
    diameters = np.array([plan.diameter_of(hole) for hole in plan.holes])
    return effects, spans, hole_forces.hole_forces(effects, spans.feet, diameters)


def test_pull_and_push_are_the_reactions(windy, bar, axis):
    """Pull comes from the wind that lifts a hole, push from the one that presses it."""
    effects, _, forces = forces_of(windy, bar, axis)
    out, into = (np.array(case.reactions_n) for case in effects.wind)
    assert forces.pull.most == pytest.approx(np.maximum(out, into))
    assert forces.push.most == pytest.approx(-np.minimum(out, into))
    assert [forces.push.case(i) for i in range(3)] == ["pressure in"] * 3


def test_shear_is_the_worst_of_weight_heat_and_cold(windy, bar, axis):
    """Per hole the greatest, and the least, force across the stud with its case."""
    effects, _, forces = forces_of(windy, bar, axis)
    for index in range(3):
        every = {case.name: case.shear_n(index) for case in effects.in_plane}
        assert forces.shear.most[index] == pytest.approx(max(every.values()))
        assert every[forces.shear.case(index)] == pytest.approx(max(every.values()))
        assert forces.least_shear.most[index] == pytest.approx(min(every.values()))


def test_stress_is_the_strokes_own_across_the_hole(windy, bar, axis):
    """The greatest on half a diameter either side of the hole's foot, branch by branch."""
    effects, spans, forces = forces_of(windy, bar, axis)
    for index in range(3):
        s = float(spans.feet.s[index]) + np.array([-0.5, 0, 0.5]) * windy.standoff.hole_mm
        every = [
            np.interp(s, effects.grillage.ways[0], case.stress_mpa[0]).max()
            for case in effects.wind
        ]
        assert forces.stress.most[index] == pytest.approx(max(every), rel=1e-9)


def test_wind_alone_brings_nothing_in_the_plane(windy, bar, axis):
    """Without weight and temperature studs carry no shear, strokes no force along them."""
    _, _, forces = forces_of(windy, bar, axis, wind_only=True)
    assert not forces.shear.most.any()
    assert not forces.tension.most.any()
    assert forces.shear.case(0) == "weight"


def test_clamping_standoffs_hold_moments(windy, bar, axis):
    """Free ones hold none; clamping ones hold the slope, most under the stronger wind."""
    _, _, free = forces_of(windy, bar, axis)
    assert not free.moment.any()
    clamped = replace(windy, loading=replace(windy.loading, supports="clamped"))
    _, _, held = forces_of(clamped, bar, axis)
    assert (held.moment[1] > held.moment[0]).all()
