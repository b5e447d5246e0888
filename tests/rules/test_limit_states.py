"""Limit states: which load effect meets which resistance."""

from dataclasses import replace

import pytest

from holeplacer.loads.loading import En1991Site, Loading, WallFixing
from holeplacer.plan.hole import Hole
from holeplacer.rules import limit_states, load_effects, spacing

HOLES = tuple(Hole(n, x, y) for n, (x, y) in enumerate([(40, 3), (200, -3), (360, 3)], 1))


@pytest.fixture
def windy(plan):
    return replace(
        plan, loading=Loading("entered", pressure_out_pa=1000.0, pressure_in_pa=2000.0), holes=HOLES
    )


def states_of(plan, bar, axis):
    effects = load_effects.load_effects(plan, bar, axis)
    spans = spacing.spans(plan, bar, axis)
    return effects, limit_states.limit_states(plan, bar, axis, spans, effects)


def by_check(states, number, word):
    (found,) = [s for s in states if s.hole == number and word in s.utilisation.check]
    return found


def test_front_and_back(windy, bar, axis):
    """Wind off the wall presses the sheet on the cap, wind on to it on the barrel."""
    effects, states = states_of(windy, bar, axis)
    for index, hole in enumerate(HOLES):
        cap = by_check(states, hole.number, "cap")
        barrel = by_check(states, hole.number, "barrel")
        assert cap.utilisation.demand == pytest.approx(effects.wind[0].reactions_n[index])
        assert barrel.utilisation.demand == pytest.approx(-effects.wind[1].reactions_n[index])
        assert (cap.case, barrel.case) == ("pressure out", "pressure in")


def test_worse_way_of_the_wind_governs_the_sheet(windy, bar, axis):
    """Twice the wind on to the wall bends the sheet twice as much, and is what is shown."""
    effects, states = states_of(windy, bar, axis)
    bending = next(s for s in states if s.utilisation.check == "bending")
    assert bending.case == "pressure in"
    assert bending.utilisation.demand == pytest.approx(effects.wind[1].max_stress_mpa)


def test_net_section_is_narrower(windy, bar, axis):
    """Beside a hole the stroke is 30 mm less the hole: its stress rises by that share."""
    effects, states = states_of(windy, bar, axis)
    state = by_check(states, 2, "net section")
    diameter = windy.standoff.hole_mm
    stress = state.utilisation.demand * (30.0 - diameter) / 30.0
    assert 0 < stress <= effects.wind[1].max_stress_mpa * (1 + 1e-9)


def test_entered_deflection_limit(windy, bar, axis):
    """An entered limit takes the place of the ratios."""
    limited = replace(windy, loading=replace(windy.loading, deflection_limit_mm=0.01))
    effects, states = states_of(limited, bar, axis)
    (state,) = [s for s in states if s.utilisation.check.startswith("deflection")]
    assert state.utilisation.resistance == 0.01
    assert state.utilisation.demand == pytest.approx(effects.wind[1].max_deflection_mm)


def test_deflection_ratio_of_a_span(windy, bar, axis):
    """Else the span or overhang that gives most for its length is named, with its limit."""
    _, states = states_of(windy, bar, axis)
    (state,) = [s for s in states if s.utilisation.check.startswith("deflection")]
    assert state.hole in (1, 2, 3)
    expected = 160.0 / 60 if "span" in state.utilisation.check.split()[-1] else 55.0 / 30
    assert state.utilisation.resistance == pytest.approx(expected, rel=0.01)


def test_deflection_under_the_lighter_wind(plan, bar, axis):
    """By Eurocode stiffness is judged under the wind without its factor of 1.5 for strength."""
    site = En1991Site(basic_speed_m_s=25.0, reference_height_mm=10_000.0)
    loading = Loading("en1991-1-4", "en", en1991=site, deflection_limit_mm=5.0)
    effects, states = states_of(replace(plan, loading=loading, holes=HOLES), bar, axis)
    (state,) = [s for s in states if s.utilisation.check.startswith("deflection")]
    greatest = max(case.max_deflection_mm for case in effects.wind)
    assert state.utilisation.demand == pytest.approx(greatest / 1.5)


def test_anchor_is_never_a_silent_pass(windy, bar, axis):
    """An anchor nobody entered is not known, not passed."""
    _, states = states_of(windy, bar, axis)
    assert {s.utilisation.utilisation for s in states if "anchor" in s.utilisation.check} == {None}


def test_weight_goes_across_the_studs(windy, bar, axis):
    """Bearing, tear-out and the studs' bending take the force in the sign's plane."""
    effects, states = states_of(windy, bar, axis)
    for index, hole in enumerate(HOLES):
        case, shear_n = effects.shear_n(index)
        assert shear_n > 0
        state = by_check(states, hole.number, "tear-out")
        assert (state.case, state.utilisation.demand) == (case, shear_n)


def test_hole_outside_the_metal(windy, bar, axis):
    """A hole beside the sheet has no sheet to check; its standoff is still looked at."""
    outside = replace(windy, holes=(*HOLES, Hole(4, 200.0, 300.0)))
    _, states = states_of(outside, bar, axis)
    checks = [s.utilisation.check for s in states if s.hole == 4]
    assert not [check for check in checks if "pull-over" in check or "tear-out" in check]
    assert [check for check in checks if "stud" in check]


def test_end_holes_are_pulled_on_one_side(windy, bar, axis):
    """At a stroke's end the sheet pulls on one side of the cap: half its strength (AISI S100)."""
    _, states = states_of(windy, bar, axis)
    end, middle = (by_check(states, n, "pull-over at the cap").utilisation for n in (1, 2))
    assert end.resistance == pytest.approx(middle.resistance / 2)


def test_carried_sign(windy, bar, axis):
    """Carried flat by two hands the sheet bends under its weight and its jerks; or not at all."""
    effects, states = states_of(windy, bar, axis)
    state = limit_states.carried(windy, effects)
    assert state.utilisation.demand == max(item.stress_mpa for item in effects.carried) > 0
    assert state not in states
    calm = replace(windy, loading=replace(windy.loading, handling=False))
    assert limit_states.carried(calm, states_of(calm, bar, axis)[0]) is None


@pytest.mark.parametrize("method", ["asd", "lrfd", "en"])
@pytest.mark.parametrize("metal", ["steel", "stainless", "aluminium", "brass"])
def test_share_is_that_of_what_is_worked_out(windy, bar, axis, method, metal):
    """The share found at once and the one of the formula with all its figures are the same."""
    sheet = replace(windy.sheet, metal=metal, gauge=None, thickness_mm=1.6)
    fixing = WallFixing(tension_n=400.0, shear_n=300.0)
    for loading in (
        replace(windy.loading, design_method=method),
        replace(windy.loading, design_method=method, fixing=fixing, pressure_out_pa=9000.0),
    ):
        plan = replace(windy, sheet=sheet, loading=loading)
        _, states = states_of(plan, bar, axis)
        for state in states:
            worked_out = state.utilisation.utilisation
            assert (state.share is None) == (worked_out is None)
            assert state.share is None or state.share == pytest.approx(worked_out, rel=1e-9)
