"""Limit states: which load effect meets which resistance."""

from dataclasses import replace
from itertools import product

import pytest

from holeplacer.loads.loading import En1991Site, Loading, WallFixing, WoodScrew
from holeplacer.plan.hole import Hole
from holeplacer.resistance import anchorage, utilisation
from holeplacer.rules import limit_states, load_effects, spacing, span_deflection
from holeplacer.wall.layer import Layer

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
    state = by_check(states, 2, "net section in bending")
    left_mm, t = 30.0 - windy.standoff.hole_mm, windy.sheet.thickness_mm
    pulled = max(float(effects.tensions_n[:, 1].max()), 0.0) / (left_mm * t)
    stress = (state.utilisation.demand - pulled) * left_mm / 30.0
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


@pytest.mark.parametrize(
    ("span_ratio", "overhang_ratio"), [(60.0, 30.0), (900.0, 3.0), (3.0, 90.0)]
)
def test_no_span_or_overhang_gives_more_for_its_length(
    windy, bar, axis, span_ratio, overhang_ratio
):
    """Of all sides the one nearest its limit: a span is twice the way to its middle."""
    loading = replace(windy.loading, deflection_ratio=span_ratio, overhang_ratio=overhang_ratio)
    plan = replace(windy, loading=loading, holes=(Hole(1, 60, 0), Hole(2, 180, 0), Hole(3, 370, 0)))
    effects, states = states_of(plan, bar, axis)
    (state,) = [s for s in states if s.utilisation.check.startswith("deflection")]
    spans = spacing.spans(plan, bar, axis)
    stations, worst = effects.grillage.ways, effects.wind[1]
    every = [
        side.deflection_mm * overhang_ratio / side.length_mm
        if side.overhang
        else side.deflection_mm * span_ratio / (2 * side.length_mm)
        for side in span_deflection.side_deflections(axis, spans, stations, worst)
    ]
    assert state.share == pytest.approx(max(every))
    assert min(every) < 0.9 * max(every)


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
    clamped = replace(windy, loading=replace(windy.loading, supports="clamped"))
    held = by_check(states_of(clamped, bar, axis)[1], 2, "pull-over at the cap").utilisation
    assert held.resistance == pytest.approx(middle.resistance / 2)


def test_carried_sign(windy, bar, axis):
    """Carried flat by two hands the sheet bends under its weight and its jerks; or not at all."""
    effects, states = states_of(windy, bar, axis)
    state = limit_states.carried(windy, effects)
    assert state.utilisation.demand == max(item.stress_mpa for item in effects.carried) > 0
    assert state not in states
    (one,) = effects.carried
    two = replace(effects, carried=(one.times(2.0), one))
    assert limit_states.carried(windy, two).share == pytest.approx(2 * state.share)
    calm = replace(windy, loading=replace(windy.loading, handling=False))
    assert limit_states.carried(calm, states_of(calm, bar, axis)[0]) is None


def test_cold_pulls_the_stroke_apart_across_a_hole(windy, bar, axis):
    """Shrinking by 100 K between tight holes: force along the stroke at the net section."""
    cold = replace(windy.loading.temperature, lowest_c=-80.0)
    tight = replace(
        windy,
        loading=replace(windy.loading, temperature=cold),
        standoff=replace(windy.standoff, hole_mm=windy.standoff.stud_mm),
    )
    effects, states = states_of(tight, bar, axis)
    state = by_check(states, 2, "net section in tension")
    assert state.case == "weight, coldest"
    assert state.utilisation.demand == pytest.approx(effects.tensions_n[2, 1])
    assert state.utilisation.demand > 10.0
    bent = by_check(states, 2, "net section in bending")
    assert bent.case == "pressure in + weight, coldest"
    given = {item.symbol: item.value for item in bent.utilisation.inputs}
    assert given["N"] == pytest.approx(effects.tensions_n[2, 1])


def test_clamping_bends_the_studs(windy, bar, axis):
    """A cap that holds the sheet's slope bends its stud; where that is worst, it is counted."""
    clamped = replace(windy, loading=replace(windy.loading, supports="clamped"))
    effects, states = states_of(clamped, bar, axis)
    state = by_check(states, 1, "stud in bending")
    given = {item.symbol: item.value for item in state.utilisation.inputs}
    moments = [case.moments_nmm[0] for case in effects.wind]
    assert given["M"] in [pytest.approx(float((m @ m) ** 0.5)) for m in moments]
    assert state.case.startswith("pressure in")  # pushed, not pulled: by its moment alone
    assert given["T"] == 0.0
    assert state.share > by_check(states_of(windy, bar, axis)[1], 1, "stud in bending").share


def test_screw_in_wood_may_be_worse_without_wind(windy, bar, axis):
    """A pull beside the weight turns the force to where wood holds more: no wind governs then."""
    fixing = WallFixing(shear_n=20.0, screw=WoodScrew())
    _, states = states_of(replace(windy, loading=replace(windy.loading, fixing=fixing)), bar, axis)
    state = by_check(states, 2, "screw in wood")
    effects = load_effects.load_effects(windy, bar, axis)
    pulls = (0.0, max(case.reactions_n[1] for case in effects.wind))
    shears = [case.shear_n(1) for case in effects.in_plane]
    every = [
        anchorage.check(fixing, tension_n=t, shear_n=v).utilisation
        for t, v in product(pulls, shears)
    ]
    assert state.share == pytest.approx(max(every))
    weak = replace(fixing, shear_n=5.0, screw=WoodScrew(thread_mm=200.0))
    _, states = states_of(replace(windy, loading=replace(windy.loading, fixing=weak)), bar, axis)
    assert by_check(states, 2, "screw in wood").case.startswith("no wind + ")


def test_half_an_anchor_that_is_too_weak_fails(windy, bar, axis):
    """No shear value was entered, but the tension value alone is too little: a failure, no gap."""
    fixing = WallFixing(tension_n=1.0)
    _, states = states_of(replace(windy, loading=replace(windy.loading, fixing=fixing)), bar, axis)
    assert by_check(states, 2, "anchor").share > 1


def test_soft_wall_lengthens_the_lever(windy, bar, axis):
    """Over 2 in of foam a stud is bent by so much more lever."""
    foam = replace(windy.wall, layers=(Layer("soft", 50.8), Layer("structure", 89.0)))
    _, states = states_of(replace(windy, wall=foam), bar, axis)
    given = {i.symbol: i.value for i in by_check(states, 2, "stud in bending").utilisation.inputs}
    assert given["L"] == pytest.approx(windy.standoff.projection_mm + 50.8)


LOADINGS = {
    "anchor not entered": {},
    "anchor entered": {"fixing": WallFixing(400.0, 300.0), "pressure_out_pa": 9000.0},
    "half an anchor": {"fixing": WallFixing(tension_n=10.0), "pressure_out_pa": 500.0},
    "screw in wood": {"fixing": WallFixing(shear_n=20.0, screw=WoodScrew())},
    "clamped": {"supports": "clamped", "pressure_in_pa": 5000.0},
    "a limit in mm": {"deflection_limit_mm": 2.0, "gravity": False},
}


@pytest.mark.parametrize("loading", LOADINGS)
@pytest.mark.parametrize("method", ["asd", "lrfd", "en"])
@pytest.mark.parametrize("metal", ["steel", "stainless", "aluminium", "brass"])
def test_share_is_that_of_what_is_worked_out(windy, bar, axis, method, metal, loading):
    """The share found at once and the one of the formula with all its figures are the same."""
    plan = replace(
        windy,
        sheet=replace(windy.sheet, metal=metal, gauge=None, thickness_mm=1.6),
        loading=replace(windy.loading, design_method=method, **LOADINGS[loading]),
    )
    _, states = states_of(plan, bar, axis)
    checks = {state.utilisation.check for state in states if state.hole == 2}
    assert len(checks) >= 9
    for state in states:
        worked_out = state.utilisation.utilisation
        assert (state.share is None) == (worked_out is None)
        assert state.share is None or state.share == pytest.approx(worked_out, rel=1e-9)


@pytest.mark.parametrize("wind", [(1000.0, 2000.0), (9000.0, 500.0)])
@pytest.mark.parametrize("supports", ["free", "clamped"])
def test_no_case_is_worse_than_the_one_shown(windy, bar, axis, supports, wind):
    """Each way of the wind by itself, with each case in the plane, uses no more than is shown."""
    loading = replace(
        windy.loading,
        supports=supports,
        pressure_out_pa=wind[0],
        pressure_in_pa=wind[1],
        fixing=WallFixing(shear_n=60.0, screw=WoodScrew()),
    )
    effects, states = states_of(replace(windy, loading=loading), bar, axis)
    plan = replace(windy, loading=loading)
    spans = spacing.spans(plan, bar, axis)
    shown = [state.share for state in states if state.hole]
    for across, along in product(range(2), range(3)):
        one = replace(
            effects,
            wind=(effects.wind[across],),
            in_plane=(effects.in_plane[along],),
            tensions_n=effects.tensions_n[along : along + 1],
        )
        alone = limit_states.limit_states(plan, bar, axis, spans, one)
        for most, state in zip(shown, [s for s in alone if s.hole], strict=True):
            assert utilisation.severity(most) >= utilisation.severity(state.share) * (1 - 1e-12)


def test_limit_states_are_a_sequence(windy, bar, axis):
    """By index from either end, by slice and one after another they are the same ones."""
    _, states = states_of(windy, bar, axis)
    every = list(states)
    assert len(every) == len(states) == len(states.shares)
    assert [state.share for state in every] == list(states.shares)
    assert states[3] is every[3]
    assert states[-1] is every[-1]
    assert states[2:7] == tuple(every[2:7])
    assert every[-1].hole == HOLES[-1].number
    with pytest.raises(IndexError):
        states[len(every)]


def test_those_of_some_share(windy, bar, axis):
    """They are found by their shares; those beside one are of the same hole, or the sheet's."""
    _, states = states_of(windy, bar, axis)
    unknown = states.where(lambda share: share is None)
    assert [state.hole for state in unknown] == [1, 2, 3]
    at = list(states).index(unknown[1])
    assert {state.hole for state in states.of_same_hole(at)} == {2}
    assert [s.utilisation.check.split()[0] for s in states.of_same_hole(1)] == [
        "bending",
        "deflection",
    ]


def test_those_of_a_hole(windy, bar, axis):
    """By its number: what governs the sheet at that hole, then its own; 0: the sheet's alone."""
    _, states = states_of(windy, bar, axis)
    for number in (0, 1, 2, 3, 9):
        assert states.of_hole(number) == tuple(s for s in states if s.hole == number)


def test_no_hole_leaves_the_sheet(windy, bar, axis):
    """Without holes only the sheet is judged."""
    _, states = states_of(replace(windy, holes=()), bar, axis)
    assert {state.hole for state in states} == {0}
