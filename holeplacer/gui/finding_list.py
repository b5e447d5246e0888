"""Finding list: every rule that is broken and every note, with the ways out beside them."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from PySide6.QtCore import (
    QItemSelection,
    QModelIndex,
    QSignalBlocker,
    QSortFilterProxyModel,
    Qt,
)
from PySide6.QtGui import QColor, QGuiApplication, QPalette
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableView, QVBoxLayout, QWidget

from holeplacer.gui.form import RHYTHM, WrappedLabel, quiet
from holeplacer.gui.row_table import SORT, Index, RowModel, dress
from holeplacer.gui.session import Session
from holeplacer.gui.ways_out_buttons import WaysOutButtons
from holeplacer.gui.wording import in_unit
from holeplacer.units import LengthUnit, format_length

if TYPE_CHECKING:
    from holeplacer.rules.finding import Finding

COLUMNS = ("Rule", "Where", "Is of limit")
_MOST_ROWS = 5
_MEASURED = (0, 2)
FINDING = Qt.ItemDataRole.UserRole
_WORDS = {
    "edge_distance": "edge distance",
    "process": "process",
    "spacing": "spacing",
    "overhang": "overhang",
    "turning": "turning",
    "neighbours": "neighbours",
    "seam_distance": "seam distance",
    "seams": "seams",
}


class FindingModel(RowModel):
    """Findings as rows: rule, place, value, limit.

    Attributes:
        rows: The findings shown.
    """

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(COLUMNS, parent)
        self.rows: tuple[Finding, ...] = ()
        self._unit = LengthUnit.MM

    def show_findings(self, findings: tuple[Finding, ...], unit: LengthUnit) -> None:
        """Show others. Rows that differ are changed in place, and rows come and go at the end."""
        old = self.rows if unit is self._unit else ()
        had, has = len(self.rows), len(findings)
        if has < had:
            self.beginRemoveRows(QModelIndex(), has, had - 1)
            self.rows = self.rows[:has]
            self.endRemoveRows()
        elif has > had:
            self.beginInsertRows(QModelIndex(), had, has - 1)
            self.rows += findings[had:]
            self.endInsertRows()
        self.rows, self._unit = findings, unit
        same = [one is other or one == other for one, other in zip(findings, old, strict=False)]
        differ = [row for row in range(min(had, has)) if row >= len(same) or not same[row]]
        if differ:
            self.tell_changed(differ[0], differ[-1])

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        finding = self.rows[index.row()]
        if role == FINDING:
            return finding
        if role == SORT:
            place = finding.place
            return (finding.rule, float(place.index or place.xy_mm[0]), finding.value)[
                index.column()
            ]
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.AccessibleTextRole):
            return self._text(finding, index.column())
        if role == Qt.ItemDataRole.ToolTipRole:
            return in_unit(finding.message, self._unit)
        if role == Qt.ItemDataRole.ForegroundRole and index.column() == 0 and finding.broken:
            return QColor(QGuiApplication.palette().color(QPalette.ColorRole.BrightText))
        if role == Qt.ItemDataRole.TextAlignmentRole and index.column() == 2:
            return Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
        return None

    def _text(self, finding: Finding, column: int) -> str:
        if column == 0:
            rule = _WORDS.get(finding.rule, finding.rule.replace("_", " "))
            return f"{'▲' if finding.broken else '●'} {rule}"
        if column == 1:
            return where(finding)
        if math.isinf(finding.value):
            return "no hole"
        if not finding.broken and not finding.unit and finding.value == 0.0:
            return "to know"  # a note measures nothing
        if finding.unit != "mm":
            return f"{finding.value:.3g} of {finding.limit:.3g}"
        value, limit = (format_length(mm, self._unit) for mm in (finding.value, finding.limit))
        return f"{value.removesuffix(f' {self._unit.value}')} of {limit}"


def where(finding: Finding) -> str:
    """The place in words."""
    place = finding.place
    kind = place.kind.value
    if kind == "plan":
        return "whole sign"
    if kind == "stretch":
        return f"piece {place.index}" if place.index else "a stroke"
    return f"{kind} {place.index}" if place.index else kind


class FindingList(QWidget):
    """The list, what the chosen finding says, and its ways out as buttons.

    Attributes:
        view: The table.
    """

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self._rules: tuple[str, ...] = ()
        self._rows = 0
        self._model = FindingModel(self)
        self._proxy = QSortFilterProxyModel(self)
        self._proxy.setSourceModel(self._model)
        self._proxy.setSortRole(SORT)
        self.view = _table(self._proxy)
        self._model.dataChanged.connect(lambda first, last: self._widen(first.row(), last.row()))
        self._model.rowsInserted.connect(lambda _parent, first, last: self._widen(first, last))
        self._title = WrappedLabel("Findings")
        font = self._title.font()
        font.setBold(True)
        self._title.setFont(font)
        self._message = WrappedLabel()
        self._way_out = quiet()
        self._ways = WaysOutButtons(session)
        column = QVBoxLayout(self)
        column.setContentsMargins(2 * RHYTHM, RHYTHM, RHYTHM, RHYTHM)
        column.setSpacing(RHYTHM // 2)
        for part in (self._title, self.view, self._message, self._way_out, self._ways):
            column.addWidget(part)
        self.view.selectionModel().selectionChanged.connect(self._chosen)
        session.evaluation_changed.connect(self.refresh)
        session.unit_changed.connect(self.refresh)
        session.selection_changed.connect(self._show_selected)
        self.refresh()

    def show_rules(self, rules: tuple[str, ...]) -> None:
        """Show the findings of these rules only."""
        self._rules = rules
        self.refresh()
        self._narrow()

    def step(self, by: int) -> None:
        """Choose the next or previous finding, round and round."""
        count = self._proxy.rowCount()
        if count:
            rows = self.view.selectionModel().selectedRows()
            start = rows[0].row() if rows else (-1 if by > 0 else 0)
            self.view.selectRow((start + by) % count)

    def refresh(self) -> None:
        """Show what the session's evaluation found."""
        evaluation = self._session.evaluation
        found = evaluation.findings if evaluation is not None else ()
        shown = tuple(item for item in found if item.rule in self._rules)
        self._model.show_findings(shown, self._session.unit)
        broken = sum(item.broken for item in shown)
        notes = len(shown) - broken
        words = [f"{broken} open"] if broken else ["none open"]
        words += [f"{notes} to know" if notes else ""]
        self._title.say("Findings: " + ", ".join(word for word in words if word))
        self.view.setVisible(bool(shown))
        self.setVisible(bool(self._rules) and self._session.plan is not None)
        self._fit()
        self._show_selected()

    def _fit(self) -> None:
        """As high as its rows; while a gesture lasts it only grows, so that nothing jumps."""
        rows = min(max(self._model.rowCount(), 1), _MOST_ROWS)
        if self._session.plan is not self._session.committed:
            rows = max(rows, self._rows)
        if rows == self._rows:
            return
        self._rows = rows
        row_height = self.view.verticalHeader().defaultSectionSize()
        head = self.view.horizontalHeader().sizeHint().height()
        self.view.setFixedHeight(head + rows * row_height + 2 * self.view.frameWidth())

    def _narrow(self) -> None:
        for column in _MEASURED:
            self.view.setColumnWidth(column, self.view.horizontalHeader().minimumSectionSize())
        self._widen(0, self._model.rowCount() - 1)

    def _widen(self, first: int, last: int) -> None:
        """Room for what some rows say. Only those: Qt would measure all at each move of a hole."""
        metrics = self.view.fontMetrics()
        for column in _MEASURED:
            said = [COLUMNS[column]]
            said += [self._model.index(row, column).data() for row in range(first, last + 1)]
            need = max(metrics.horizontalAdvance(text) for text in said) + 2 * RHYTHM
            if need > self.view.columnWidth(column):
                self.view.setColumnWidth(column, need)

    def _chosen(self, selected: QItemSelection) -> None:
        indexes = selected.indexes()
        if indexes:
            self._session.select_finding(indexes[0].data(FINDING))

    def _show_selected(self) -> None:
        finding = self._session.selected_finding
        if finding is not None and finding not in self._model.rows:
            finding = None
        unit = self._session.unit
        self._message.say(in_unit(f"{finding.message}.", unit) if finding else "")
        self._ways.show_finding(finding)
        told = finding is not None and finding.way_out and not self._ways.buttons
        self._way_out.say(in_unit(f"Way out: {finding.way_out}.", unit) if finding and told else "")
        chosen = [index.row() for index in self.view.selectionModel().selectedRows()]
        row = -1
        if finding is not None:
            index = self._model.index(self._model.rows.index(finding), 0)
            row = self._proxy.mapFromSource(index).row()
        if chosen == ([row] if row >= 0 else []):
            return
        with QSignalBlocker(self.view.selectionModel()):
            if row < 0:
                self.view.clearSelection()
            else:
                self.view.selectRow(row)
        self.view.viewport().update()


def _table(model: QSortFilterProxyModel) -> QTableView:
    view = QTableView()
    view.setModel(model)
    dress(view, "Findings")
    view.setSortingEnabled(True)
    view.horizontalHeader().setSortIndicator(-1, Qt.SortOrder.AscendingOrder)
    view.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
    view.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
    header = view.horizontalHeader()
    header.setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
    header.setSectionResizeMode(1, QHeaderView.ResizeMode.Stretch)
    return view
