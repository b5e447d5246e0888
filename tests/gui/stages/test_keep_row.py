"""A name, and what can be done with it."""

import pytest

from holeplacer.gui.form import Form
from holeplacer.gui.stages.keep_row import KeepRow


@pytest.fixture
def row(qtbot):
    form = Form()
    qtbot.addWidget(form)
    made = KeepRow(form, "size")
    form.show()
    yield made
    assert form is made.parent()  # kept till here: a row lives as long as its form


def test_what_is_not_ones_own_shows_nothing(row):
    """A row of the table is neither named nor kept."""
    row.show_item(None, kept=False, same=False)
    assert not row.field.isVisible()
    assert not row.keep.isVisible()
    assert not row._row.note.isVisible()


def test_it_says_whether_it_is_kept(row):
    """In the plan alone; kept; kept with other figures."""
    row.show_item("mine", kept=False, same=False)
    assert row._row.note.text() == "in this plan alone"
    assert row.keep.isEnabled()
    assert not row.forget.isVisible()
    row.show_item("mine", kept=True, same=True)
    assert row._row.note.text() == "kept for later jobs"
    assert not row.keep.isEnabled()
    assert row.forget.isVisible()
    row.show_item("mine", kept=True, same=False)
    assert "other figures" in row._row.note.text()


def test_another_name_is_told_once(row, qtbot, type_in):
    """Leaving the field as it is tells nothing."""
    row.show_item("mine", kept=False, same=False)
    with qtbot.assertNotEmitted(row.named):
        row.field.editingFinished.emit()
    with qtbot.waitSignal(row.named) as told:
        type_in(row.field, " yours ")
    assert told.args == ["yours"]


def test_acts_are_told(row, qtbot):
    """Each button says what is wanted."""
    row.show_item("mine", kept=True, same=False)
    for button, signal in ((row.keep, row.keep_wanted), (row.forget, row.forget_wanted)):
        with qtbot.waitSignal(signal):
            button.click()
