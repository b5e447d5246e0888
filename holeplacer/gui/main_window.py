"""Main window: the frame that is on the screen at once; the workbench is set up in it after that.

The frame knows little and imports little, so that the first painting comes as soon as Qt allows.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QSettings, QSize, QTimer
from PySide6.QtGui import QCloseEvent, QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import QMainWindow, QStackedWidget, QVBoxLayout, QWidget

from holeplacer.gui.recent_files import RecentFiles
from holeplacer.gui.start_page import StartPage
from holeplacer.gui.theme import Theme

if TYPE_CHECKING:
    from holeplacer.gui.workbench import Workbench

MENUS = ("&File", "&Edit", "&View", "&Hole", "H&elp")
_SIZE = QSize(1280, 800)


class MainWindow(QMainWindow):
    """The window.

    Attributes:
        theme: Its colours.
        settings: What is remembered from one time to the next.
        start: What is shown while nothing is open.
        recent: Menu of the files opened last.
        workbench: All else, once `furnish` has set it up.
    """

    def __init__(
        self, theme: Theme, settings: QSettings, recovery_folder: Path | None = None
    ) -> None:
        """Make the frame.

        Args:
            theme: The colours.
            settings: Where choices are remembered.
            recovery_folder: Where unsaved plans are kept; None takes the system's place for it.
        """
        super().__init__()
        self.theme, self.settings = theme, settings
        self.workbench: Workbench | None = None
        self._recovery_folder = recovery_folder
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

    def furnish(self) -> Workbench:
        """Set up the workbench, once."""
        if self.workbench is None:
            from holeplacer.gui import workbench

            self.workbench = workbench.Workbench(self, self._recovery_folder)
            self.setAcceptDrops(True)
        return self.workbench

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        if dropped_file(event) is not None:
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        path = dropped_file(event)
        if path is not None and self.workbench is not None:
            event.acceptProposedAction()
            files = self.workbench.files
            # After the drop is over: a question asked here would keep the other program waiting.
            QTimer.singleShot(0, self, lambda: files.open_file(path))

    def closeEvent(self, event: QCloseEvent) -> None:
        if self.workbench is not None and not self.workbench.close():
            event.ignore()
            return
        self.settings.setValue("window/place", self.saveGeometry())
        event.accept()


def dropped_file(event: QDropEvent) -> Path | None:
    """The one file that is dropped; None if it is something else."""
    urls = [url for url in event.mimeData().urls() if url.isLocalFile()]
    return Path(urls[0].toLocalFile()) if len(urls) == 1 else None
