"""Length field: takes lengths as people write them and keeps the exact millimetres."""

from __future__ import annotations

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent, QValidator, QWheelEvent
from PySide6.QtWidgets import QAbstractSpinBox, QWidget

from holeplacer.errors import InputError
from holeplacer.units import MM_PER_INCH, LengthUnit, format_length, parse_length

_SIXTEENTH_MM = MM_PER_INCH / 16


class LengthField(QAbstractSpinBox):
    """One length with its unit in the field; arrows step it.

    The value is what was typed, to the last bit: the text is only how it is shown.

    Attributes:
        entered: The person gave another value: mm (or None where empty is allowed), and whether
            by a step (steps that follow one another are one gesture) or typed.
        refused: What was typed is no length within the bounds: the sentence to show, empty when
            all is well again.
    """

    entered = Signal(object, bool)
    refused = Signal(str)

    def __init__(
        self,
        name: str,
        *,
        least_mm: float = 0.0,
        most_mm: float = 1e5,
        step_mm: float = 1.0,
        empty: str | None = None,
        parent: QWidget | None = None,
    ) -> None:
        """Make an empty field.

        Args:
            name: What the length is of; read out and named in errors.
            least_mm: Least value taken.
            most_mm: Greatest value taken.
            step_mm: One step of the arrows; in inches, the nearest count of sixteenths.
            empty: Shown where no value is given; None if one has to be.
            parent: Qt's parent.
        """
        super().__init__(parent)
        self._name, self._least, self._most, self._step = name, least_mm, most_mm, step_mm
        self._mm: float | None = None
        self._unit = LengthUnit.MM
        self._error = ""
        self._typed = False
        self._may_be_empty = empty is not None
        self.lineEdit().setPlaceholderText(empty or "")
        self.setAccessibleName(name)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setKeyboardTracking(False)
        self.lineEdit().textEdited.connect(self._typing)
        self.editingFinished.connect(self._take_text)
        self._show()

    @property
    def mm(self) -> float | None:
        """The value; None if empty."""
        return self._mm

    @property
    def error(self) -> str:
        """Why the text in the field is not taken, or empty."""
        return self._error

    def set_mm(self, mm: float | None) -> None:
        """Show a value; text being typed is left alone."""
        unchanged = mm == self._mm
        self._mm = mm
        if not (unchanged and (self._typed or self._error)):
            self._show()

    def set_unit(self, unit: LengthUnit) -> None:
        """Show it in another unit."""
        self._unit = unit
        self._show()

    def set_empty_text(self, text: str) -> None:
        """What stands in the field where no value is given."""
        self.lineEdit().setPlaceholderText(text)

    def stepBy(self, steps: int) -> None:
        if self._typed:
            self._take_text()
        base = self._mm if self._mm is not None else self._least
        value = min(max(_stepped(base, steps, self._step, self._unit), self._least), self._most)
        if value != self._mm:
            self._mm = value
            self._show()
            self.entered.emit(value, True)

    def stepEnabled(self) -> QAbstractSpinBox.StepEnabledFlag:
        step = QAbstractSpinBox.StepEnabledFlag
        flags = step.StepNone
        if not self.isReadOnly():
            base = self._mm if self._mm is not None else self._least
            flags |= step.StepUpEnabled if base < self._most else step.StepNone
            flags |= step.StepDownEnabled if base > self._least else step.StepNone
        return flags

    def validate(self, text: str, position: int) -> tuple[QValidator.State, str, int]:
        return QValidator.State.Acceptable, text, position

    def fixup(self, text: str) -> str:
        return text

    def wheelEvent(self, event: QWheelEvent) -> None:
        if self.hasFocus():
            super().wheelEvent(event)
        else:
            event.ignore()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        undoing = event.key() == Qt.Key.Key_Escape
        if undoing and (self._typed or self._error):
            self._show()
            return
        super().keyPressEvent(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        if event.reason() in (Qt.FocusReason.TabFocusReason, Qt.FocusReason.BacktabFocusReason):
            self.selectAll()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.LocaleChange:
            self._show()

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
        changed = value != self._mm
        self._mm = value
        self._show()
        if changed:
            self.entered.emit(value, False)

    def _read(self, text: str) -> float | None:
        if not text and self._may_be_empty:
            return None
        value = parse_length(text, bare=self._unit, field=self._name)
        for wrong, bound, word in (
            (value < self._least, self._least, "at least"),
            (value > self._most, self._most, "at most"),
        ):
            if wrong:
                shown = format_length(bound, self._unit)
                raise InputError(f"must be {word} {shown}", where=self._name)
        return value

    def _show(self) -> None:
        text = "" if self._mm is None else format_length(self._mm, self._unit)
        self.lineEdit().setText(text)
        self._typed = False
        self._tell("")

    def _tell(self, error: str) -> None:
        if error != self._error:
            self._error = error
            self.setAccessibleDescription(error)
            self.refused.emit(error)


def _stepped(mm: float, steps: int, step_mm: float, unit: LengthUnit) -> float:
    """The next round value up or down: whole steps, or whole sixteenths of an inch."""
    size = step_mm
    if unit is LengthUnit.INCH:
        size = max(round(step_mm / _SIXTEENTH_MM), 1) * _SIXTEENTH_MM
    return round((round(mm / size) + steps) * size, 9)
