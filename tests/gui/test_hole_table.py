"""The table shows and changes every hole, and shares its selection with the canvas."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QAbstractItemModelTester

from holeplacer.gui import hole_table
from holeplacer.plan import edit
from holeplacer.units import LengthUnit


@pytest.fixture
def table(opened, qtbot):
    """Three holes along the bar."""
    left, bottom, right, top = opened.session.layout.outline.pieces[0].bounds_mm
    plan = opened.session.committed
    for share in (0.2, 0.5, 0.8):
        plan = edit.with_hole_added(plan, left + share * (right - left), (bottom + top) / 2)
    opened.session.push(plan, "Add holes")
    opened.holes_dock.raise_()
    made = opened.holes
    QAbstractItemModelTester(made._holes, QAbstractItemModelTester.FailureReportingMode.Fatal)
    made.refresh()
    return made


@pytest.fixture
def session(opened):
    return opened.session


def cell(table, row, column):
    return table.model().index(row, column)


def test_every_figure_has_its_unit(table, session):
    """Lengths are shown in the unit chosen, the state in words."""
    assert cell(table, 0, hole_table.DIAMETER).data() == "7.14 mm"
    assert cell(table, 0, hole_table.EDGE).data() == "20 mm"
    assert cell(table, 0, hole_table.STATE).data() == "within the rules"
    session.set_unit(LengthUnit.INCH)
    table.refresh()
    assert cell(table, 0, hole_table.EDGE).data().endswith(" in")


@pytest.mark.parametrize(
    ("column", "text", "check"),
    [
        (hole_table.X, "3 in", lambda hole: hole.x_mm == pytest.approx(76.2)),
        (hole_table.Y, "101.5", lambda hole: hole.y_mm == 101.5),
        (hole_table.DIAMETER, "1/4", lambda hole: hole.diameter_mm == pytest.approx(6.35)),
    ],
)
def test_typing_into_a_cell_is_a_step(table, session, column, text, check):
    """Places and diameters are typed as lengths; undo takes it back."""
    before = session.plan
    assert table.model().setData(cell(table, 0, column), text)
    assert check(session.plan.holes[0])
    session.undo_stack.undo()
    assert session.plan is before


def test_numbers_are_swapped(table, session):
    """Typing another hole's number swaps the two."""
    first, third = session.plan.holes[0], session.plan.holes[2]
    assert table.model().setData(cell(table, 0, hole_table.HOLE), "3")
    assert edit.hole_numbered(session.plan, 3).x_mm == first.x_mm
    assert edit.hole_numbered(session.plan, 1).x_mm == third.x_mm


@pytest.mark.parametrize(("column", "text"), [(hole_table.X, "wide"), (hole_table.HOLE, "two")])
def test_what_is_no_value_is_told(table, session, qtbot, column, text):
    """Nonsense is refused with a sentence in the status line."""
    with qtbot.waitSignal(session.notice):
        assert not table.model().setData(cell(table, 0, column), text)
    assert session.undo_stack.undoText() == "Add holes"


def test_fixing_is_a_tick(table, session):
    """The tick fixes and frees."""
    role = Qt.ItemDataRole.CheckStateRole
    index = cell(table, 1, hole_table.FIXED)
    assert table.model().setData(index, Qt.CheckState.Checked.value, role)
    assert session.plan.holes[1].fixed
    assert session.undo_stack.undoText() == "Fix hole 2"
    table.refresh()
    assert index.data() == "fixed"


def test_selection_is_shared(table, session, qtbot):
    """Rows and holes are selected together, whichever way it was done."""
    session.select_holes({1, 3})
    assert sorted(index.row() for index in table.selectionModel().selectedRows()) == [0, 2]
    table.selectRow(1)
    assert session.selected_holes == {2}


def test_choosing_a_row_by_key_jumps(table, session, qtbot):
    """Walking down the rows shows each hole's place."""
    table.setFocus()
    table.selectRow(0)
    with qtbot.waitSignal(session.place_shown) as told:
        qtbot.keyClick(table, Qt.Key.Key_Down)
    assert told.args[0] == session.plan.holes[1].x_mm


def test_a_broken_rule_is_told_by_sign_and_word(table, session, qtbot):
    """The state names the rule that is broken."""
    hole = session.plan.holes[0]
    session.push(edit.with_hole_moved(session.plan, 1, hole.x_mm, hole.y_mm + 15), "Move hole 1")
    qtbot.waitUntil(lambda: cell(table, 0, hole_table.STATE).data() == "▲ edge distance")


def test_a_drag_changes_cells_in_place(table, session, qtbot):
    """Previews of a drag do not rebuild the table."""
    with qtbot.assertNotEmitted(table.model().modelReset):
        for step in range(3):
            session.preview(edit.with_hole_moved(session.committed, 2, 200 + step, 100))
            table.refresh()
    session.preview(None)
