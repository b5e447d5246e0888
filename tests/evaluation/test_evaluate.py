"""Findings and figures of a plan's holes."""

import math
import re
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer import rules
from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.evaluation import evaluate
from holeplacer.medial_axis import medial_axis
from holeplacer.outline.outline import Outline
from holeplacer.plan import edit
from holeplacer.plan.hole import Hole
from holeplacer.plan.limits import Limits
from holeplacer.plan.plan import Plan
from holeplacer.rules import edge_distance
from holeplacer.seams import seams


@pytest.fixture
def evaluation(plan, outline, axis):
    return evaluate.evaluate(plan, outline, axis)


def test_each_hole_has_its_figures(evaluation):
    """Edge distance, limit, ligament, nearest edge point and piece, in the plan's order."""
    assert [hole.number for hole in evaluation.holes] == [1, 2, 3, 5, 6, 7]
    second, third = evaluation.holes[1], evaluation.holes[2]
    assert second.edge_distance_mm == pytest.approx(15.0)
    assert second.ligament_mm == pytest.approx(15 - 7.144 / 2)
    assert abs(second.nearest_edge_mm[1]) == pytest.approx(15)
    assert third.edge_distance_mm == pytest.approx(11.0)
    assert third.nearest_edge_mm == pytest.approx((550, 15))
    assert third.diameter_mm == 5.5
    assert third.limit_mm == 7.5
    assert len({hole.piece for hole in evaluation.holes}) == 3


def test_spans_are_ways_along_the_axis(evaluation):
    """Along the stroke centre to centre, round the ring half its length; longest first."""
    spans = {span.numbers: span.length_mm for span in evaluation.spans}
    assert spans[1, 2] == pytest.approx(250, abs=0.01)
    assert spans[2, 3] == pytest.approx(250, abs=0.01)
    assert spans[5, 6] == pytest.approx(math.pi * 65, rel=1e-3)
    lengths = [span.length_mm for span in evaluation.spans]
    assert lengths == sorted(lengths, reverse=True)
    beside = {number: way for way, number in evaluation.holes[1].spans}
    assert beside == {1: pytest.approx(250, abs=0.01), 3: pytest.approx(250, abs=0.01)}


def test_tips_hang_over_to_their_hole(evaluation):
    """From the outermost metal along the axis to the first hole, which is named."""
    stroke = [tip for tip in evaluation.tips if tip.xy_mm[1] == pytest.approx(0, abs=1)]
    held = {tip.number: tip.overhang_mm for tip in stroke}
    assert held == {1: pytest.approx(65, abs=0.05), 3: pytest.approx(65, abs=0.05)}
    assert [tip.clearance_mm for tip in stroke] == pytest.approx([15, 15], abs=0.02)
    hair = [tip for tip in evaluation.tips if tip.xy_mm[1] > 190]
    assert [tip.clearance_mm for tip in hair] == pytest.approx([4, 4], abs=0.02)
    assert [(tip.overhang_mm, tip.number) for tip in hair] == [(None, None), (None, None)]


def test_what_is_out_of_reach_is_listed(evaluation):
    """Only the hair-thin stroke is bare, with the clearance it has to offer."""
    (bare,) = evaluation.uncovered
    assert bare.length_mm == pytest.approx(300, abs=0.1)
    assert bare.xy_mm == pytest.approx((150, 200), abs=0.1)
    assert bare.clearance_mm == pytest.approx(4.0, abs=0.02)


def test_findings_come_from_every_rule(plan, outline, axis):
    """A hole too near an edge, one too small to cut, two too near, a bare stroke."""
    plan = edit.with_hole_added(plan, 310, 8, diameter_mm=4.0)
    plan = edit.with_hole_added(plan, 150, 6)
    found = {finding.rule for finding in evaluate.evaluate(plan, outline, axis).findings}
    assert found == {"edge_distance", "process", "spacing", "turning", "neighbours"}


def test_every_rule_module_is_asked():
    """No module with a rule is forgotten, each is asked once, in the order of the list; the rule
    on seams stands in the package that divides the sign."""
    folder = Path(rules.__file__).parent
    with_rule = {
        path.stem for path in folder.glob("*.py") if "\nNAME = " in path.read_text(encoding="utf-8")
    }
    modules = [check.__module__.split(".")[1:] for check in evaluate.RULES]
    asked = [name for package, name in modules if package == "rules"]
    assert sorted(asked) == sorted(with_rule)
    listed = [name for name in re.findall(r"\w+", rules.__doc__) if name in with_rule]
    assert asked == listed
    assert [item for item in modules if item[0] != "rules"] == [["seams", "seams"]]
    assert seams.NAME == "seams"


def test_notes_do_not_count_as_broken(plan, outline, axis):
    """A centre mark to drill is told but breaks nothing."""
    before = evaluate.evaluate(plan, outline, axis)
    after = evaluate.evaluate(edit.with_hole_diameter(plan, 3, 4.0), outline, axis)
    assert len(after.findings) == len(before.findings) + 1
    assert after.broken == before.broken


def test_empty_plan_is_all_bare(plan, outline, axis):
    """Without holes every branch is out of reach and no tip is held."""
    bare = evaluate.evaluate(edit.with_holes(plan, ()), outline, axis)
    assert bare.holes == ()
    assert bare.spans == ()
    assert sum(stretch.length_mm for stretch in bare.uncovered) == pytest.approx(axis.length_mm)
    assert all(tip.number is None for tip in bare.tips)


def test_hole_off_the_metal_holds_nothing(plan, outline, axis):
    """It has figures, but no stroke counts as held by it."""
    moved = edit.with_hole_moved(plan, 2, 300, 40)
    found = evaluate.evaluate(moved, outline, axis)
    assert found.holes[1].edge_distance_mm < 0
    assert found.holes[1].spans == ()
    assert (1, 3) in [span.numbers for span in found.spans]


@settings(max_examples=25, deadline=None)
@given(
    places=st.lists(st.tuples(st.floats(-20, 620), st.floats(-14, 14)), min_size=1, max_size=7),
    spacing=st.floats(60, 500),
)
def test_bare_stretches_against_sampling(places, spacing, outline, axis):
    """No sampled point of the plain stroke is bare but those in a listed stretch, and all those."""
    plan = Plan(ArtworkFile("a.svg", b""), limits=Limits(spacing_mm=spacing))
    for x, y in places:
        plan = edit.with_hole_added(plan, x, y)
    found = evaluate.evaluate(plan, outline, axis)
    held = [
        hole.x_mm
        for hole, foot_x in zip(
            found.holes, np.clip([h.x_mm for h in plan.holes], 0, 600), strict=True
        )
        if math.hypot(hole.x_mm - foot_x, hole.y_mm) <= max(0.0, hole.edge_distance_mm)
    ]
    (index,) = [
        i for i, branch in enumerate(axis.branches)
        if np.abs(branch.xy[:, 1]).max() < 1 and branch.xy[:, 0].max() < 620
    ]  # fmt: skip
    branch = axis.branches[index]
    for s in np.linspace(0, branch.length_mm, 61):
        x = float(np.interp(s, branch.s, branch.xy[:, 0]))
        way = min(
            (abs(x - np.clip(at, branch.xy[:, 0].min(), branch.xy[:, 0].max())) for at in held),
            default=math.inf,
        )
        if abs(way - spacing / 2) < 0.1:
            continue
        listed = any(
            part.branch == index and part.from_mm - 1e-6 <= s <= part.to_mm + 1e-6
            for part in found.uncovered
        )
        assert listed == (way > spacing / 2)


def test_limit_beside_the_value(evaluation, plan):
    """Each hole's limit is the rule's own."""
    for hole, figures in zip(plan.holes, evaluation.holes, strict=True):
        assert figures.limit_mm == edge_distance.limit(plan, plan.diameter_of(hole))


PLACES = st.lists(st.tuples(st.floats(-20, 820), st.floats(-90, 210)), min_size=1, max_size=6)


@settings(max_examples=30, deadline=None)
@given(number=st.sampled_from([1, 2, 3, 5, 6, 7]), places=PLACES)
def test_a_drag_ends_where_a_fresh_evaluation_does(number, places, outline, axis):
    """What is remembered between moves of a hole never changes what is said of the last one."""
    holes = (Hole(1, 50, 0), Hole(2, 300, 0), Hole(3, 550, 4, 5.5), Hole(5, 720, 65),
             Hole(6, 720, -65, None, True), Hole(7, 300, 90))  # fmt: skip
    plan = Plan(ArtworkFile("sign.svg", b""), holes=holes)
    for place in places:
        plan = edit.with_hole_moved(plan, number, *place)
        warm = evaluate.evaluate(plan, outline, axis)
    anew = Outline.from_geometry(outline.region)
    cold = evaluate.evaluate(plan, anew, medial_axis.medial_axis(anew))
    assert warm == cold
