"""Each way out of a finding is one button and one step that can be undone."""

import pytest
from PySide6.QtCore import Qt

from holeplacer.plan import edit


@pytest.fixture
def near_edge(opened):
    left, _bottom, right, top = opened.session.layout.outline.pieces[0].bounds_mm
    plan = edit.with_hole_added(opened.session.committed, (left + right) / 2, top - 7)
    opened.session.push(plan, "Add hole 1")
    opened.rail.setCurrentRow(3)
    (finding,) = [f for f in opened.session.evaluation.findings if f.rule == "edge_distance"]
    opened.session.select_finding(finding)
    return opened


def acts(bench):
    return [button.words for button in bench.findings._ways.buttons]


def test_cures_are_offered_with_their_figures(near_edge):
    """Smaller hole, less metal, fatter strokes, boss: each with its figure."""
    offered = " | ".join(acts(near_edge))
    for word in ("Move it", "maller hole", "ligament", "fatter", "boss"):
        assert word in offered


@pytest.mark.parametrize("word", ["Move it", "maller hole", "ligament", "fatter", "boss"])
def test_one_act_cures_and_can_be_undone(near_edge, qtbot, word):
    """Pressing it cures the finding; undo brings plan and finding back."""
    session = near_edge.session
    before = session.plan
    (button,) = [b for b in near_edge.findings._ways.buttons if word in b.words]
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)

    def cured():
        rules = [f.rule for f in session.evaluation.findings if f.place.index == 1]
        return "edge_distance" not in rules

    qtbot.waitUntil(cured, timeout=20_000)
    assert session.undo_stack.undoText().startswith(("Take ", "Move "))
    session.undo_stack.undo()
    assert session.plan is before
    qtbot.waitUntil(lambda: not cured(), timeout=20_000)


def test_none_without_a_finding(near_edge):
    """Deselecting takes the buttons away."""
    near_edge.session.select_holes(())
    assert acts(near_edge) == []
