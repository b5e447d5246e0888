"""Hole capacity."""

from dataclasses import replace

import pytest

from holeplacer.resistance import deflection, net_section, pull_over, tear_out
from holeplacer.resistance.hole_place import HolePlace
from holeplacer.rules import hole_capacity, limit_states
from holeplacer.rules.hole_capacity import Cap, Fitting


@pytest.fixture
def fitting(plan):
    sheet = limit_states.grade(plan.sheet, plan.loading)
    return Fitting(sheet, Cap.of(plan), plan.standoff.stud_mm)


def test_a_newton_uses_its_share(fitting):
    """Each share is 1 N over the resistance of its own check."""
    narrow = replace(fitting.cap, backed_mm=0.6 * fitting.cap.pressed_mm)
    fitting = replace(fitting, cap=narrow)
    known = hole_capacity.capacities(fitting).at_hole(7.0, 15.0, False)
    front = pull_over.check(
        fitting.sheet, 0.0, pressed_mm=fitting.cap.pressed_mm, hole_mm=7.0, part=fitting.cap.front
    )
    behind = pull_over.check(fitting.sheet, 0.0, pressed_mm=narrow.backed_mm, hole_mm=7.0)
    both = known.together(30.0, 40.0)
    torn = tear_out.check(fitting.sheet, HolePlace(fitting.stud_mm, 7.0, 15.0), 0.0)
    assert known.by_force[0] == pytest.approx(1 / front.resistance)
    assert known.by_force[1] == pytest.approx(1 / behind.resistance)
    assert known.by_force[1] > 1.2 * known.by_force[0]
    assert 30 * known.by_force[-2] + 40 * known.by_force[-1] == pytest.approx(both.utilisation)
    assert known.by_force[2 + len(known.in_plane) - 1] == pytest.approx(1 / torn.resistance)
    assert len(known.by_force) == 2 + len(known.in_plane) + 2


def test_pulled_on_one_side_is_weaker(fitting):
    """By AISI S100 a cap pulled on one side holds half."""
    known = hole_capacity.capacities(fitting)
    both, one = (known.at_hole(7.0, 15.0, eccentric) for eccentric in (False, True))
    assert one.by_force[0] == pytest.approx(2 * both.by_force[0])
    assert one.by_force[-1] == pytest.approx(2 * both.by_force[-1])
    assert one.by_force[2:-1] == pytest.approx(both.by_force[2:-1])


def test_across_the_stroke(fitting):
    """Stress rises by the width that is left; tension meets net section and its rupture."""
    known = hole_capacity.capacities(fitting).across_stroke(30.0, 7.0)
    sheet = fitting.sheet
    allowable = sheet.factor("bending").usable(sheet.yield_mpa)
    assert known.by_stress == pytest.approx(30 / 23 / allowable)
    assert known.by_tension == pytest.approx(1 / (23 * sheet.thickness_mm) / allowable)
    torn = net_section.check_rupture(
        sheet, width_mm=30.0, hole_mm=7.0, tension_n=1.0, stud_mm=fitting.stud_mm
    )
    assert known.by_rupture == pytest.approx(torn.utilisation)


def test_caps_of_a_plan(plan):
    """Washers come before cap and barrel; nothing behind holds no sheet flat."""
    bare = Cap.of(plan)
    assert (bare.front, bare.behind, bare.washers) == (plan.standoff.head, "barrel", True)
    washed = replace(plan, standoff=replace(plan.standoff, washer_mm=25.0, washer_behind_mm=20.0))
    assert (Cap.of(washed).front, Cap.of(washed).behind) == ("washer", "washer behind")
    assert not replace(bare, backed_mm=0.0).washers


def test_a_share_must_be_known():
    """What has no resistance is no capacity."""
    with pytest.raises(ValueError, match="deflection has no resistance"):
        hole_capacity.known(deflection.check_limit(1.0, None))
