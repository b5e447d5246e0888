"""Step table: every coefficient on the way to the pressure, with its source; changed in place."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import (
    QAbstractTableModel,
    QModelIndex,
    QObject,
    QPersistentModelIndex,
    Qt,
    Signal,
)
from PySide6.QtGui import QFont
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QSizePolicy, QTableView

from holeplacer.errors import HoleplacerError
from holeplacer.gui.form import RHYTHM, ErrorLine, quiet
from holeplacer.gui.quantity_kind import AREA, NUMBER, PRESSURE, QuantityKind
from holeplacer.gui.stages.loading_rows import changed
from holeplacer.gui.stages.stage import Stage
from holeplacer.gui.strength_words import status_words
from holeplacer.loads import step as steps
from holeplacer.units import LengthUnit

if TYPE_CHECKING:
    from holeplacer.loads.loading import Method
    from holeplacer.loads.step import Condition, Step
    from holeplacer.loads.wind import DesignPressure

COLUMNS = ("Figure", "Value", "Source")
SYMBOL, VALUE, SOURCE = range(len(COLUMNS))
_MOST_ROWS = 9
_HOW_TO_CHANGE = "Type over a value to change it; clear it to go back to the table."

Index = QModelIndex | QPersistentModelIndex

_EITHER = {"A": ("effective_area_mm2", AREA), "k": ("wind_factor", NUMBER)}
_ASCE7 = {
    **_EITHER,
    "Kz": ("asce7.kz", NUMBER),
    "Kzt": ("asce7.kzt", NUMBER),
    "Kd": ("asce7.kd", NUMBER),
    "Ke": ("asce7.ke", NUMBER),
    "GCp out": ("asce7.gcp_out", NUMBER),
    "GCp in": ("asce7.gcp_in", NUMBER),
    "GCpi": ("asce7.gcpi", NUMBER),
    "p least": ("asce7.least_pressure_pa", PRESSURE),
}
CHANGEABLE: dict[Method, dict[str, tuple[str, QuantityKind]]] = {
    "asce7-16": _ASCE7,
    "asce7-22": _ASCE7,
    "en1991-1-4": {
        **_EITHER,
        "rho": ("en1991.air_density_kg_m3", NUMBER),
        "co": ("en1991.orography", NUMBER),
        "kI": ("en1991.turbulence", NUMBER),
        "cpe out": ("en1991.cpe_out", NUMBER),
        "cpe in": ("en1991.cpe_in", NUMBER),
    },
}
"""By method and symbol: where an entered figure is kept, and how it is typed."""


class StepModel(QAbstractTableModel):
    """Steps as rows; those of a table can be typed over.

    Attributes:
        typed: A value was typed: the step and the text.
    """

    typed = Signal(object, str)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._steps: tuple[Step, ...] = ()
        self._unit = LengthUnit.MM
        self._changeable: frozenset[str] = frozenset()

    def show_steps(
        self, shown: tuple[Step, ...], unit: LengthUnit, changeable: frozenset[str]
    ) -> None:
        """Show other steps, some of which can be typed over."""
        if (shown, unit, changeable) == (self._steps, self._unit, self._changeable):
            return
        self.beginResetModel()
        self._steps, self._unit, self._changeable = shown, unit, changeable
        self.endResetModel()

    @property
    def can_change(self) -> bool:
        """Whether any value can be typed over."""
        return any(item.symbol in self._changeable for item in self._steps)

    def step_at(self, row: int) -> Step | None:
        """The step in a row."""
        return self._steps[row] if 0 <= row < len(self._steps) else None

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008 (Qt's signature)
        return 0 if parent.isValid() else len(self._steps)

    def columnCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008 (Qt's signature)
        return 0 if parent.isValid() else len(COLUMNS)

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole
    ) -> object:
        if orientation is Qt.Orientation.Horizontal and role == Qt.ItemDataRole.DisplayRole:
            return COLUMNS[section]
        return None

    def flags(self, index: Index) -> Qt.ItemFlag:
        flags = super().flags(index)
        if index.column() == VALUE and self._steps[index.row()].symbol in self._changeable:
            flags |= Qt.ItemFlag.ItemIsEditable
        return flags

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        item, column = self._steps[index.row()], index.column()
        if role == Qt.ItemDataRole.DisplayRole:
            return self._text(item, column)
        if role == Qt.ItemDataRole.EditRole:
            return steps.shown(item, self._unit) if item.entered else ""
        if role in (Qt.ItemDataRole.ToolTipRole, Qt.ItemDataRole.AccessibleTextRole):
            return told(item, self._unit)
        if role == Qt.ItemDataRole.FontRole and item.entered:
            font = QFont()
            font.setBold(True)
            return font
        if role == Qt.ItemDataRole.TextAlignmentRole and column == VALUE:
            return Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
        return None

    def setData(self, index: Index, value: object, role: int = Qt.ItemDataRole.EditRole) -> bool:
        item = self._steps[index.row()]
        before = self.data(index, Qt.ItemDataRole.EditRole)
        if role == Qt.ItemDataRole.EditRole and str(value).strip() != before:
            self.typed.emit(item, str(value).strip())
        return True

    def _text(self, item: Step, column: int) -> str:
        if column == SYMBOL:
            return item.symbol
        if column == VALUE:
            return steps.shown(item, self._unit)
        doubt = " (verify)" if "M" in item.status and not item.entered else ""
        return f"{item.source}{doubt}"


def told(item: Step, unit: LengthUnit) -> str:
    """A step in one sentence: what it is, its value, source and status."""
    figure = f"{item.symbol} = {steps.shown(item, unit)}: {item.meaning}"
    if item.entered:
        return f"{figure}. Entered by you."
    return f"{figure}. {item.source}; {status_words(item.status)}."


def conditions_words(conditions: tuple[Condition, ...]) -> str:
    """What must hold, one line each: a tick, a cross, or a ring where the person must see to it."""
    marks = {True: "✓ met: ", False: "✕ not met: ", None: "○ see to it: "}
    return "\n".join(
        f"{marks[item.met]}{item.text} ({item.source}; {status_words(item.status)})"
        for item in conditions
    )


class StepGroup(QObject):
    """Rows of a form: the table, what the chosen step is, and the standard's conditions."""

    def __init__(self, stage: Stage) -> None:
        super().__init__(stage)
        self._stage = stage
        self._heading = stage.form.heading("Coefficients")
        self.model = StepModel(self)
        self.view = _view(self.model)
        stage.form.wide(self.view)
        self._told = quiet()
        stage.form.wide(self._told)
        self._error = ErrorLine()
        stage.form.wide(self._error)
        self._conditions_heading = stage.form.heading("What must hold")
        self._conditions = quiet()
        stage.form.wide(self._conditions)
        self.model.typed.connect(self._take)
        self.view.selectionModel().currentRowChanged.connect(self._tell)

    def show_pressure(self, pressure: DesignPressure | None) -> None:
        """Show what led to a pressure; None hides it all."""
        plan, unit = self._stage.session.plan, self._stage.session.unit
        found = () if pressure is None else pressure.steps
        method = "none" if plan is None else plan.loading.method
        self.model.show_steps(found, unit, frozenset(CHANGEABLE.get(method, {})))
        for part in (self._heading, self.view):
            part.setVisible(bool(found))
        self._fit()
        self._tell()
        conditions = () if pressure is None else pressure.conditions
        self._conditions_heading.setVisible(bool(conditions))
        self._conditions.say(conditions_words(conditions))

    def _fit(self) -> None:
        rows = min(max(self.model.rowCount(), 1), _MOST_ROWS)
        head = self.view.horizontalHeader().sizeHint().height()
        each = self.view.verticalHeader().defaultSectionSize()
        self.view.setFixedHeight(head + rows * each + 2 * self.view.frameWidth())

    def _tell(self) -> None:
        if not self.model.rowCount():
            self._told.say("")
            return
        item = self.model.step_at(self.view.currentIndex().row())
        words = _HOW_TO_CHANGE if self.model.can_change else ""
        self._told.say(words if item is None else told(item, self._stage.session.unit))

    def _take(self, item: Step, text: str) -> None:
        plan, unit = self._stage.session.committed, self._stage.session.unit
        if plan is None:
            return
        path, kind = CHANGEABLE[plan.loading.method][item.symbol]
        try:
            value = kind.read(text, item.symbol, unit) if text else None
            made = changed(plan, path, value)
        except HoleplacerError as error:
            self._error.say(str(error))
            return
        self._error.say("")
        said = f"Set {item.symbol} to {text}" if text else f"Take {item.symbol} from the table"
        self._stage.push(made, said)


def _view(model: StepModel) -> QTableView:
    view = QTableView()
    view.setAccessibleName("Coefficients")
    view.setModel(model)
    view.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
    view.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
    view.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
    view.setWordWrap(False)
    view.setTabKeyNavigation(False)
    view.verticalHeader().setVisible(False)
    view.verticalHeader().setDefaultSectionSize(3 * RHYTHM)
    header = view.horizontalHeader()
    header.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
    header.setStretchLastSection(True)
    return view
