"""The sheets at hand."""

import pytest
from PySide6.QtCore import Qt

from holeplacer.gui.stages.sections_stock import (
    COUNT,
    MEASURED,
    SIZE,
    StockModel,
    size_words,
    state_words,
)
from holeplacer.sheet.stock import Stock
from holeplacer.units import LengthUnit


@pytest.fixture
def group(sections_stage):
    return sections_stage.stock


def test_a_sheet_is_typed_as_people_say_it(group, session, qtbot, refresh):
    """Added with the return key, nominal until it is ticked as measured; undone at once."""
    qtbot.keyClicks(group.entry, "2 of 48 x 96 in")
    qtbot.keyClick(group.entry, Qt.Key.Key_Return)
    added = session.committed.sections.stock[-1]
    assert (added.width_mm, added.height_mm, added.count) == (1219.2, 2438.4, 2)
    assert not added.measured
    assert group.entry.text() == ""
    refresh(group._stage)
    assert "Not measured" in group._mind.text()
    session.undo_stack.undo()
    refresh(group._stage)
    assert group._mind.text() == ""


def test_ticking_measured_ends_the_warning(group, session, refresh):
    """What it was bought as stays beside it."""
    group.entry.setText("1000 x 2000 mm")
    group.add.click()
    refresh(group._stage)
    index = group.model.index(1, MEASURED)
    group.model.setData(index, Qt.CheckState.Checked.value, Qt.ItemDataRole.CheckStateRole)
    stock = session.committed.sections.stock[1]
    assert stock.measured
    assert stock.nominal == "1000 x 2000 mm"
    refresh(group._stage)
    assert group._mind.text() == ""


def test_size_and_count_are_typed_over(group, session, refresh):
    """Measured size with fractions; a count, or any."""
    group.model.setData(group.model.index(0, SIZE), "47 1/8 x 48 in")
    assert session.committed.sections.stock[0].width_mm == pytest.approx(1196.975)
    assert session.committed.sections.stock[0].count == 3
    refresh(group._stage)
    group.model.setData(group.model.index(0, COUNT), "any")
    assert session.committed.sections.stock[0].count is None


@pytest.mark.parametrize("text", ["48", "a x b", "0 x 4 in", ""])
def test_what_is_no_size_is_told(group, session, text):
    """In place; the plan stays."""
    before = session.committed
    group.entry.setText(text)
    group.add.click()
    assert session.committed is before
    assert group._error.text().startswith("▲ ")


def test_what_is_no_count_is_told(group, session):
    """In place; the plan stays."""
    before = session.committed
    group.model.setData(group.model.index(0, COUNT), "-2")
    assert session.committed is before
    assert "no count" in group._error.text()


def test_delete_takes_the_chosen_sheet_away(group, session, qtbot):
    """By key or button."""
    group.view.selectRow(0)
    qtbot.keyClick(group.view, Qt.Key.Key_Delete)
    assert session.committed.sections.stock == ()
    assert session.undo_stack.undoText() == "Take a sheet away"


def test_words_of_a_sheet():
    """Size in the window's unit; measured or only as bought."""
    stock = Stock(1219.2, 2438.4, False, "48 x 96 in")
    assert size_words(stock, LengthUnit.INCH) == "48 × 96 in"
    assert state_words(stock) == "nominal, not measured"


def test_the_model_is_sound(qapp, qtmodeltester):
    """Qt's own checks."""
    model = StockModel()
    model.show_stock((Stock(1000, 500, True), Stock(900, 500, False, "a", 2)), LengthUnit.MM)
    qtmodeltester.check(model)
    assert model.index(1, COUNT).data() == "2"
    words = model.index(1, SIZE).data(Qt.ItemDataRole.AccessibleTextRole)
    assert words == "900 × 500 mm, nominal, not measured, 2"
