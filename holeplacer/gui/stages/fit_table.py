"""Fit table: every hole with its movement, the hole it needs and the one it has."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QSignalBlocker, Qt
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableWidget, QTableWidgetItem

from holeplacer.gui.session import Session
from holeplacer.units import MM_PER_INCH, LengthUnit

if TYPE_CHECKING:
    from holeplacer.evaluation.hole_fit import HoleFit

_COLUMNS = ("Hole", "Moves ±", "Needs", "Has", "State")
_DECIMALS = {LengthUnit.MM: 2, LengthUnit.INCH: 3}
_STATE = _COLUMNS.index("State")
_MOST_ROWS = 8
_ENOUGH, _SMALL, _BINDS, _OUTSIDE = "enough", "small", "binds", "outside"

MEANINGS = (
    "Small: the room meant for drilling would go to heat and cold. Binds: the stud is pressed "
    "aside however well the hole was placed."
)
"""What the words in the last column mean."""


class FitTable(QTableWidget):
    """One row per hole; selecting rows selects holes."""

    def __init__(self, session: Session) -> None:
        super().__init__(0, len(_COLUMNS))
        self._session = session
        self._numbers: tuple[int, ...] = ()
        self.setAccessibleName("Room of every hole for heat and cold")
        self.setHorizontalHeaderLabels(_COLUMNS)
        self.verticalHeader().hide()
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setTabKeyNavigation(False)
        self.setWordWrap(False)
        header = self.horizontalHeader()
        header.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        header.setSectionResizeMode(_STATE, QHeaderView.ResizeMode.Stretch)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        header.setMinimumSectionSize(24)
        self.itemSelectionChanged.connect(self._select)

    def show_fits(self, fits: tuple[HoleFit, ...]) -> None:
        """Show these holes, those selected in the session selected here."""
        with QSignalBlocker(self):
            self.setRowCount(len(fits))
            self._numbers = tuple(fit.number for fit in fits)
            for row, fit in enumerate(fits):
                for column, text in enumerate(self._texts(fit)):
                    self._put(row, column, text)
            self._mark_selected()
        rows = min(max(len(fits), 1), _MOST_ROWS)
        height = self.horizontalHeader().sizeHint().height() + 2 * self.frameWidth()
        self.setFixedHeight(height + rows * self.verticalHeader().defaultSectionSize())
        self.setVisible(bool(fits))

    def _put(self, row: int, column: int, text: str) -> None:
        item = self.item(row, column)
        if item is None:
            item = QTableWidgetItem()
            side = Qt.AlignmentFlag.AlignLeft if column == _STATE else Qt.AlignmentFlag.AlignRight
            item.setTextAlignment(side | Qt.AlignmentFlag.AlignVCenter)
            self.setItem(row, column, item)
        if item.text() != text:
            item.setText(text)

    def _texts(self, fit: HoleFit) -> tuple[str, ...]:
        moves = fit.movement
        return (
            str(fit.number),
            "fixed" if moves.is_fixed_point else self._bare(moves.greatest_mm),
            self._bare(fit.needed.round_mm),
            self._bare(fit.given_mm),
            state_of(fit),
        )

    def _bare(self, mm: float) -> str:
        """Without its unit, for which the column has no room: `unit_words` says it."""
        unit = self._session.unit
        value = mm if unit is LengthUnit.MM else mm / MM_PER_INCH
        return f"{value:.{_DECIMALS[unit]}f}"

    def unit_words(self) -> str:
        """What the table's figures are in."""
        return "In millimetres:" if self._session.unit is LengthUnit.MM else "In inches:"

    def _mark_selected(self) -> None:
        self.clearSelection()
        chosen = self._session.selected_holes
        flag = self.selectionModel().SelectionFlag
        for row, number in enumerate(self._numbers):
            if number in chosen:
                index = self.model().index(row, 0)
                self.selectionModel().select(index, flag.Select | flag.Rows)

    def _select(self) -> None:
        rows = {index.row() for index in self.selectionModel().selectedRows()}
        self._session.select_holes(self._numbers[row] for row in rows)


def state_of(fit: HoleFit) -> str:
    """How a hole is off, in a word."""
    if fit.about is None:
        return _OUTSIDE
    if fit.binds:
        return _BINDS
    return _ENOUGH if fit.enough else _SMALL
