"""Message line: what went wrong or asks for a decision, said in place with its acts beside it."""

from __future__ import annotations

from collections.abc import Callable
from enum import Enum

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QAccessible, QAccessibleAnnouncementEvent, QPalette
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QPushButton, QToolButton, QWidget

from holeplacer.gui.form import RHYTHM, WrappedLabel


class Kind(Enum):
    """What a message is, by its sign and its word."""

    NOTE = "●"
    QUESTION = "?"
    ALERT = "▲"


class MessageLine(QFrame):
    """One message above the canvas; it stays until it is dealt with or dismissed.

    Attributes:
        dismissed: The person put it away.
    """

    dismissed = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFrameShape(QFrame.Shape.StyledPanel)
        self.setAutoFillBackground(True)
        self.setBackgroundRole(QPalette.ColorRole.Base)
        self._row = QHBoxLayout(self)
        self._row.setContentsMargins(2 * RHYTHM, RHYTHM, RHYTHM, RHYTHM)
        self._row.setSpacing(RHYTHM)
        self._sign = QLabel()
        self._text = WrappedLabel()
        self._close = QToolButton()
        self._close.setText("✕")
        self._close.setAutoRaise(True)
        self._close.setToolTip("Put this message away")
        self._close.setAccessibleName("Put this message away")
        self._close.clicked.connect(self._dismiss)
        self._row.addWidget(self._sign, 0, Qt.AlignmentFlag.AlignTop)
        self._row.addWidget(self._text, 1)
        self._row.addWidget(self._close, 0, Qt.AlignmentFlag.AlignTop)
        self._buttons: list[QPushButton] = []
        self.setVisible(False)

    @property
    def text(self) -> str:
        """What is said; empty while nothing is."""
        return "" if self.isHidden() else self._text.text()

    def say(
        self, kind: Kind, text: str, acts: tuple[tuple[str, Callable[[], object]], ...] = ()
    ) -> None:
        """Say something, with the acts that answer it; each act puts the message away."""
        self._clear_buttons()
        self._sign.setText(kind.value)
        role = QPalette.ColorRole
        self._sign.setForegroundRole(role.BrightText if kind is Kind.ALERT else role.Highlight)
        self._text.say(text)
        for name, act in acts:
            button = QPushButton(name)
            button.clicked.connect(lambda _checked=False, chosen=act: self._answer(chosen))
            self._row.insertWidget(self._row.count() - 1, button)
            self._buttons.append(button)
        self.setVisible(True)
        QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(self, text))

    def clear(self) -> None:
        """Say nothing any more."""
        self._clear_buttons()
        self._text.say("")
        self.setVisible(False)

    def _clear_buttons(self) -> None:
        for button in self._buttons:
            self._row.removeWidget(button)
            button.hide()
            button.deleteLater()
        self._buttons.clear()

    def _answer(self, act: Callable[[], object]) -> None:
        self.clear()
        act()

    def _dismiss(self) -> None:
        self.clear()
        self.dismissed.emit()
