"""Units question: asked in place when a drawing states no units, with the size each would give."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFrame, QPushButton, QVBoxLayout, QWidget

from holeplacer.gui.form import RHYTHM, WrappedLabel, quiet
from holeplacer.gui.stages.stage import Choice
from holeplacer.units import DRAWING_UNITS_MM, LengthUnit, format_length

OFFERED = ("mm", "cm", "in")
_OTHERS = tuple(name for name in DRAWING_UNITS_MM if name not in OFFERED)


class UnitsQuestion(QFrame):
    """What is one unit of the drawing?

    Attributes:
        answered: Name of the unit.
    """

    answered = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFrameShape(QFrame.Shape.StyledPanel)
        column = QVBoxLayout(self)
        column.setContentsMargins(RHYTHM, RHYTHM, RHYTHM, RHYTHM)
        column.setSpacing(RHYTHM // 2)
        column.addWidget(WrappedLabel("▲ The drawing states no units. One unit of it is:"))
        self._buttons = {}
        for name in OFFERED:
            button = QPushButton(name)
            button.clicked.connect(lambda _checked=False, unit=name: self.answered.emit(unit))
            column.addWidget(button)
            self._buttons[name] = button
        self._others = Choice()
        self._others.setAccessibleName("Another unit")
        self._others.chosen.connect(self._choose_other)
        column.addWidget(self._others)
        column.addWidget(quiet("Nothing is read before this is known. It can be changed later."))
        self.show_sizes(None, LengthUnit.MM)

    def show_sizes(self, size: tuple[float, float] | None, unit: LengthUnit) -> None:
        """Say how large the sign would be with each.

        Args:
            size: Width and height in drawing units; None while they are being measured.
            unit: What to show lengths in.
        """
        for name, button in self._buttons.items():
            button.setText(f"{name}{_size(size, name, unit)}")
        entries = ((f"{name}{_size(size, name, unit)}", name) for name in _OTHERS)
        self._others.offer((("another unit …", None), *entries), None)

    def _choose_other(self, name: str | None) -> None:
        if name is not None:
            self.answered.emit(name)


def _size(size: tuple[float, float] | None, name: str, unit: LengthUnit) -> str:
    if size is None:
        return ""
    width, height = (format_length(side * DRAWING_UNITS_MM[name], unit) for side in size)
    return f":  {width} wide, {height} high"
