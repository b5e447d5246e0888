"""Help text: one page in a window of its own, so that one can read and work."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog, QTextBrowser, QVBoxLayout, QWidget

from holeplacer import resources


class HelpWindow(QDialog):
    """The page; it does not block the main window."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle("How to work with Holeplacer")
        self.setModal(False)
        self.setWindowFlag(Qt.WindowType.WindowMaximizeButtonHint)
        self.page = QTextBrowser()
        self.page.setAccessibleName("Help")
        text = resources.resource_path("help", "working.md").read_text(encoding="utf-8")
        self.page.setMarkdown(text)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.page)
        self.resize(640, 720)
