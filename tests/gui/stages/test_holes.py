"""Limits stand beside what they limit, and changing one checks at once."""

import pytest
from PySide6.QtCore import Qt

from holeplacer.plan import edit
from holeplacer.units import format_length


@pytest.fixture
def stage(opened, qtbot):
    opened.rail.setCurrentRow(3)
    qtbot.waitUntil(lambda: opened.hole_stage._rule_set.count() > 5)
    return opened.hole_stage


def test_what_is_in_force_is_said(stage):
    """The governing edge distance and where it comes from."""
    assert stage._governs.text() == (
        f"In force: at least {format_length(9.525)} from centre to edge "
        "(AISI S100, bolts: 1.5 × 6.35 mm stud)."
    )
    assert "S100" in stage._rule_row.note.text()


def test_another_rule_set(stage, opened, qtbot):
    """Choosing EN 1993 changes what is in force; undo goes back."""
    stage._rule_set.chosen.emit("en-1993-1-3-screws")
    qtbot.waitUntil(lambda: "EN 1993-1-3" in stage._governs.text())
    opened.session.undo_stack.undo()
    qtbot.waitUntil(lambda: "AISI" in stage._governs.text())


def test_a_typed_limit_is_held_at_once(stage, opened, qtbot):
    """A ligament larger than the stroke allows makes the hole a finding."""
    _, bottom, _, top = opened.session.layout.outline.pieces[0].bounds_mm
    plan = edit.with_hole_added(opened.session.committed, 300, (bottom + top) / 2)
    opened.session.push(plan, "Add hole 1")
    rules = [finding.rule for finding in opened.session.evaluation.findings]
    assert "edge_distance" not in rules
    entry = stage._ligament.entry
    entry.setFocus()
    entry.selectAll()
    qtbot.keyClicks(entry, "20 mm")
    qtbot.keyClick(entry, Qt.Key.Key_Return)
    rules = [finding.rule for finding in opened.session.evaluation.findings]
    assert "edge_distance" in rules


def test_share_against_turning(stage, opened):
    """Per cent in the form, a share in the plan; turns are one step."""
    stage._turning.setValue(40)
    stage._turning.setValue(50)
    assert opened.session.plan.limits.turning_share == 0.5
    assert opened.session.undo_stack.count() == 1


def test_figure_for_the_rail(stage, opened):
    """Count of holes and the longest span."""
    left, bottom, _, top = opened.session.layout.outline.pieces[0].bounds_mm
    plan = opened.session.committed
    for x in (100, 350):
        plan = edit.with_hole_added(plan, left + x, (bottom + top) / 2)
    opened.session.push(plan, "Add holes")
    assert stage.state().figure == "2 holes, span 250 mm"
    assert stage.state().open_count > 0
