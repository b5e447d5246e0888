"""What asks for metal round a hole."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.plan.limits import Limits
from holeplacer.plan.plan import Plan, SheetChoice, StandoffChoice
from holeplacer.rules import edge_demand, edge_rule


def parts(plan, diameter=None):
    return {part.name: part.mm for part in edge_demand.demands(plan, diameter)}


def test_all_parts_of_a_new_plan(plan):
    """Rule set, ligament, process and cap, each with its figure; no washer without one."""
    found = parts(plan)
    assert found.keys() == {"rule_set", "ligament", "process", "cap"}
    assert found["rule_set"] == pytest.approx(1.5 * 6.35)
    assert found["ligament"] == pytest.approx(3.572 + 3.0)
    assert found["process"] == pytest.approx(3.572 + 1.5 * 1.519)
    assert found["cap"] == pytest.approx(6.35 - 2.0)


def test_entered_edge_distance_takes_the_rule_sets_place(plan):
    """The factor no longer counts; ligament and process still do."""
    found = parts(replace(plan, limits=Limits(edge_distance_mm=5.0)))
    assert "rule_set" not in found
    assert found["edge_distance"] == 5.0
    limits = Limits(edge_distance_mm=5.0)
    assert edge_demand.governing(replace(plan, limits=limits)).name == "ligament"


def test_washer_bears_all_round(plan):
    """A washer asks for its whole radius."""
    found = parts(replace(plan, standoff=StandoffChoice(washer_mm=25.0)))
    assert found["washer"] == 12.5


def test_smaller_hole_takes_a_thinner_stud(plan):
    """A hole of its own diameter carries the stud it is a clearance hole of."""
    assert edge_demand.stud_mm(plan.standoff, 5.5) == 5.0
    assert parts(plan, 5.5)["rule_set"] == 7.5


def test_larger_hole_keeps_the_stud(plan):
    """A slack hole does not call for a thicker stud."""
    assert edge_demand.stud_mm(plan.standoff, 11.0) == 6.35


def test_thick_plate_lets_the_process_govern(plan):
    """With 12 mm plate and no rule set, 1.5 t is what the process leaves sound."""
    thick = replace(
        plan, sheet=SheetChoice(gauge=None, thickness_mm=12.0), limits=Limits("ligament-only")
    )
    assert edge_demand.governing(thick).name == "process"
    assert "plasma" in edge_demand.governing(thick).because


@settings(max_examples=60, deadline=None)
@given(
    st.sampled_from([rule.name for rule in edge_rule.edge_rules()]),
    st.floats(3, 30),
    st.floats(3, 30),
)
def test_demands_only_grow_with_the_diameter(rule_set, one, two):
    """A larger hole never needs less metal, whatever the rule set."""
    plan = Plan(ArtworkFile("a.svg", b""), limits=Limits(rule_set))
    small, large = sorted((one, two))
    assert edge_demand.governing(plan, small).mm <= edge_demand.governing(plan, large).mm + 1e-12
