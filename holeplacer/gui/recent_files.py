"""Recent files: those opened or saved last, as a menu."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QSettings, Signal
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QMenu, QWidget

_KEY = "recent/files"
MOST = 12


class RecentFiles(QMenu):
    """The menu; missing files drop out when it opens.

    Attributes:
        wanted: A file was chosen: its path.
    """

    wanted = Signal(object)

    def __init__(self, settings: QSettings, parent: QWidget | None = None) -> None:
        super().__init__("Open &recent", parent)
        self._settings = settings
        self.aboutToShow.connect(self._fill)
        self.triggered.connect(self._choose)

    def paths(self) -> tuple[Path, ...]:
        """Those that are still there, newest first."""
        kept = self._settings.value(_KEY, [])
        names = [kept] if isinstance(kept, str) else kept if isinstance(kept, list) else []
        return tuple(path for path in map(Path, names) if path.is_file())

    def add(self, path: Path) -> None:
        """Put a file first."""
        path = path.resolve()
        names = [str(path), *(str(old) for old in self.paths() if old != path)]
        self._settings.setValue(_KEY, names[:MOST])

    def forget_all(self) -> None:
        """Empty the list."""
        self._settings.remove(_KEY)

    def _fill(self) -> None:
        self.clear()
        paths = self.paths()
        for number, path in enumerate(paths, start=1):
            key = f"&{number} " if number < 10 else ""
            action = self.addAction(f"{key}{path.name}   ({path.parent})")
            action.setData(str(path))
        if not paths:
            self.addAction("No files yet").setEnabled(False)
            return
        self.addSeparator()
        self.addAction("&Clear this list").triggered.connect(self.forget_all)

    def _choose(self, action: QAction) -> None:
        if action.data():
            self.wanted.emit(Path(action.data()))
