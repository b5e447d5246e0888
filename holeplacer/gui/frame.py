"""Frame: what of the window is on the screen at once.

It knows little and imports little, so that the first painting comes as soon as Qt allows.
"""

from __future__ import annotations

from PySide6.QtCore import QSettings, QSize
from PySide6.QtWidgets import QMainWindow, QStackedWidget, QVBoxLayout, QWidget

from holeplacer.gui.recent_files import RecentFiles
from holeplacer.gui.start_page import StartPage
from holeplacer.gui.theme import Theme

MENUS = ("&File", "&Edit", "&View", "&Hole", "&Seam", "H&elp")
_SIZE = QSize(1280, 800)


class Frame(QMainWindow):
    """Menu bar, start page, and room for the rest.

    Attributes:
        theme: Its colours.
        settings: What is remembered from one time to the next.
        start: What is shown while nothing is open.
        recent: Menu of the files opened last.
        middle: Start page and canvas, one of which is seen.
        column: What stands above the middle, and the middle.
        titles: The menus, still empty.
    """

    def __init__(self, theme: Theme, settings: QSettings) -> None:
        super().__init__()
        self.theme, self.settings = theme, settings
        self.recent = RecentFiles(settings, self)
        self.start = StartPage()
        self.start.show_recent(self.recent.paths())
        self.middle = QStackedWidget()
        self.middle.addWidget(self.start)
        centre = QWidget()
        self.column = QVBoxLayout(centre)
        self.column.setContentsMargins(0, 0, 0, 0)
        self.column.setSpacing(0)
        self.column.addWidget(self.middle, 1)
        self.setCentralWidget(centre)
        self.titles = [self.menuBar().addMenu(title) for title in MENUS]
        self.setWindowTitle("Holeplacer")
        self.resize(_SIZE)
        place = settings.value("window/place")
        if place is not None:
            self.restoreGeometry(place)
