"""Reaction table: pull, push and utilisation of every standoff, case by case."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtCore import (
    QAbstractTableModel,
    QItemSelection,
    QItemSelectionModel,
    QModelIndex,
    QObject,
    QPersistentModelIndex,
    QSignalBlocker,
    QSortFilterProxyModel,
    Qt,
)
from PySide6.QtGui import QColor, QFont, QFontMetrics, QGuiApplication, QPalette
from PySide6.QtWidgets import QAbstractItemView, QTableView, QVBoxLayout, QWidget

from holeplacer.documents import caution
from holeplacer.gui.form import RHYTHM, quiet
from holeplacer.gui.session import Session
from holeplacer.gui.slow_refresh import SlowRefresh
from holeplacer.gui.strength_words import share_words, status_words
from holeplacer.loads.force import format_force
from holeplacer.units import LengthUnit

if TYPE_CHECKING:
    from holeplacer.plan.hole import Hole
    from holeplacer.rules.limit_states import LimitState
    from holeplacer.rules.strength import Strength

SORT = Qt.ItemDataRole.UserRole + 1
HOLE = "Hole"
GOVERNING = ("Utilisation", "Governing check", "Case")
_FIRST_FORCE = 1 + len(GOVERNING)
_OPEN = " +?"
"""Beside a utilisation where another check can't be judged yet."""
NO_WIND = "No wind is chosen: the Strength stage asks for it."

Index = QModelIndex | QPersistentModelIndex


class ReactionModel(QAbstractTableModel):
    """One row for each hole; a column for each load case, then the check that governs."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._holes: tuple[Hole, ...] = ()
        self._forces: tuple[ForceColumn, ...] = ()
        self._governing: tuple[tuple[LimitState | None, tuple[str, ...]], ...] = ()
        self._unit = LengthUnit.MM

    def show_strength(
        self, holes: tuple[Hole, ...], found: Strength | None, unit: LengthUnit
    ) -> None:
        """Show other figures; rows and columns that stay the same are changed in place."""
        before = self._shape()
        forces = force_columns(found)
        holes = holes if found is not None else ()
        governing = tuple(governing_of(found, hole.number) for hole in holes) if found else ()
        another = before != ([h.number for h in holes], [column.title for column in forces])
        if another:
            self.beginResetModel()
        self._holes, self._forces, self._governing, self._unit = holes, forces, governing, unit
        if another:
            self.endResetModel()
        elif holes:
            last = self.index(len(holes) - 1, self.columnCount() - 1)
            self.dataChanged.emit(self.index(0, 0), last)

    def _shape(self) -> tuple[list[int], list[str]]:
        return [hole.number for hole in self._holes], [column.title for column in self._forces]

    @property
    def columns(self) -> tuple[str, ...]:
        """Titles."""
        return (HOLE, *GOVERNING, *(column.title for column in self._forces))

    def row_of(self, number: int) -> int:
        """Row of a hole, -1 if it is not shown."""
        return next((row for row, hole in enumerate(self._holes) if hole.number == number), -1)

    def hole_at(self, row: int) -> Hole:
        """The hole in a row."""
        return self._holes[row]

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008 (Qt's signature)
        return 0 if parent.isValid() else len(self._holes)

    def columnCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008 (Qt's signature)
        return 0 if parent.isValid() else len(self.columns)

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole
    ) -> object:
        if orientation is not Qt.Orientation.Horizontal:
            return None
        if role == Qt.ItemDataRole.DisplayRole:
            return self.columns[section]
        if role == Qt.ItemDataRole.ToolTipRole and section >= _FIRST_FORCE:
            if self._forces[section - _FIRST_FORCE].across:
                return "force on the standoff: ↑ pulls on its stud, ↓ is pushed on the wall"
            return "force across the stud, in the plane of the sheet"
        return None

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        row, column = index.row(), index.column()
        if role == Qt.ItemDataRole.DisplayRole:
            return self._text(row, column)
        if role == SORT:
            return self._value(row, column)
        if role in (Qt.ItemDataRole.ToolTipRole, Qt.ItemDataRole.AccessibleTextRole):
            return self._told(row, column)
        if role == Qt.ItemDataRole.ForegroundRole and self._fails(row, column):
            return QColor(QGuiApplication.palette().color(QPalette.ColorRole.BrightText))
        if role == Qt.ItemDataRole.TextAlignmentRole and not self._is_words(column):
            return Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
        return None

    def _is_words(self, column: int) -> bool:
        return self.columns[column] in GOVERNING[1:]

    def _text(self, row: int, column: int) -> str:
        if column == 0:
            return str(self._holes[row].number)
        if column >= _FIRST_FORCE:
            shown = self._forces[column - _FIRST_FORCE]
            force = shown.forces_n[row]
            arrow = ("↓ " if force < 0 else "↑ ") if shown.across and force else ""
            return f"{arrow}{format_force(abs(force), self._unit)}"
        state, missing = self._governing[row]
        if state is None:
            return ""
        mark = "✕ " if state.utilisation.passes is False else ""
        share = f"{mark}{share_words(state.utilisation.utilisation)}{_OPEN if missing else ''}"
        return (share, state.utilisation.check, state.case)[column - 1]

    def _value(self, row: int, column: int) -> object:
        if column == 0:
            return self._holes[row].number
        if column >= _FIRST_FORCE:
            return self._forces[column - _FIRST_FORCE].forces_n[row]
        state, _missing = self._governing[row]
        if self._is_words(column) or state is None:
            return self._text(row, column)
        share = state.utilisation.utilisation
        return 1.0 if share is None else share

    def _told(self, row: int, column: int) -> str:
        title, text = self.columns[column], self._text(row, column)
        state, missing = self._governing[row]
        if column == 0 or column >= _FIRST_FORCE or state is None:
            return f"{title}: {text}"
        item = state.utilisation
        told = f"{text}: {item.check}, {item.formula}; {item.source}; {status_words(item.status)}"
        return f"{told}. Not judged: {', '.join(missing)}" if missing else told

    def _fails(self, row: int, column: int) -> bool:
        state, _missing = self._governing[row]
        return column == 1 and state is not None and state.utilisation.passes is False


class ReactionTable(QWidget):
    """The table; a chosen row selects its hole.

    Attributes:
        view: The table itself.
    """

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self._model = ReactionModel(self)
        self._proxy = QSortFilterProxyModel(self)
        self._proxy.setSourceModel(self._model)
        self._proxy.setSortRole(SORT)
        self.view = strength_view(self._proxy, "Reactions")
        self.view.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        self._note = quiet(caution.SHORT)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        self._note.setContentsMargins(RHYTHM, RHYTHM // 2, RHYTHM, RHYTHM // 2)
        column.addWidget(self.view, 1)
        column.addWidget(self._note)
        self._slow = SlowRefresh(session, self.refresh)
        self.view.selectionModel().selectionChanged.connect(self._chosen)
        session.selection_changed.connect(self._show_selected)

    def refresh(self) -> None:
        """Show the session's evaluation now."""
        plan, evaluation = self._session.plan, self._session.evaluation
        found = None if evaluation is None else evaluation.strength
        with QSignalBlocker(self.view.selectionModel()):
            self._model.show_strength(() if plan is None else plan.holes, found, self._session.unit)
        self._note.say(caution.SHORT if found is not None else NO_WIND)
        self._share_width()
        self._show_selected()

    def _share_width(self) -> None:
        """Hole and check are as wide as they need to be; cases are alike."""
        bold = QFont(self.view.font())
        bold.setBold(True)  # as titles are while one of their rows is selected
        metrics = QFontMetrics(bold)
        widths = {
            HOLE: "0000", GOVERNING[0]: "Utilisation", GOVERNING[1]: "pull-over at the washer",
        }  # fmt: skip
        for column, title in enumerate(self._model.columns):
            sample = widths.get(title, title if title.startswith("shear") else "pressure out or")
            self.view.setColumnWidth(column, metrics.horizontalAdvance(sample) + 2 * RHYTHM)

    def _chosen(self, _selected: QItemSelection, _deselected: QItemSelection) -> None:
        rows = self.view.selectionModel().selectedRows()
        holes = [self._model.hole_at(self._proxy.mapToSource(row).row()) for row in rows]
        self._session.select_holes(hole.number for hole in holes)
        if len(holes) == 1:
            self._session.place_shown.emit(holes[0].x_mm, holes[0].y_mm)

    def _show_selected(self) -> None:
        shown = QItemSelection()
        for number in self._session.selected_holes:
            row = self._model.row_of(number)
            if row >= 0:
                index = self._proxy.mapFromSource(self._model.index(row, 0))
                shown.select(index, index.siblingAtColumn(self._model.columnCount() - 1))
        with QSignalBlocker(self.view.selectionModel()):
            flag = QItemSelectionModel.SelectionFlag.ClearAndSelect
            self.view.selectionModel().select(shown, flag)
        if shown.indexes() and not self.view.hasFocus():
            self.view.scrollTo(shown.indexes()[0])
        self.view.viewport().update()


@dataclass(frozen=True)
class ForceColumn:
    """One case's force on every standoff.

    Attributes:
        title: The case.
        forces_n: In the plan's order; across the sheet positive where the stud is pulled.
        across: Across the sheet; else in its plane, across the stud, without direction.
    """

    title: str
    forces_n: tuple[float, ...]
    across: bool


def force_columns(found: Strength | None) -> tuple[ForceColumn, ...]:
    """Pull and push by case, then shear by case."""
    if found is None:
        return ()
    effects = found.effects
    pulls = [ForceColumn(case.name, case.reactions_n, across=True) for case in effects.wind]
    shears = [
        ForceColumn(
            f"shear, {case.name}",
            tuple(case.shear_n(index) for index in range(len(case.result.forces_n))),
            across=False,
        )
        for case in effects.in_plane
    ]
    return (*pulls, *shears)


def governing_of(found: Strength, number: int) -> tuple[LimitState | None, tuple[str, ...]]:
    """The limit state of one hole that is nearest to failing, and what can't be judged there."""
    states = found.of_hole(number)
    known = [state for state in states if state.share is not None]
    worst = max(known, key=lambda state: state.share or 0.0, default=None)
    missing = [state.utilisation.check for state in states
               if state.share is None]  # fmt: skip
    return worst, tuple(dict.fromkeys(missing))


def strength_view(model: QSortFilterProxyModel, name: str) -> QTableView:
    """A table of figures that can be sorted, not typed into."""
    view = QTableView()
    view.setAccessibleName(name)
    view.setModel(model)
    view.setSortingEnabled(True)
    view.horizontalHeader().setSortIndicator(-1, Qt.SortOrder.AscendingOrder)
    view.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
    view.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
    view.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
    view.setWordWrap(False)
    view.setTabKeyNavigation(False)
    view.setAlternatingRowColors(True)
    view.verticalHeader().setVisible(False)
    view.verticalHeader().setDefaultSectionSize(3 * RHYTHM)
    view.horizontalHeader().setStretchLastSection(True)
    view.horizontalHeader().setDefaultSectionSize(15 * RHYTHM)
    return view
