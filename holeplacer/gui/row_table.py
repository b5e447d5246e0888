"""Row table: what every table of rows under titles has in common, its model and its looks."""

from __future__ import annotations

from collections.abc import Sized

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QObject, QPersistentModelIndex, Qt
from PySide6.QtWidgets import QAbstractItemView, QTableView

from holeplacer.gui.form import RHYTHM

SORT = Qt.ItemDataRole.UserRole + 1
"""Role of the value a column is sorted by."""

Index = QModelIndex | QPersistentModelIndex


class RowModel(QAbstractTableModel):
    """Rows under titles; what a cell says is left to `data`.

    Attributes:
        titles: One per column.
        rows: What the rows show, one item each.
    """

    def __init__(self, titles: tuple[str, ...], parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.titles = titles
        self.rows: Sized = ()

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008 (Qt's signature)
        return 0 if parent.isValid() else len(self.rows)

    def columnCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008 (Qt's signature)
        return 0 if parent.isValid() else len(self.titles)

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole
    ) -> object:
        if orientation is Qt.Orientation.Horizontal and role == Qt.ItemDataRole.DisplayRole:
            return self.titles[section]
        return None

    def tell_changed(self, first: int, last: int) -> None:
        """Say that what these rows show is another."""
        if first <= last:
            self.dataChanged.emit(self.index(first, 0), self.index(last, len(self.titles) - 1))


def dress(view: QTableView, name: str) -> None:
    """Give a table the looks and keys of all: whole rows chosen, one line each, Tab leaves it.

    Args:
        view: The table.
        name: What a screen reader calls it.
    """
    view.setAccessibleName(name)
    view.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
    view.setWordWrap(False)
    view.setTabKeyNavigation(False)
    view.verticalHeader().setVisible(False)
    view.verticalHeader().setDefaultSectionSize(3 * RHYTHM)
