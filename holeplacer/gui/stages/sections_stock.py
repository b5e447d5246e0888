"""Stock group: the sheets at hand, typed as people say them, measured or only as bought."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QHeaderView, QLineEdit, QPushButton, QSizePolicy, QTableView

from holeplacer.errors import HoleplacerError, InputError
from holeplacer.gui.form import ErrorLine, quiet
from holeplacer.gui.row_table import Index, RowModel, dress
from holeplacer.gui.stages.stage import Stage
from holeplacer.sheet.stock import Stock, parse_stock
from holeplacer.units import LengthUnit, format_length

if TYPE_CHECKING:
    from holeplacer.plan.plan import Plan

COLUMNS = ("Sheet", "Measured", "Count")
SIZE, MEASURED, COUNT = range(len(COLUMNS))
ANY, AS_NEEDED = "any", "as many as needed"
NOT_MEASURED = (
    "▲ Not measured: sheets are often smaller than they are sold as, and out of square. Hold a "
    "tape to them before you divide the sign."
)
_MOST_ROWS = 5
_LARGEST_COUNT = 999_999


class StockModel(RowModel):
    """Sheets as rows; size and count are typed over, `measured` is ticked.

    Attributes:
        rows: The sheets.
        changed: The person changed one: its row and the sheet it is now.
        refused: What was typed can't be meant: the sentence to show; empty when all is well.
    """

    changed = Signal(int, object)
    refused = Signal(str)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(COLUMNS, parent)
        self.rows: tuple[Stock, ...] = ()
        self._unit = LengthUnit.MM

    def show_stock(self, stock: tuple[Stock, ...], unit: LengthUnit) -> None:
        """Show other sheets."""
        if (stock, unit) != (self.rows, self._unit):
            self.beginResetModel()
            self.rows, self._unit = stock, unit
            self.endResetModel()

    def flags(self, index: Index) -> Qt.ItemFlag:
        flags = super().flags(index)
        if not index.isValid():
            return flags
        if index.column() == MEASURED:
            return flags | Qt.ItemFlag.ItemIsUserCheckable
        return flags | Qt.ItemFlag.ItemIsEditable

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        stock, column = self.rows[index.row()], index.column()
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.EditRole):
            return self._text(stock, column)
        if role == Qt.ItemDataRole.CheckStateRole and column == MEASURED:
            return Qt.CheckState.Checked if stock.measured else Qt.CheckState.Unchecked
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return f"{size_words(stock, self._unit)}, {state_words(stock)}, {count_words(stock)}"
        if role == Qt.ItemDataRole.ToolTipRole:
            return f"{size_words(stock, self._unit)}, {state_words(stock)}; {count_words(stock)}"
        return None

    def setData(self, index: Index, value: object, role: int = Qt.ItemDataRole.EditRole) -> bool:
        stock = self.rows[index.row()]
        try:
            changed = self._changed(stock, index.column(), value, role)
        except InputError as error:
            self.refused.emit(str(error))
            return False
        self.refused.emit("")
        if changed != stock:
            self.changed.emit(index.row(), changed)
        return True

    def _text(self, stock: Stock, column: int) -> str:
        if column == SIZE:
            return size_words(stock, self._unit)
        if column == COUNT:
            return ANY if stock.count is None else str(stock.count)
        return ""

    def _changed(self, stock: Stock, column: int, value: object, role: int) -> Stock:
        text = str(value).strip()
        if column == MEASURED and role == Qt.ItemDataRole.CheckStateRole:
            measured = Qt.CheckState(value) is Qt.CheckState.Checked
            nominal = stock.nominal or size_words(stock, self._unit)
            return replace(stock, measured=measured, nominal=nominal)
        if column == SIZE and text != size_words(stock, self._unit):
            typed = parse_stock(text, bare=self._unit, measured=stock.measured)
            return replace(typed, count=stock.count if typed.count is None else typed.count)
        if column == COUNT:
            return replace(stock, count=_count(text))
        return stock


def size_words(stock: Stock, unit: LengthUnit) -> str:
    """Size of a sheet: `48 × 48 in`."""
    width = format_length(stock.width_mm, unit).removesuffix(f" {unit.value}")
    return f"{width} × {format_length(stock.height_mm, unit)}"


def state_words(stock: Stock) -> str:
    """Whether it was measured, and what it was bought as."""
    if stock.measured:
        return f"measured, bought as {stock.nominal}" if stock.nominal else "measured"
    return "nominal, not measured"


def count_words(stock: Stock) -> str:
    """How many there are."""
    return AS_NEEDED if stock.count is None else str(stock.count)


def _count(text: str) -> int | None:
    if text in ("", ANY, AS_NEEDED):
        return None
    if not text.isdecimal() or int(text) > _LARGEST_COUNT:
        raise InputError(
            f"{text[:20]!r} is no count of sheets",
            remedy="enter a whole number, or nothing for as many as needed",
        )
    return int(text)


class _StockView(QTableView):
    """Delete takes the chosen sheet away.

    Attributes:
        removed: The person wants this row gone.
    """

    removed = Signal(int)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Delete and self.currentIndex().isValid():
            self.removed.emit(self.currentIndex().row())
        else:
            super().keyPressEvent(event)


class StockGroup(QObject):
    """Rows of a form: the sheets, an entry for one more, what to mind."""

    def __init__(self, stage: Stage) -> None:
        super().__init__(stage)
        self._stage = stage
        form = stage.form
        form.heading("Sheets at hand")
        self.model = StockModel(self)
        self.view = _view(self.model)
        form.wide(self.view)
        self.entry = QLineEdit()
        self.entry.setPlaceholderText("48 x 48 in, or 3 of 1250 x 2500 mm")
        self.entry.setAccessibleName("Size of one more sheet")
        self.add = QPushButton("Add sheet")
        self.remove = QPushButton("Take away")
        form.wide(self.entry)
        form.side_by_side(self.add, self.remove)
        self._error = ErrorLine()
        form.wide(self._error)
        self._mind = quiet()
        form.wide(self._mind)
        self.entry.returnPressed.connect(self._add)
        self.add.clicked.connect(self._add)
        self.remove.clicked.connect(lambda: self._remove(self.view.currentIndex().row()))
        self.view.removed.connect(self._remove)
        self.model.changed.connect(self._change)
        self.model.refused.connect(self._error.say)

    def show_plan(self, plan: Plan) -> None:
        """Show the sheets of a plan."""
        stock = plan.sections.stock
        row = self.view.currentIndex().row()
        self.model.show_stock(stock, self._stage.session.unit)
        if stock and row >= 0:
            self.view.selectRow(min(row, len(stock) - 1))
        self.view.setVisible(bool(stock))
        self.remove.setEnabled(bool(stock))
        self._fit()
        unmeasured = any(not item.measured for item in stock)
        self._mind.say(NOT_MEASURED if unmeasured else "")

    def _fit(self) -> None:
        rows = min(max(self.model.rowCount(), 1), _MOST_ROWS)
        head = self.view.horizontalHeader().sizeHint().height()
        each = self.view.verticalHeader().defaultSectionSize()
        self.view.setFixedHeight(head + rows * each + 2 * self.view.frameWidth())

    def _add(self) -> None:
        text = self.entry.text().strip()
        if not text:
            self._error.say("Type the size of a sheet first, such as 48 x 48 in.")
            self.entry.setFocus()
            return
        try:
            # Typed is not measured: that is ticked by who held a tape to it.
            stock = parse_stock(text, bare=self._stage.session.unit, measured=False)
        except HoleplacerError as error:
            self._error.say(str(error))
            return
        self._error.say("")
        plan = self._stage.session.committed
        if plan is not None:
            self.entry.clear()
            size = size_words(stock, self._stage.session.unit)
            self._put((*plan.sections.stock, stock), f"Add a sheet {size}")

    def _remove(self, row: int) -> None:
        plan = self._stage.session.committed
        if plan is None or not plan.sections.stock:
            return
        row = row if 0 <= row < len(plan.sections.stock) else len(plan.sections.stock) - 1
        left = tuple(item for index, item in enumerate(plan.sections.stock) if index != row)
        self._put(left, "Take a sheet away")

    def _change(self, row: int, stock: Stock) -> None:
        plan = self._stage.session.committed
        if plan is not None and row < len(plan.sections.stock):
            before = plan.sections.stock
            size = size_words(stock, self._stage.session.unit)
            self._put((*before[:row], stock, *before[row + 1 :]), f"Change the sheet to {size}")

    def _put(self, stock: tuple[Stock, ...], text: str) -> None:
        from holeplacer.plan import edit, validity

        plan = self._stage.session.committed
        if plan is None:
            return
        try:
            made = edit.with_sections(plan, replace(plan.sections, stock=stock))
            self._stage.push(validity.checked(made), text)
        except HoleplacerError as error:
            self._error.say(str(error))


def _view(model: StockModel) -> _StockView:
    view = _StockView()
    view.setModel(model)
    dress(view, "Sheets at hand")
    view.setSelectionMode(QTableView.SelectionMode.SingleSelection)
    view.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
    header = view.horizontalHeader()
    header.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
    header.setSectionResizeMode(SIZE, QHeaderView.ResizeMode.Stretch)
    return view
