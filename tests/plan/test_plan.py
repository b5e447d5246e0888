"""Plan values."""

import dataclasses

import pytest

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.plan.plan import Plan, SheetChoice, StandoffChoice
from holeplacer.sheet import gauge, metal
from holeplacer.standoffs import standoff


def test_a_new_plan_is_a_typical_job():
    """16 gauge steel by plasma on 1 in standoffs: 1/4 in stud in a 9/32 in hole."""
    plan = Plan(ArtworkFile("a.dxf", b""))
    assert (plan.sheet.metal, plan.sheet.gauge, plan.sheet.process) == ("steel", 16, "plasma")
    assert plan.standoff.projection_mm == 25.4
    assert plan.standoff.stud_mm == 25.4 / 4
    assert plan.standoff.hole_mm == pytest.approx(9 / 32 * 25.4, abs=0.001)
    assert plan.holes == ()


def test_default_thickness_is_the_gauges():
    """The sheet's figures agree with the table."""
    sheet = SheetChoice()
    assert (
        sheet.thickness_mm
        == gauge.gauge(metal.metal(sheet.metal).gauge_series, sheet.gauge).thickness_mm
    )


def test_the_sheets_metal_is_the_tables_or_ones_own():
    """A name leads to the table; an own metal is taken as it is."""
    assert SheetChoice("brass").material == metal.metal("brass")
    own = dataclasses.replace(metal.metal("steel"), name="scrap", yield_mpa=100.0)
    assert SheetChoice("scrap", None, own_metal=own).material is own


def test_other_hardware_keeps_the_fit():
    """How freely a stud passes is a decision of its own."""
    loose = StandoffChoice(fit="loose")
    found = loose.with_hardware(standoff.standoff("25 mm, M6 stud"))
    assert (found.fit, found.stud_mm) == ("loose", 6.0)


def test_a_hole_may_have_its_own_diameter(plan):
    """A hole without one takes the plan's."""
    assert [plan.diameter_of(hole) for hole in plan.holes] == [7.144, 5.5, 7.144]


def test_plans_compare_by_value_and_cannot_be_changed(plan):
    """Two plans that say the same are equal; no field can be set."""
    assert dataclasses.replace(plan) == plan
    assert hash(dataclasses.replace(plan)) == hash(plan)
    with pytest.raises(dataclasses.FrozenInstanceError):
        plan.offset_mm = 1.0
