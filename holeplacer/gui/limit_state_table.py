"""How it is reckoned: every limit state with formula, inputs, source and status."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import (
    QAbstractTableModel,
    QItemSelection,
    QModelIndex,
    QObject,
    QPersistentModelIndex,
    QSignalBlocker,
    QSortFilterProxyModel,
    Qt,
)
from PySide6.QtGui import QColor, QGuiApplication, QPalette
from PySide6.QtWidgets import QScrollArea, QSplitter, QVBoxLayout, QWidget

from holeplacer.documents import caution
from holeplacer.gui.form import RHYTHM, WrappedLabel, quiet
from holeplacer.gui.reaction_table import NO_WIND, SORT, strength_view
from holeplacer.gui.session import Session
from holeplacer.gui.slow_refresh import SlowRefresh
from holeplacer.gui.strength_words import (
    format_effect,
    inputs_words,
    share_words,
    status_words,
)
from holeplacer.units import LengthUnit

if TYPE_CHECKING:
    from holeplacer.rules.limit_states import LimitState

COLUMNS = (
    "Of", "Limit state", "Utilisation", "Load effect", "Resistance", "Case", "Source", "Status",
)  # fmt: skip
OF, CHECK, SHARE, EFFECT, RESISTANCE, CASE, SOURCE, STATUS = range(len(COLUMNS))
_WIDTHS = (60, 190, 80, 90, 100, 110, 220, 140)
_NUMBERS = {EFFECT, RESISTANCE, SHARE}

Index = QModelIndex | QPersistentModelIndex


class LimitStateModel(QAbstractTableModel):
    """Limit states as rows."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._states: tuple[LimitState, ...] = ()
        self._unit = LengthUnit.MM

    def show_states(self, states: tuple[LimitState, ...], unit: LengthUnit) -> None:
        """Show others. Rows that stay the same in number are changed in place."""
        if len(states) == len(self._states):
            self._states, self._unit = states, unit
            if states:
                corners = self.index(0, 0), self.index(len(states) - 1, len(COLUMNS) - 1)
                self.dataChanged.emit(*corners)
            return
        self.beginResetModel()
        self._states, self._unit = states, unit
        self.endResetModel()

    def state_at(self, row: int) -> LimitState:
        """The limit state in a row."""
        return self._states[row]

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008 (Qt's signature)
        return 0 if parent.isValid() else len(self._states)

    def columnCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008 (Qt's signature)
        return 0 if parent.isValid() else len(COLUMNS)

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole
    ) -> object:
        if orientation is Qt.Orientation.Horizontal and role == Qt.ItemDataRole.DisplayRole:
            return COLUMNS[section]
        return None

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        state, column = self._states[index.row()], index.column()
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.AccessibleTextRole):
            return self._text(state, column)
        if role == SORT:
            return self._value(state, column)
        if role == Qt.ItemDataRole.ToolTipRole:
            return reckoning(state, self._unit)
        failing = state.utilisation.passes is False
        if role == Qt.ItemDataRole.ForegroundRole and column == SHARE and failing:
            return QColor(QGuiApplication.palette().color(QPalette.ColorRole.BrightText))
        if role == Qt.ItemDataRole.TextAlignmentRole and column in _NUMBERS:
            return Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
        return None

    def _text(self, state: LimitState, column: int) -> str:
        item, unit = state.utilisation, self._unit
        mark = "✕ " if item.passes is False else ""
        return {
            OF: of_words(state),
            CHECK: item.check,
            CASE: state.case,
            EFFECT: format_effect(item.demand, item.unit, unit),
            RESISTANCE: format_effect(item.resistance, item.unit, unit),
            SHARE: f"{mark}{share_words(item.utilisation)}",
            SOURCE: item.source,
            STATUS: status_words(item.status),
        }[column]

    def _value(self, state: LimitState, column: int) -> object:
        item = state.utilisation
        if column == OF:
            return state.hole
        if column == EFFECT:
            return item.demand
        if column == RESISTANCE:
            return -1.0 if item.resistance is None else item.resistance
        if column == SHARE:
            return 1.0 if item.utilisation is None else item.utilisation
        return self._text(state, column)


class LimitStateTable(QWidget):
    """The table for the selected holes, or the whole sign; beside it the chosen one in full.

    Attributes:
        view: The table itself.
    """

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self._model = LimitStateModel(self)
        self._proxy = QSortFilterProxyModel(self)
        self._proxy.setSourceModel(self._model)
        self._proxy.setSortRole(SORT)
        self.view = strength_view(self._proxy, "Limit states")
        for column, width in enumerate(_WIDTHS):
            self.view.setColumnWidth(column, width)
        self.view.sortByColumn(SHARE, Qt.SortOrder.DescendingOrder)
        self._about = quiet()
        self._told = WrappedLabel()
        self._caution = quiet(caution.SHORT)
        self._arrange()
        self._slow = SlowRefresh(session, self.refresh)
        self.view.selectionModel().selectionChanged.connect(self._chosen)
        session.selection_changed.connect(self._slow.soon)

    def _arrange(self) -> None:
        told = QWidget()
        words = QVBoxLayout(told)
        words.setContentsMargins(RHYTHM, RHYTHM // 2, RHYTHM, RHYTHM // 2)
        for part in (self._about, self._told, self._caution):
            words.addWidget(part)
        words.addStretch(1)
        beside = QScrollArea()
        beside.setWidget(told)
        beside.setWidgetResizable(True)
        beside.setMinimumWidth(28 * RHYTHM)
        split = QSplitter()
        split.addWidget(self.view)
        split.addWidget(beside)
        split.setStretchFactor(0, 1)
        split.setSizes([460, 260])
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(split)

    def refresh(self) -> None:
        """Show the session's evaluation now."""
        evaluation, chosen = self._session.evaluation, self._session.selected_holes
        found = None if evaluation is None else evaluation.strength
        states = () if found is None else found.every
        of = [state for state in states if state.hole in chosen]
        with QSignalBlocker(self.view.selectionModel()):
            self._model.show_states(tuple(of or states), self._session.unit)
        about = "the whole sign"
        if of:
            numbers = sorted({state.hole for state in of})
            about = f"hole {', '.join(map(str, numbers))}; select nothing for the whole sign"
        self._about.say(f"Limit states of {about}." if states else NO_WIND)
        self._caution.setVisible(bool(states))
        self._tell()

    def _chosen(self, _selected: QItemSelection, _deselected: QItemSelection) -> None:
        self._tell()
        state = self._current()
        if state is not None and self.view.selectionModel().hasSelection():
            self._session.place_shown.emit(*state.at_mm)

    def _current(self) -> LimitState | None:
        """The chosen limit state, else the first of the list; None where there is none."""
        rows = self.view.selectionModel().selectedRows()
        row = rows[0] if rows else self._proxy.index(0, 0)
        return self._model.state_at(self._proxy.mapToSource(row).row()) if row.isValid() else None

    def _tell(self) -> None:
        state = self._current()
        self._told.say("" if state is None else reckoning(state, self._session.unit))


def of_words(state: LimitState) -> str:
    """What a limit state is of."""
    return f"hole {state.hole}" if state.hole else "sheet"


def reckoning(state: LimitState, unit: LengthUnit) -> str:
    """One limit state in full: formula, figures, result, source, status."""
    item = state.utilisation
    effect = format_effect(item.demand, item.unit, unit)
    resistance = format_effect(item.resistance, item.unit, unit)
    share = share_words(item.utilisation)
    lines = [
        f"{item.check[:1].upper()}{item.check[1:]}, {of_words(state)}, {state.case}",
        item.formula,
        inputs_words(item, unit),
        f"Load effect {effect}, resistance {resistance}: utilisation {share}, at most 1.",
        f"{item.source}; {status_words(item.status)}.",
        item.note,
    ]
    return "\n".join(line for line in lines if line)
