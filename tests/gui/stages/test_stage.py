"""A form is bound to the plan both ways; steps of one entry are one gesture."""

from dataclasses import replace

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QWheelEvent
from PySide6.QtWidgets import QApplication, QDoubleSpinBox

from holeplacer.errors import InputError
from holeplacer.gui.rail import StageState
from holeplacer.gui.stages.stage import Choice, Stage, show_number
from holeplacer.units import LengthUnit


class OverhangStage(Stage):
    """One length, refused above 500 mm."""

    NAME = "Overhang"
    RULES = ("spacing",)

    def __init__(self, session):
        super().__init__(session)
        self.row = self.length(
            "Overhang", lambda plan: plan.limits.overhang_mm, self.write, step_mm=5
        )
        self.filled = 0

    def write(self, plan, mm):
        if mm > 500:
            raise InputError("more than half a metre")
        return replace(plan, limits=replace(plan.limits, overhang_mm=mm))

    def state(self):
        return StageState(self.NAME, open_count=self.open_findings())

    def show_plan(self, plan):
        self.filled += 1


@pytest.fixture
def stage(opened, qtbot):
    plan = opened.session.committed
    opened.session.show_plan(replace(plan, limits=replace(plan.limits, overhang_mm=100.0)))
    made = OverhangStage(opened.session)
    qtbot.addWidget(made)
    made.show()
    made.refresh_soon()
    qtbot.waitUntil(lambda: made.filled > 0)
    return made


def type_in(qtbot, field, text):
    field.setFocus()
    field.selectAll()
    qtbot.keyClicks(field, text)
    qtbot.keyClick(field, Qt.Key.Key_Return)


def test_typing_is_a_named_step(stage, opened, qtbot):
    """The value goes into the plan; the undo step says what was done."""
    type_in(qtbot, stage.row.entry, "80")
    assert opened.session.plan.limits.overhang_mm == 80
    assert opened.session.undo_stack.undoText() == "Set overhang to 80 mm"


def test_undo_fills_the_form(stage, opened, qtbot):
    """Another plan shows in the field, in the unit chosen."""
    type_in(qtbot, stage.row.entry, "80")
    opened.session.undo_stack.undo()
    qtbot.waitUntil(lambda: stage.row.entry.text() == "100 mm")
    opened.session.set_unit(LengthUnit.INCH)
    qtbot.waitUntil(lambda: stage.row.entry.text() == "3 15/16 in")


def test_what_the_core_refuses_is_told_in_place(stage, opened, qtbot):
    """The plan stays, the row says why."""
    type_in(qtbot, stage.row.entry, "600")
    assert opened.session.plan.limits.overhang_mm == 100
    assert "half a metre" in stage.row.error.text()


def test_a_run_of_steps_is_one_undo(stage, opened):
    """Five arrows are undone at once; after another change a new run begins."""
    field = stage.row.entry
    for _ in range(5):
        field.stepBy(1)
    assert opened.session.plan.limits.overhang_mm == 125
    assert opened.session.undo_stack.count() == 1
    opened.session.push(replace(opened.session.committed, offset_mm=0.0), "Nothing")
    sheet = replace(opened.session.committed.sheet, process="laser")
    opened.session.push(replace(opened.session.committed, sheet=sheet), "Cut by laser")
    field.stepBy(1)
    assert opened.session.undo_stack.count() == 3


def test_a_burst_of_changes_fills_once(stage, opened, qtbot):
    """Forms follow at thirty times a second, not at every mouse move."""
    before = stage.filled
    for mm in range(100, 150):
        limits = replace(opened.session.committed.limits, overhang_mm=float(mm))
        opened.session.preview(replace(opened.session.committed, limits=limits))
    qtbot.waitUntil(lambda: stage.row.entry.mm == 149.0)
    assert stage.filled - before < 25


def test_counts_its_own_findings(stage, opened):
    """Only broken rules of this stage count."""
    found = opened.session.evaluation.findings
    mine = sum(finding.rule == "spacing" and finding.broken for finding in found)
    assert stage.state().open_count == mine > 0


def test_choice_tells_only_what_the_person_chose(qtbot):
    """Filling the list is no choice; a wheel turned over it is none either."""
    choice = Choice()
    qtbot.addWidget(choice)
    choice.show()
    with qtbot.assertNotEmitted(choice.chosen):
        choice.offer((("steel", 1), ("aluminium", 2)), 2)
        wheel = QWheelEvent(
            QPointF(5, 5), QPointF(5, 5), QPoint(), QPoint(0, 120), Qt.MouseButton.NoButton,
            Qt.KeyboardModifier.NoModifier, Qt.ScrollPhase.NoScrollPhase, False,
        )  # fmt: skip
        QApplication.sendEvent(choice, wheel)
    assert choice.currentText() == "aluminium"
    with qtbot.waitSignal(choice.chosen) as told:
        choice.setFocus()
        qtbot.keyClick(choice, Qt.Key.Key_Up)
    assert told.args == [1]


def test_show_number_leaves_typing_alone(qtbot):
    """The same number shown again does not wipe out half-typed text."""
    spin = QDoubleSpinBox()
    spin.setKeyboardTracking(False)
    qtbot.addWidget(spin)
    spin.show()
    show_number(spin, 33.3333)
    assert spin.value() == pytest.approx(33.33)
    spin.selectAll()
    qtbot.keyClicks(spin, "4")
    show_number(spin, 33.3333)
    assert spin.text() == "4"
