"""Start page: how to begin, and the demo, in two lines; and the files opened last."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from holeplacer.gui.form import RHYTHM, PrimaryButton, quiet

_MOST = 5


class StartPage(QWidget):
    """What the canvas's place shows while nothing is open.

    Attributes:
        open_wanted: A file is to be chosen.
        demo_wanted: The demo is to be opened.
        file_wanted: A recent file was chosen: its path.
    """

    open_wanted = Signal()
    demo_wanted = Signal()
    file_wanted = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        column = QVBoxLayout(self)
        column.setSpacing(RHYTHM)
        column.addStretch(2)
        begin = PrimaryButton("Open artwork or plan …")
        begin.clicked.connect(self.open_wanted)
        demo = QPushButton("Open the demo")
        demo.clicked.connect(self.demo_wanted)
        for text, button in (
            ("Drop the lettering here: a DXF or SVG, at any size.", begin),
            ("Nothing at hand? The demo is a shop sign, two metres wide.", demo),
        ):
            line = QHBoxLayout()
            line.setSpacing(2 * RHYTHM)
            line.addStretch(1)
            label = QLabel(text)
            label.setMinimumWidth(48 * RHYTHM)
            line.addWidget(label)
            button.setMinimumWidth(22 * RHYTHM)
            line.addWidget(button)
            line.addStretch(1)
            column.addLayout(line)
        self._recent = QVBoxLayout()
        self._shown: list[QWidget] = []
        self._recent.setSpacing(RHYTHM // 2)
        column.addSpacing(2 * RHYTHM)
        column.addLayout(self._recent)
        column.addStretch(3)

    def show_recent(self, paths: tuple[Path, ...]) -> None:
        """Offer the files opened last."""
        for old in self._shown:
            old.deleteLater()
        self._shown.clear()
        if paths:
            title = quiet("Opened last")
            title.setAlignment(Qt.AlignmentFlag.AlignHCenter)
            self._recent.addWidget(title)
            self._shown.append(title)
        for path in paths[:_MOST]:
            button = QPushButton(path.name)
            button.setFlat(True)
            button.setToolTip(str(path))
            button.clicked.connect(
                lambda _checked=False, chosen=path: self.file_wanted.emit(chosen)
            )
            self._recent.addWidget(button, 0, Qt.AlignmentFlag.AlignHCenter)
            self._shown.append(button)
