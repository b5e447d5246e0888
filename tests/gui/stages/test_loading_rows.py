"""Rows bound to the loads of a plan."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel

from holeplacer.errors import InputError
from holeplacer.gui.quantity_kind import NUMBER, PRESSURE
from holeplacer.gui.stages import loading_rows
from holeplacer.gui.stages.loading_rows import LoadingRows
from holeplacer.gui.stages.stage import Stage


@pytest.fixture
def stage(qtbot, windy):
    made = Stage(windy)
    qtbot.addWidget(made)
    made.show_plan = lambda plan: None
    return made


@pytest.fixture
def rows(stage):
    return LoadingRows(stage)


def type_into(field, qtbot, text):
    field.selectAll()
    qtbot.keyClick(field, Qt.Key.Key_Delete)
    qtbot.keyClicks(field, text)
    qtbot.keyClick(field, Qt.Key.Key_Return)


def test_a_typed_figure_is_one_named_step(rows, windy, qtbot):
    """Another plan, its step named by figure and value; undo brings the old one back."""
    row = rows.quantity("Off the wall", "pressure_out_pa", PRESSURE)
    rows.show_plan(windy.plan)
    assert row.entry.text() == "1 kPa"
    type_into(row.entry, qtbot, "2 kPa")
    assert windy.plan.loading.pressure_out_pa == 2000.0
    assert windy.undo_stack.undoText() == "Set off the wall to 2 kPa"
    windy.undo_stack.undo()
    assert windy.plan.loading.pressure_out_pa == 1000.0


def test_what_can_not_be_meant_is_told_in_place(rows, windy, qtbot):
    """One sentence below the entry; the plan stays."""
    row = rows.quantity("Overhang over deflection", "overhang_ratio", NUMBER)
    rows.show_plan(windy.plan)
    before = windy.plan
    type_into(row.entry, qtbot, "-3")
    assert windy.plan is before
    assert "not possible" in row.error.text()
    type_into(row.entry, qtbot, "25")
    assert row.error.text() == ""
    assert windy.plan.loading.overhang_ratio == 25.0


def test_choices_and_ticks(rows, windy, qtbot):
    """Each is one step in words."""
    choice = rows.choice("Supports", "supports", (("free", "free"), ("clamped", "clamped")))
    tick = rows.tick("Weight", "gravity", "counts")
    rows.show_plan(windy.plan)
    choice.entry.chosen.emit("clamped")
    assert windy.plan.loading.supports == "clamped"
    assert windy.undo_stack.undoText() == "Choose supports: clamped"
    tick.entry.click()
    assert windy.plan.loading.gravity is False
    assert windy.undo_stack.undoText() == "Leave out weight"


def test_only_rows_of_use_are_seen(rows, stage, windy):
    """What does not matter for this loading is hidden, and its label with it."""
    row = rows.quantity(
        "Kz", "asce7.kz", NUMBER, empty="by table", when=lambda one: one.method == "asce7-22"
    )
    words = QLabel("ASCE")
    rows.only_when(words, lambda one: one.method == "asce7-22")
    rows.show_plan(windy.plan)
    assert row.entry.isHidden()
    assert row.label.isHidden()
    assert words.isHidden()
    rows.show_plan(loading_rows.changed(windy.plan, "method", "asce7-22"))
    assert not row.entry.isHidden()
    assert not words.isHidden()


def test_paths_reach_into_parts(windy):
    """A part that is not there reads as None; nonsense is refused."""
    plan = loading_rows.changed(windy.plan, "asce7.kz", 0.9)
    assert loading_rows.read(plan.loading, "asce7.kz") == 0.9
    assert loading_rows.read(plan.loading, "fixing.screw.diameter_mm") is None
    with pytest.raises(InputError):
        loading_rows.changed(plan, "temperature.highest_c", -40.0)


def test_lengths_are_lengths(rows, stage, windy):
    """Bound by the stage's own binding."""
    row = rows.length("Deflection limit", "deflection_limit_mm", empty="by the ratios")
    row.entry.entered.emit(2.5, False)
    assert windy.plan.loading.deflection_limit_mm == 2.5
    assert windy.undo_stack.undoText() == "Set deflection limit to 2.5 mm"
