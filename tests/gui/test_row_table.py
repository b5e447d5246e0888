"""What every table of rows under titles has in common."""

import pytest
from PySide6.QtCore import QModelIndex, Qt
from PySide6.QtWidgets import QAbstractItemView, QTableView

from holeplacer.gui import row_table


class Words(row_table.RowModel):
    """Each row a word and its length."""

    def data(self, index, role=Qt.ItemDataRole.DisplayRole):
        word = self.rows[index.row()]
        return (word, len(word))[index.column()] if role == Qt.ItemDataRole.DisplayRole else None


@pytest.fixture
def words(qtbot, qtmodeltester):
    made = Words(("Word", "Letters"))
    made.rows = ("serif", "swash")
    return made


def test_rows_and_titles(words, qtmodeltester):
    """As many rows as there are items, as many columns as titles; none below a cell."""
    qtmodeltester.check(words)
    assert (words.rowCount(), words.columnCount()) == (2, 2)
    cell = words.index(0, 0)
    assert (words.rowCount(cell), words.columnCount(cell)) == (0, 0)
    assert words.rowCount(QModelIndex()) == 2


def test_titles_head_the_columns_only(words):
    """Rows have no title, and a title has no other role."""
    across, down = Qt.Orientation.Horizontal, Qt.Orientation.Vertical
    assert [words.headerData(n, across) for n in (0, 1)] == ["Word", "Letters"]
    assert words.headerData(0, down) is None
    assert words.headerData(0, across, Qt.ItemDataRole.ToolTipRole) is None


def test_changed_rows_are_told_over_their_whole_width(words, qtbot):
    """From the first row's first cell to the last row's last; no rows, no signal."""
    with qtbot.waitSignal(words.dataChanged) as told:
        words.tell_changed(0, 1)
    first, last, *_ = told.args
    assert [(at.row(), at.column()) for at in (first, last)] == [(0, 0), (1, 1)]
    with qtbot.assertNotEmitted(words.dataChanged):
        words.tell_changed(0, -1)


def test_dressed(qtbot):
    """Rows are chosen whole, Tab leaves the table, a screen reader has its name."""
    view = QTableView()
    qtbot.addWidget(view)
    row_table.dress(view, "Words")
    assert view.accessibleName() == "Words"
    assert view.selectionBehavior() is QAbstractItemView.SelectionBehavior.SelectRows
    assert not view.tabKeyNavigation()
    assert not view.wordWrap()
