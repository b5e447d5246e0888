"""Quantity field: takes a figure with its unit as people write it, and keeps the exact value."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QLineEdit, QWidget

from holeplacer.errors import InputError
from holeplacer.units import LengthUnit

if TYPE_CHECKING:
    from holeplacer.gui.quantity_kind import QuantityKind


class QuantityField(QLineEdit):
    """One figure of a kind, such as a pressure.

    The value is what was typed, to the last bit: the text is only how it is shown.

    Attributes:
        entered: The person gave another value, None where it was cleared.
        refused: What was typed can't be taken: the sentence to show, empty when all is well again.
    """

    entered = Signal(object)
    refused = Signal(str)

    def __init__(
        self,
        name: str,
        kind: QuantityKind,
        *,
        empty: str | None = None,
        parent: QWidget | None = None,
    ) -> None:
        """Make an empty field.

        Args:
            name: What the figure is of; read out and named in errors.
            kind: How it is read and shown.
            empty: Shown where no value is given; None if one has to be.
            parent: Qt's parent.
        """
        super().__init__(parent)
        self._name, self._kind = name, kind
        self._value: float | None = None
        self._unit = LengthUnit.MM
        self._typed = False
        self._error = ""
        self._may_be_empty = empty is not None
        self.setPlaceholderText(empty or "")
        self.setAccessibleName(name)
        self.textEdited.connect(self._typing)
        self.editingFinished.connect(self._take_text)

    @property
    def value(self) -> float | None:
        """The value; None if empty."""
        return self._value

    def set_value(self, value: float | None, unit: LengthUnit) -> None:
        """Show a value in a unit system; text being typed is left alone."""
        unchanged = value == self._value and unit is self._unit
        self._value, self._unit = value, unit
        if not (unchanged and (self._typed or self._error)):
            self._show()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape and (self._typed or self._error):
            self._show()
            return
        super().keyPressEvent(event)

    def _typing(self) -> None:
        self._typed = True

    def _take_text(self) -> None:
        if not self._typed:
            return
        self._typed = False
        text = self.text().strip()
        try:
            value = self._read(text)
        except InputError as error:
            self._tell(str(error))
            return
        changed = value != self._value
        self._value = value
        self._show()
        if changed:
            self.entered.emit(value)

    def _read(self, text: str) -> float | None:
        if not text and self._may_be_empty:
            return None
        return self._kind.read(text, self._name, self._unit)

    def _show(self) -> None:
        text = "" if self._value is None else self._kind.show(self._value, self._unit)
        if text != self.text():
            self.setText(text)
        self._typed = False
        self._tell("")

    def _tell(self, error: str) -> None:
        if error != self._error:
            self._error = error
            self.setAccessibleDescription(error)
            self.refused.emit(error)
