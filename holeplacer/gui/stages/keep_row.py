"""Keep row: a name for something of one's own, and the buttons that keep or forget it."""

from __future__ import annotations

from PySide6.QtCore import QObject, QSignalBlocker, Signal
from PySide6.QtWidgets import QLineEdit, QPushButton

from holeplacer.gui.form import Form


class KeepRow(QObject):
    """Rows of a form.

    Attributes:
        named: The person gave it another name.
        keep_wanted: It is to be kept for later jobs.
        forget_wanted: The one kept under this name is to be forgotten.
    """

    named = Signal(str)
    keep_wanted = Signal()
    forget_wanted = Signal()

    def __init__(self, form: Form, what: str) -> None:
        """Add the rows.

        Args:
            form: Where to.
            what: What is kept, such as `size`.
        """
        super().__init__(form)
        self.field = QLineEdit()
        self.field.setMaxLength(60)
        self.field.setAccessibleName(f"Name of your own {what}")
        self._row = form.row("Name", self.field)
        self.keep = QPushButton(f"Keep this {what}")
        self.forget = QPushButton("Forget it")
        self._buttons = form.side_by_side(self.keep, self.forget)
        self.field.editingFinished.connect(self._name)
        self.keep.clicked.connect(self.keep_wanted)
        self.forget.clicked.connect(self.forget_wanted)
        self._shown = ""

    def show_item(self, name: str | None, *, kept: bool, same: bool) -> None:
        """Show what can be done now.

        Args:
            name: The item's name; None where it is not one's own.
            kept: Whether one of that name is kept.
            same: Whether the one that is kept says the same.
        """
        if kept and same:
            self._row.say("kept for later jobs")
        elif kept:
            self._row.say("kept, but with other figures")
        else:
            self._row.say("in this plan alone")
        self._row.show(name is not None)
        self._buttons.setVisible(name is not None)
        self.keep.setEnabled(not same)
        self.forget.setVisible(kept)
        if name is not None and name != self._shown:
            with QSignalBlocker(self.field):
                self.field.setText(name)
        self._shown = name or ""

    def tell(self, error: str) -> None:
        """Say why it can't be kept or named so, or nothing."""
        self._row.error.say(error)

    def _name(self) -> None:
        name = self.field.text().strip()
        if name != self._shown:
            self.named.emit(name)
