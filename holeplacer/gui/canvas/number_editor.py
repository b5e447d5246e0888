"""A hole's number, typed in place on the canvas."""

from __future__ import annotations

from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QFocusEvent, QIntValidator, QKeyEvent
from PySide6.QtWidgets import QLineEdit, QWidget

from holeplacer.gui.session import Session

_WIDTH_PX = 56
_LARGEST = 9999


class NumberEditor(QLineEdit):
    """Opens at a hole; Enter takes the number, Escape or leaving it does not.

    A number in use changes places with the hole that bears it.
    """

    def __init__(self, session: Session, parent: QWidget) -> None:
        super().__init__(parent)
        self._session = session
        self._home = parent
        self._number = 0
        self.setValidator(QIntValidator(1, _LARGEST, self))
        self.setFixedWidth(_WIDTH_PX)
        self.setAccessibleName("Number of the hole")
        self.returnPressed.connect(self._take)
        self.hide()

    def edit(self, number: int, at: QPoint) -> None:
        """Ask for another number, beside this pixel of the parent."""
        self._number = number
        self.setText(str(number))
        self.selectAll()
        self.move(at + QPoint(12, -12 - self.height()))
        self.show()
        self.setFocus(Qt.FocusReason.OtherFocusReason)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self._leave()
            return
        super().keyPressEvent(event)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.hide()

    def _take(self) -> None:
        from holeplacer.plan import edit  # with the first step, not with the window

        plan, wanted = self._session.committed, int(self.text())
        if plan is not None and wanted != self._number:
            changed = edit.with_hole_numbered(plan, self._number, wanted)
            self._session.push(changed, f"Number hole {self._number} as {wanted}")
            self._session.select_holes({wanted})
        self._leave()

    def _leave(self) -> None:
        self.hide()
        self._home.setFocus(Qt.FocusReason.OtherFocusReason)
