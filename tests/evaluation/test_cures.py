"""Ways out of one finding."""

import pytest

from holeplacer.evaluation import cures, evaluate
from holeplacer.plan import edit


def findings(plan, outline, axis):
    evaluation = evaluate.evaluate(plan, outline, axis)
    return evaluation, {finding.rule: finding for finding in evaluation.findings}


def test_hole_too_near_an_edge(plan, outline, axis):
    """All that would do at its place, a boss included."""
    evaluation, found = findings(edit.with_hole_moved(plan, 2, 300, 8), outline, axis)
    ways = cures.cures(plan, evaluation, found["edge_distance"])
    assert {way.act for way in ways} == {"hole", "ligament", "offset", "boss"} - {
        "ligament" if found["edge_distance"].value < 5.85 else ""
    }


def test_stretch_too_thin_for_a_hole(plan, outline, axis):
    """What would make room: here only fatter strokes; a boss has no hole yet to swell round."""
    evaluation, _ = findings(plan, outline, axis)
    stretch, *_ = evaluation.findings
    assert "to make room" in stretch.way_out
    (way,) = cures.cures(plan, evaluation, stretch)
    assert way.act == "offset"
    assert way.mm == pytest.approx(5.6, abs=0.11)


def test_tip_too_thin_for_a_hole(plan, outline, axis):
    """The same for a tip within whose overhang no hole fits."""
    evaluation, _ = findings(plan, outline, axis)
    (tip, _) = [f for f in evaluation.findings if f.message.startswith("The tip")]
    assert "to make room" in tip.way_out
    (way,) = cures.cures(plan, evaluation, tip)
    assert way.mm == pytest.approx(5.6, abs=0.11)


def test_stretch_with_room_needs_a_hole(plan, outline, axis):
    """Where metal is enough the cure is to add a hole."""
    evaluation, _ = findings(edit.without_hole(edit.without_hole(plan, 2), 3), outline, axis)
    stretches = [
        f for f in evaluation.findings if f.rule == "spacing" and "add a hole" in f.way_out
    ]
    assert stretches
    assert cures.cures(plan, evaluation, stretches[0]) == ()


def test_other_findings_have_none(plan, outline, axis):
    """Two holes too near each other lack no metal."""
    evaluation, found = findings(edit.with_hole_added(plan, 305, 0), outline, axis)
    assert cures.cures(plan, evaluation, found["neighbours"]) == ()
