"""Ways out, each with its figure, each tried."""

from dataclasses import replace

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.errors import InputError
from holeplacer.outline import boss, offset
from holeplacer.outline.outline import Outline
from holeplacer.plan import edit
from holeplacer.plan.limits import Limits
from holeplacer.plan.plan import Plan, StandoffChoice
from holeplacer.rules import edge_distance, edge_rule, ways_out


def found(plan, edge, diameter=None):
    return {way.act: way for way in ways_out.ways_out(plan, edge, diameter)}


def test_enough_metal_needs_no_way_out(plan):
    """Nor is there one for a place off the metal."""
    assert ways_out.ways_out(plan, 9.6) == ()
    assert ways_out.ways_out(plan, -1.0) == ()


def test_figures_at_eight_millimetres(plan):
    """A smaller hole, less metal, fatter strokes, a boss: each with its figure."""
    ways = found(plan, 8.0)
    assert ways.keys() == {"hole", "ligament", "offset", "boss"}
    assert ways["hole"].mm == pytest.approx(6.3)
    assert "M5 stud" in ways["hole"].text
    assert ways["ligament"].mm == pytest.approx(4.42)
    assert ways["ligament"].edge_distance_mm == 8.0
    assert ways["offset"].mm == pytest.approx(1.6)
    assert ways["boss"].mm == pytest.approx(9.6)


def test_process_sets_a_floor_for_accepted_ligament(plan):
    """Less metal than plasma leaves sound can't be accepted by name."""
    assert "ligament" not in found(plan, 5.8)
    assert "ligament" in found(plan, 5.9)


def test_drilled_hole_is_said(plan):
    """A hole plasma can't cut is offered as a drilled one."""
    assert found(plan, 5.9)["hole"].mm < 4.76
    assert "drilled" in found(plan, 5.9)["hole"].text


def test_cap_alone_in_the_way(plan):
    """Where only the cap asks for more, letting it reach past the edge cures."""
    capped = replace(plan, standoff=StandoffChoice(cap_mm=26.0))
    ways = found(capped, 10.0)
    assert ways["cap"].mm == pytest.approx(3.0)
    assert "hole" not in ways


def test_washer_leaves_only_more_metal(plan):
    """A washer must bear: only fatter strokes or a boss help."""
    washer = replace(plan, standoff=StandoffChoice(washer_mm=26.0))
    assert found(washer, 10.0).keys() == {"offset", "boss"}


def test_offset_names_the_whole(plan):
    """On top of an offset that is there, the sum is told."""
    assert "3.6 mm in all" in found(edit.with_offset(plan, 2.0), 8.0)["offset"].text


def test_sentence_joins_all(plan):
    """For a finding the cures stand in one line."""
    assert ways_out.sentence(ways_out.ways_out(plan, 8.0)).count("; or ") == 3
    assert ways_out.sentence(()) == ""


def test_smaller_hole_for_the_plan_brings_its_hardware(plan):
    """Without a number the plan's hole changes, and stud and cap with it."""
    way = found(plan, 8.0)["hole"]
    hardware = ways_out.taken(plan, way).standoff
    assert hardware.hole_mm == way.mm
    assert hardware.stud_mm == 5.0
    assert hardware.projection_mm == plan.standoff.projection_mm


def test_boss_needs_a_hole(plan):
    """A boss swells round a hole that is there."""
    with pytest.raises(InputError, match="needs a hole"):
        ways_out.taken(plan, found(plan, 8.0)["boss"])


@settings(max_examples=60, deadline=None)
@given(
    st.floats(3.0, 12.0),
    st.sampled_from([rule.name for rule in edge_rule.edge_rules()]),
    st.floats(0.5, 6.0),
    st.none() | st.floats(4.0, 12.0),
    st.sampled_from([0.0, 16.0]),
    st.sampled_from([None, 5.5, 9.0]),
)
def test_every_way_out_cures(edge, rule_set, ligament, entered, cap, diameter):
    """Whatever is offered, taken alone it leaves no finding at that hole."""
    outline = Outline.from_geometry(shapely.box(0, -edge, 200, edge))
    plan = Plan(
        ArtworkFile("a.svg", b""),
        limits=Limits(rule_set, ligament, entered),
        standoff=StandoffChoice(cap_mm=cap),
    )
    plan = edit.with_hole_added(plan, 100, 0, diameter_mm=diameter)
    hole_mm = plan.diameter_of(plan.holes[0])
    for way in ways_out.ways_out(plan, edge, hole_mm):
        cured = ways_out.taken(plan, way, number=1)
        metal = outline
        if cured.offset_mm:
            metal = offset.offset(metal, cured.offset_mm)
        for item in cured.bosses:
            metal = boss.with_boss(metal, item.x_mm, item.y_mm, item.radius_mm, item.blend_mm)
        (distance,) = metal.edge_distance((100.0, 0.0))
        (hole,) = cured.holes
        assert distance >= edge_distance.limit(cured, cured.diameter_of(hole)) - 1e-6, way
