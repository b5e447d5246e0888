"""Every coefficient in sight, and changeable."""

from dataclasses import fields

import pytest
from PySide6.QtCore import Qt

from holeplacer.gui.stages.loading_rows import changed, read
from holeplacer.gui.stages.step_table import CHANGEABLE, SOURCE, VALUE, conditions_words, told
from holeplacer.gui.stages.strength import StrengthStage
from holeplacer.loads.loading import Asce7Site, En1991Site, Loading
from holeplacer.loads.step import Condition
from holeplacer.resistance.utilisation import FROM_MEMORY
from holeplacer.units import LengthUnit

PLACE = {
    "asce7.basic_speed_m_s": 51.4, "asce7.roof_height_mm": 6000.0,
    "en1991.basic_speed_m_s": 25.0, "en1991.reference_height_mm": 6000.0,
}  # fmt: skip
ASKED = {
    "asce7": {"basic_speed_m_s", "roof_height_mm", "sign_height_mm", "corner_distance_mm",
              "least_width_mm", "ground_elevation_mm"},
    "en1991": {"basic_speed_m_s", "reference_height_mm"},
}  # fmt: skip
"""Figures of the place, which have fields of their own."""


@pytest.fixture
def stage(qtbot, windy):
    made = StrengthStage(windy)
    qtbot.addWidget(made)
    made.resize(340, 900)
    with qtbot.waitExposed(made):
        made.show()
    return made


def take(stage, method):
    plan = changed(stage.session.committed, "method", method)
    for path, value in PLACE.items():
        plan = changed(plan, path, value)
    stage.session.push(plan, "Method")
    stage._refresh()
    return stage.steps.model


def row_of(model, symbol):
    return next(row for row in range(model.rowCount()) if model.step_at(row).symbol == symbol)


@pytest.mark.parametrize("method", ["asce7-16", "asce7-22", "en1991-1-4"])
def test_every_step_is_listed_with_its_source(stage, method):
    """As the core gives them, in order."""
    model = take(stage, method)
    steps = stage.session.evaluation.strength.effects.pressure.steps
    assert [model.step_at(row) for row in range(model.rowCount())] == list(steps)
    for row, step in enumerate(steps):
        assert model.index(row, SOURCE).data().startswith(step.source)


@pytest.mark.parametrize("method", ["asce7-16", "asce7-22", "en1991-1-4"])
def test_every_changeable_coefficient_is_among_the_steps(stage, method):
    """By its symbol; no coefficient of the loading is left out."""
    model = take(stage, method)
    symbols = {model.step_at(row).symbol for row in range(model.rowCount())}
    assert CHANGEABLE[method].keys() <= symbols
    site, kind = ("en1991", En1991Site) if method == "en1991-1-4" else ("asce7", Asce7Site)
    optional = {field.name for field in fields(kind) if field.default is None} - ASKED[site]
    kept = {path.removeprefix(f"{site}.") for path, _kind in CHANGEABLE[method].values()}
    assert optional <= kept
    assert all(read(Loading(), path) is None for path, _kind in CHANGEABLE[method].values())


def test_a_value_typed_over_is_a_step_and_marked(stage, qtbot):
    """Entered, bold, and cleared again by the table's."""
    model = take(stage, "asce7-22")
    by_table = model.step_at(row_of(model, "Kd")).value
    index = model.index(row_of(model, "Kd"), VALUE)
    assert index.flags() & Qt.ItemFlag.ItemIsEditable
    model.setData(index, "0.9")
    stage._refresh()
    row = row_of(model, "Kd")
    assert stage.session.plan.loading.asce7.kd == 0.9
    assert stage.session.undo_stack.undoText() == "Set Kd to 0.9"
    assert model.index(row, SOURCE).data() == "entered"
    assert model.index(row, VALUE).data(Qt.ItemDataRole.FontRole).bold()
    model.setData(model.index(row, VALUE), "")
    stage._refresh()
    assert stage.session.plan.loading.asce7.kd is None
    assert model.step_at(row_of(model, "Kd")).value == by_table


def test_a_bad_value_is_one_sentence_below(stage):
    """The plan stays."""
    model = take(stage, "asce7-22")
    before = stage.session.plan
    model.setData(model.index(row_of(model, "Kd"), VALUE), "7")
    assert stage.session.plan is before
    assert "Kd" in stage.steps._error.text()


def test_figures_that_follow_can_not_be_typed(stage):
    """A velocity pressure is no choice."""
    model = take(stage, "asce7-22")
    assert not model.index(row_of(model, "qh"), VALUE).flags() & Qt.ItemFlag.ItemIsEditable


def test_the_chosen_step_is_told_in_full(stage):
    """Meaning, source and status; memory says so."""
    model = take(stage, "asce7-22")
    row = next(row for row in range(model.rowCount()) if "M" in model.step_at(row).status)
    stage.steps.view.setCurrentIndex(model.index(row, 0))
    assert stage.steps._told.text() == told(model.step_at(row), LengthUnit.MM)
    assert FROM_MEMORY in stage.steps._told.text()


def test_conditions_say_whether_they_are_met(stage):
    """By mark and word; what only the person can see to says so."""
    take(stage, "asce7-22")
    said = stage.steps._conditions.text().split("\n")
    conditions = stage.session.evaluation.strength.effects.pressure.conditions
    assert len(said) == len(conditions)
    for line, item in zip(said, conditions, strict=True):
        assert item.text in line
        assert item.source in line
    three = tuple(Condition("So it is.", met, "here", "P") for met in (True, False, None))
    marks = [line.split(":")[0] for line in conditions_words(three).split("\n")]
    assert marks == ["✓ met", "✕ not met", "○ see to it"]


def test_without_a_result_there_is_no_table(stage):
    """Neither heading nor empty rows."""
    stage.session.push(changed(stage.session.committed, "method", "none"), "Calm")
    stage._refresh()
    assert stage.steps.view.isHidden()
    assert stage.steps._conditions_heading.isHidden()
