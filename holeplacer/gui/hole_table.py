"""Hole table: every hole with its figures, for keyboards and screen readers too."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import (
    QEvent,
    QItemSelection,
    QItemSelectionModel,
    QSignalBlocker,
    QSortFilterProxyModel,
    Qt,
    QTimer,
)
from PySide6.QtWidgets import QHeaderView, QTableView, QWidget

from holeplacer.errors import HoleplacerError, InputError
from holeplacer.gui.form import RHYTHM
from holeplacer.gui.row_table import SORT, Index, RowModel, dress
from holeplacer.gui.session import Session
from holeplacer.units import LengthUnit, format_length, parse_length

if TYPE_CHECKING:
    from holeplacer.evaluation.evaluate import HoleFigures
    from holeplacer.plan.hole import Hole
    from holeplacer.plan.plan import Plan

COLUMNS = (
    "Hole", "x", "y", "Diameter", "Edge distance", "at least", "Ligament", "Longest span",
    "Piece", "Fixed", "State",
)  # fmt: skip
HOLE, X, Y, DIAMETER, EDGE, LEAST, LIGAMENT, SPAN, PIECE, FIXED, STATE = range(len(COLUMNS))
_PAUSE_MS = 30
_REST_MS = 120
_EDITABLE = {HOLE, X, Y, DIAMETER}


class HoleModel(RowModel):
    """Holes as rows. Number, place and diameter can be typed, fixing ticked."""

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(COLUMNS, parent)
        self._session = session
        self.rows: tuple[Hole, ...] = ()
        self._figures: dict[int, HoleFigures] = {}
        self._broken: dict[int, list[str]] = {}
        self._unit = LengthUnit.MM

    def show_plan(self) -> None:
        """Show the session's plan and what its evaluation says."""
        plan, evaluation = self._session.plan, self._session.evaluation
        holes = plan.holes if plan is not None else ()
        another = [hole.number for hole in holes] != [hole.number for hole in self.rows]
        if another:
            self.beginResetModel()
        self.rows, self._unit = holes, self._session.unit
        self._figures, self._broken = {}, {}
        if evaluation is not None:
            self._figures = {figures.number: figures for figures in evaluation.holes}
            for finding in evaluation.findings:
                if finding.broken and finding.place.kind.value == "hole":
                    self._broken.setdefault(finding.place.index, []).append(finding.rule)
        if another:
            self.endResetModel()
        else:
            self.tell_changed(0, len(holes) - 1)

    def row_of(self, number: int) -> int:
        """Row of a hole, -1 if it is not shown."""
        return next((row for row, hole in enumerate(self.rows) if hole.number == number), -1)

    def hole_at(self, row: int) -> Hole:
        """The hole in a row."""
        return self.rows[row]

    def flags(self, index: Index) -> Qt.ItemFlag:
        flags = super().flags(index)
        if index.column() in _EDITABLE:
            flags |= Qt.ItemFlag.ItemIsEditable
        if index.column() == FIXED:
            flags |= Qt.ItemFlag.ItemIsUserCheckable
        return flags

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        hole, column = self.rows[index.row()], index.column()
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.EditRole):
            return self._text(hole, column)
        if role == SORT:
            return self._value(hole, column)
        if role == Qt.ItemDataRole.CheckStateRole and column == FIXED:
            return Qt.CheckState.Checked if hole.fixed else Qt.CheckState.Unchecked
        if role == Qt.ItemDataRole.TextAlignmentRole and column < FIXED:
            return Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
        return None

    def setData(self, index: Index, value: object, role: int = Qt.ItemDataRole.EditRole) -> bool:
        from holeplacer.plan import edit

        plan, hole = self._session.committed, self.rows[index.row()]
        if plan is None:
            return False
        if role == Qt.ItemDataRole.CheckStateRole:
            fixed = Qt.CheckState(value) is Qt.CheckState.Checked
            verb = "Fix" if fixed else "Free"
            changed = edit.with_hole_fixed(plan, hole.number, fixed)
            self._session.push(changed, f"{verb} hole {hole.number}")
            return True
        try:
            changed, text = self._typed(plan, hole, index.column(), str(value))
        except HoleplacerError as error:
            self._session.notice.emit(str(error))
            return False
        self._session.push(changed, text)
        return True

    def _typed(self, plan: Plan, hole: Hole, column: int, text: str) -> tuple[Plan, str]:
        """The plan with what was typed into a cell."""
        from holeplacer.plan import edit

        if text.strip() == self._text(hole, column):
            return plan, ""
        if column == HOLE:
            if not text.strip().isdecimal():
                raise InputError(f"{text!r} is no hole number", remedy="type 1, 2, 3 …")
            new = int(text)
            return (edit.with_hole_numbered(plan, hole.number, new),
                    f"Number hole {hole.number} as {new}")  # fmt: skip
        mm = parse_length(text, bare=self._unit, field=COLUMNS[column])
        if column == DIAMETER:
            return (edit.with_hole_diameter(plan, hole.number, mm),
                    f"Set diameter of hole {hole.number}")  # fmt: skip
        x, y = (mm, hole.y_mm) if column == X else (hole.x_mm, mm)
        return edit.with_hole_moved(plan, hole.number, x, y), f"Move hole {hole.number}"

    def _value(self, hole: Hole, column: int) -> float | str:
        figures = self._figures.get(hole.number)
        own: dict[int, float | str] = {
            HOLE: hole.number,
            X: hole.x_mm,
            Y: hole.y_mm,
            FIXED: hole.fixed,
            STATE: self._state(hole),
        }
        if column in own:
            return own[column]
        if figures is None:
            return 0.0
        spans = [length for length, _number in figures.spans]
        return {
            DIAMETER: figures.diameter_mm, EDGE: figures.edge_distance_mm,
            LEAST: figures.limit_mm, LIGAMENT: figures.ligament_mm,
            SPAN: max(spans, default=0.0), PIECE: figures.piece + 1,
        }[column]  # fmt: skip

    def _text(self, hole: Hole, column: int) -> str:
        value = self._value(hole, column)
        if column == FIXED:
            return "fixed" if hole.fixed else "free"
        if column == STATE:
            return str(value)
        if column == HOLE:
            return str(hole.number)
        figures = self._figures.get(hole.number)
        if column not in (X, Y) and figures is None:
            return "…"
        if column == PIECE:
            return str(value) if value else "none"
        if column == SPAN and not value:
            return "–"
        return format_length(float(value), self._unit)

    def _state(self, hole: Hole) -> str:
        if hole.number in self._broken:
            rules = ", ".join(rule.replace("_", " ") for rule in self._broken[hole.number])
            return f"▲ {rules}"
        figures = self._figures.get(hole.number)
        if figures is None:
            return "…"
        return "within the rules, drilled" if figures.drilled else "within the rules"


class HoleTable(QTableView):
    """The table; its selection is the session's."""

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self._holes = HoleModel(session, self)
        self._proxy = QSortFilterProxyModel(self)
        self._proxy.setSourceModel(self._holes)
        self._proxy.setSortRole(SORT)
        self.setModel(self._proxy)
        dress(self, "Holes")
        self.setSortingEnabled(True)
        self.sortByColumn(HOLE, Qt.SortOrder.AscendingOrder)
        self.setAlternatingRowColors(True)
        header = self.horizontalHeader()
        header.setSectionResizeMode(QHeaderView.ResizeMode.Interactive)
        header.setStretchLastSection(True)
        metrics = self.fontMetrics()
        for column, name in enumerate(COLUMNS):
            widest = max(metrics.horizontalAdvance(name), metrics.horizontalAdvance("9999.99 mm"))
            self.setColumnWidth(column, widest + 3 * RHYTHM)
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(_PAUSE_MS)
        self._timer.timeout.connect(self.refresh)
        self.selectionModel().selectionChanged.connect(self._chosen)
        for signal in (session.plan_changed, session.evaluation_changed, session.unit_changed):
            signal.connect(self._soon)
        session.selection_changed.connect(self._show_selected)

    def refresh(self) -> None:
        """Show the session's plan now."""
        with QSignalBlocker(self.selectionModel()):
            self._holes.show_plan()
        self._show_selected()

    def selectionCommand(
        self, index: Index, event: QEvent | None = None
    ) -> QItemSelectionModel.SelectionFlag:
        flags = super().selectionCommand(index, event)
        return flags | QItemSelectionModel.SelectionFlag.Rows

    def _soon(self) -> None:
        if self._session.plan is not self._session.committed:
            self._timer.start(_REST_MS)  # a drag is shown once it rests
        elif not self._timer.isActive() or self._timer.interval() != _PAUSE_MS:
            self._timer.start(_PAUSE_MS)

    def _chosen(self, _selected: QItemSelection, _deselected: QItemSelection) -> None:
        rows = self.selectionModel().selectedRows()
        numbers = [self._holes.hole_at(self._proxy.mapToSource(row).row()).number for row in rows]
        self._session.select_holes(numbers)
        if len(rows) == 1 and self.hasFocus():
            hole = self._holes.hole_at(self._proxy.mapToSource(rows[0]).row())
            self._session.place_shown.emit(hole.x_mm, hole.y_mm)

    def _show_selected(self) -> None:
        numbers = self._session.selected_holes
        shown = QItemSelection()
        for number in numbers:
            row = self._holes.row_of(number)
            if row >= 0:
                index = self._proxy.mapFromSource(self._holes.index(row, 0))
                shown.select(index, index.siblingAtColumn(len(COLUMNS) - 1))
        with QSignalBlocker(self.selectionModel()):
            self.selectionModel().select(shown, QItemSelectionModel.SelectionFlag.ClearAndSelect)
        if len(numbers) == 1 and shown.indexes() and not self.hasFocus():
            self.scrollTo(shown.indexes()[0])
        self.viewport().update()
