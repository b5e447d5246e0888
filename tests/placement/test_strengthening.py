"""Strengthening: holes added, taken away and slid until a sheet bears its wind."""

from dataclasses import replace

import numpy as np
import pytest
import shapely

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.errors import Cancelled, InputError
from holeplacer.loads.loading import Loading
from holeplacer.medial_axis import medial_axis
from holeplacer.outline.outline import Outline
from holeplacer.placement import propose, spacing_limit, strengthening, trial
from holeplacer.placement.watch import Watch
from holeplacer.plan import edit
from holeplacer.plan.hole import Hole
from holeplacer.plan.plan import Plan
from holeplacer.rules import strength, wall
from holeplacer.wall.wall import Wall
from holeplacer.wall.zone import Zone

PLAN = Plan(ArtworkFile("wave.svg", b""))


@pytest.fixture(scope="module")
def wave():
    """A stroke 30 mm wide that swings up and down over 1.2 m."""
    x = np.linspace(0.0, 1200.0, 121)
    line = shapely.LineString(np.column_stack([x, 120 * np.sin(x / 120)]))
    outline = Outline.from_geometry(line.buffer(15, quad_segs=16))
    return outline, medial_axis.medial_axis(outline)


def windy(pascal, holes=()):
    return replace(PLAN, loading=Loading("entered", pressure_out_pa=pascal), holes=holes)


@pytest.fixture(scope="module")
def few(wave):
    """The fewest holes that keep the other rules."""
    return propose.propose(PLAN, *wave)


def passes(plan, wave):
    return not [item for item in strength.check(plan, *wave) if item.broken]


def test_no_wind_changes_nothing(few, wave):
    """Without a wind there is nothing to strengthen."""
    plan = edit.with_holes(PLAN, few.holes)
    assert strengthening.strengthened(plan, *wave, Watch()) is None
    assert few.utilisation is None


def test_light_wind_keeps_the_count(few, wave):
    """Where the fewest holes bear the wind they stay as many, proven, and give no more."""
    proposal = propose.propose(windy(300.0), *wave)
    assert (proposal.count, proposal.proven) == (few.count, True)
    assert proposal.utilisation <= 1.0
    before = strength.strength(windy(300.0, few.holes), *wave)
    assert proposal.max_deflection_mm <= before.effects.wind[0].max_deflection_mm + 1e-9


def test_more_wind_takes_more_holes(few, wave):
    """A wind the fewest can't bear gets holes until a check passes; all other rules still kept."""
    heavy = windy(6000.0)
    assert not passes(edit.with_holes(heavy, few.holes), wave)
    proposal = propose.propose(heavy, *wave)
    plan = edit.with_holes(heavy, proposal.holes)
    assert passes(plan, wave)
    assert proposal.count > proposal.lower_bound == few.lower_bound
    assert not proposal.proven
    assert not any(trial.broken_by_rule(plan, *wave))
    assert [hole.number for hole in plan.holes] == list(range(1, proposal.count + 1))


def test_none_of_them_can_go(wave):
    """Of the holes added none is idle: without any one of them a rule breaks."""
    heavy = windy(6000.0)
    plan = edit.with_holes(heavy, propose.propose(heavy, *wave).holes)
    for hole in plan.holes:
        fewer = edit.without_hole(plan, hole.number)
        kept = not any(trial.broken_by_rule(fewer, *wave))
        assert not (kept and passes(fewer, wave))


def test_hopeless_wind_is_told(wave):
    """Where no number of holes helps, the utilisation says so and the holes stay few."""
    foil = replace(PLAN.sheet, gauge=None, thickness_mm=0.3)
    proposal = propose.propose(replace(windy(100_000.0), sheet=foil), *wave)
    assert proposal.utilisation > 1.0
    assert proposal.count < 100


def test_no_worse_than_a_shorter_spacing(wave):
    """Helping what fails takes no more holes than a shorter spacing everywhere would."""
    heavy = windy(6000.0)
    everywhere = spacing_limit.spacing_limit(heavy, *wave)
    assert propose.propose(heavy, *wave).count <= len(everywhere.holes)


def test_fixed_holes_stay(few, wave):
    """A fixed hole is neither slid nor taken away."""
    fixed = replace(few.holes[1], fixed=True)
    proposal = propose.propose(windy(6000.0, (fixed,)), *wave)
    assert fixed in proposal.holes


def test_given_number_is_kept(few, wave):
    """With a number of holes given none is added, whatever the wind."""
    proposal = propose.propose(windy(6000.0), *wave, count=few.count + 1)
    assert proposal.count == few.count + 1


def test_can_be_stopped(few, wave):
    """The person can stop the work."""
    plan = windy(6000.0, few.holes)
    with pytest.raises(Cancelled):
        strengthening.strengthened(plan, *wave, Watch(cancelled=lambda: True))


def test_missing_figure_is_asked_for(wave):
    """A wind without its pressure is refused in one sentence."""
    with pytest.raises(InputError, match="pressure"):
        propose.propose(replace(PLAN, loading=Loading("entered")), *wave)


def test_numbers_run_from_left_to_right():
    """New holes are numbered by place; fixed ones keep their numbers."""
    holes = (Hole(1, 300, 0), Hole(2, 50, 0, fixed=True), Hole(3, 100, 0))
    named = strengthening.renumbered(holes)
    assert [(hole.number, hole.x_mm) for hole in named] == [(1, 100), (2, 50), (3, 300)]


def test_holes_against_the_wind_stay_off_what_is_blocked(few, wave):
    """Added and slid holes keep the wall's rule as all others."""
    box = Zone("blocked", "duct", "rectangle", ((500.0, -300.0), (560.0, 300.0)))
    blocked = replace(windy(9000.0), wall=Wall(zones=(box,), clear_mm=10.0))
    found = propose.propose(blocked, *wave)
    placed = edit.with_holes(blocked, found.holes)
    assert len(found.holes) > len(few.holes)
    assert wall.broken(placed, wave[0]) == 0
