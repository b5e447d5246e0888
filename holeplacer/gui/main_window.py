"""Main window: the frame first, then the workbench in it; dropped files, closing."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QSettings, QTimer
from PySide6.QtGui import QCloseEvent, QDragEnterEvent, QDropEvent

from holeplacer.gui.frame import Frame
from holeplacer.gui.theme import Theme

if TYPE_CHECKING:
    from holeplacer.gui.workbench import Workbench
    from holeplacer.plan.plan import Plan


class MainWindow(Frame):
    """The window.

    Attributes:
        workbench: All but the frame, once `furnish` has set it up.
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
        super().__init__(theme, settings)
        self.workbench: Workbench | None = None
        self._recovery_folder = recovery_folder
        self._given_up: Plan | None = None

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

    def may_end_session(self) -> bool:
        """Whether the person lets a logout go on, unsaved changes saved or given up.

        The window stays as it is, since another program may yet call the logout off; what is
        given up is not asked for again if it goes on.
        """
        bench = self.workbench
        if bench is None:
            return True
        if not bench.files.may_leave():
            return False
        if bench.document.modified:
            self._given_up = bench.session.committed
            bench.recovery.let_go()
        return True

    def keep_unsaved(self) -> None:
        """Keep unsaved changes for the next start, where nobody can be asked."""
        if self.workbench is not None:
            self.workbench.recovery.keep_now()

    def closeEvent(self, event: QCloseEvent) -> None:
        bench = self.workbench
        if bench is not None:
            given_up = self._given_up is not None and self._given_up is bench.session.committed
            if not bench.close(answered=given_up):
                event.ignore()
                return
        self.settings.setValue("window/place", self.saveGeometry())
        event.accept()


def dropped_file(event: QDropEvent) -> Path | None:
    """The one file that is dropped; None if it is something else."""
    urls = [url for url in event.mimeData().urls() if url.isLocalFile()]
    return Path(urls[0].toLocalFile()) if len(urls) == 1 else None
