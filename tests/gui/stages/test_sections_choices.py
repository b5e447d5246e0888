"""How the sign is divided."""

import pytest
from PySide6.QtCore import Qt

from holeplacer.gui.quantity_field import QuantityField


@pytest.fixture
def clear(qtbot):
    """Empties a field and leaves it."""

    def cleared(field):
        field.setFocus()
        field.selectAll()
        qtbot.keyClick(field, Qt.Key.Key_Delete)
        field.editingFinished.emit()

    return cleared


@pytest.fixture
def group(sections_stage):
    return sections_stage.choices


@pytest.mark.parametrize(
    ("name", "field"),
    [("clear", "seam_clear_mm"), ("margin", "margin_mm"), ("apart", "apart_mm"),
     ("gap", "root_gap_mm")],
)  # fmt: skip
def test_lengths_are_typed_as_everywhere(group, session, type_in, name, field):
    """Each is one step that can be undone."""
    type_in(getattr(group, name).entry, "3/8")
    assert getattr(session.committed.sections, field) == pytest.approx(9.525)
    session.undo_stack.undo()
    assert getattr(session.committed.sections, field) != pytest.approx(9.525)


def test_table_travel_may_be_no_limit(group, session, type_in, clear):
    """Entered, then cleared."""
    type_in(group._travel[0].entry, "1200 mm")
    assert session.committed.sections.travel_width_mm == 1200.0
    clear(group._travel[0].entry)
    assert session.committed.sections.travel_width_mm is None


def test_preparation_says_what_to_grind(group, session, sections_stage, refresh):
    """Another choice, other sentences."""
    square = group._notes.text()
    assert "Edges square" in square
    group._preparation.chosen.emit("bevel")
    refresh(sections_stage)
    assert session.committed.sections.preparation == "bevel"
    assert group._notes.text() != square
    assert session.undo_stack.undoText() == "Prepare seams with bevelled edges"


def test_turning_is_a_choice(group, session):
    """A grained face."""
    group._turning.chosen.emit("quarter")
    assert session.committed.sections.turning == "quarter"
    assert session.undo_stack.undoText() == "Turn sections by quarter turns"


def test_feeds_are_entered_or_not_known(sections_stage, session, type_in, clear):
    """Typed with their unit; cleared, they are not guessed."""
    cutting, _, pierce, _ = sections_stage.findChildren(QuantityField)
    type_in(cutting, "100 in/min")
    type_in(pierce, "0.8 s")
    feeds = session.committed.sections.feeds
    assert (feeds.cut_mm_min, feeds.pierce_s) == (pytest.approx(2540.0), 0.8)
    clear(cutting)
    assert session.committed.sections.feeds.cut_mm_min is None
    type_in(cutting, "fast")
    assert session.committed.sections.feeds.cut_mm_min is None
