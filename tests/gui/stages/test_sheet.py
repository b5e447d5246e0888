"""Metal and gauge go together; what the process asks stands beside what is chosen."""

from dataclasses import replace

import pytest

from holeplacer.sheet import metal


@pytest.fixture
def stage(opened, qtbot):
    opened.rail.setCurrentRow(1)
    made = opened.stages[1]
    qtbot.waitUntil(lambda: made._gauge.count() > 5)
    return made


def test_a_gauge_is_another_thickness_in_another_metal(stage, opened):
    """Sixteen gauge stays sixteen gauge and becomes 1.29 mm."""
    stage._metal.chosen.emit(metal.metal("aluminium"))
    sheet = opened.session.plan.sheet
    assert (sheet.metal, sheet.gauge, sheet.thickness_mm) == ("aluminium", 16, 1.29)
    assert opened.session.undo_stack.count() == 1


def test_a_gauge_sets_the_thickness(stage, opened):
    """Choosing 14 gauge steel enters its thickness."""
    stage._gauge.chosen.emit(14)
    assert opened.session.plan.sheet.thickness_mm == 1.897
    assert opened.session.undo_stack.undoText() == "Take 14 gauge steel"


def test_an_own_thickness_is_no_gauge(stage, opened):
    """Typing a thickness lets go of the gauge."""
    stage._thickness.entry.stepBy(1)
    assert opened.session.plan.sheet.gauge is None
    assert opened.session.plan.sheet.thickness_mm == pytest.approx(1.6)


def test_least_hole_and_source_are_shown(stage, opened, qtbot):
    """The process's least hole stands beside the plan's, with its source below."""
    assert "Least hole 4.76 mm; yours are 7.14 mm." in stage._least.text()
    assert "Least ligament 2.28 mm" in stage._least.text()
    assert stage._process_row.note.text()
    stage._process.chosen.emit("hand")
    qtbot.waitUntil(lambda: "Every hole is drilled" in stage._least.text())


def test_a_metal_without_gauges_hides_them(stage, opened, qtbot):
    """What is sold by thickness alone keeps the present one."""
    stage._metal.chosen.emit(metal.metal("s235"))
    sheet = opened.session.plan.sheet
    assert (sheet.metal, sheet.gauge, sheet.thickness_mm) == ("s235", None, 1.519)
    qtbot.waitUntil(lambda: not stage._gauge.isVisible())
    assert "EN 10025-2" in stage._metal_row.note.text()


def test_a_kept_metal_is_offered_and_goes_into_the_plan_whole(stage, opened, qtbot):
    """Its figures travel with the plan."""
    own = replace(metal.metal("brass"), name="yard brass", yield_mpa=200.0)
    stage._stock.keep_metal(own)
    qtbot.waitUntil(lambda: stage._metal.findText("yard brass") >= 0)
    stage._metal.chosen.emit(own)
    assert opened.session.plan.sheet.own_metal == own
    assert opened.session.plan.sheet.thickness_mm == 1.29
    stage._metal.chosen.emit(metal.metal("steel"))
    assert opened.session.plan.sheet.own_metal is None


def test_a_hole_that_must_be_drilled_is_a_note_here(stage, opened, qtbot):
    """A small hole is a note of this stage, not an open finding."""
    from holeplacer.plan import edit

    plan = edit.with_hole_added(opened.session.committed, 300, 100, diameter_mm=3.5)
    opened.session.push(plan, "Add hole 1")
    assert stage.open_findings() == 0
    assert opened.findings.view.model().rowCount() == 1
    opened.session.push(replace(plan, holes=()), "Delete hole 1")
    assert opened.findings.view.model().rowCount() == 0
