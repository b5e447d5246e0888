"""File commands: open, save and export, with the questions they have to ask."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QSettings, Signal
from PySide6.QtWidgets import QFileDialog, QMessageBox, QWidget

from holeplacer.gui.document import PLAN_SUFFIX, Document
from holeplacer.gui.exporter import Exporter
from holeplacer.gui.session import Session

if TYPE_CHECKING:
    from holeplacer.cutting.sheet_layout import SheetLayout

_OPENABLE = f"Artwork and plans (*.dxf *.svg *{PLAN_SUFFIX});;All files (*)"


class FileCommands(QObject):
    """What the File menu, the start page and a dropped file do.

    Attributes:
        begins: A file is about to be opened.
    """

    begins = Signal()

    def __init__(
        self,
        window: QWidget,
        session: Session,
        document: Document,
        exporter: Exporter,
        settings: QSettings,
    ) -> None:
        super().__init__(window)
        self._window, self._session = window, session
        self._document, self._exporter, self._settings = document, exporter, settings

    def open_file(self, path: Path) -> None:
        """Open artwork or a plan, once what is open is saved or given up."""
        if self.may_leave():
            self.begins.emit()
            self._document.open(path)

    def open_demo(self) -> None:
        """Open the demo, once what is open is saved or given up."""
        if self.may_leave():
            self.begins.emit()
            self._document.open_demo()

    def ask_open(self) -> None:
        """Ask which file to open."""
        folder = str(self._settings.value("folder", ""))
        title = "Open artwork or plan"
        name, _ = QFileDialog.getOpenFileName(self._window, title, folder, _OPENABLE)
        if name:
            self._settings.setValue("folder", str(Path(name).parent))
            self.open_file(Path(name))

    def save(self) -> bool:
        """Save where the plan was saved before; ask where if it never was."""
        if self._document.path is None:
            return self.ask_save()
        return self._save_to(self._document.path)

    def ask_save(self) -> bool:
        """Ask where to save the plan."""
        if self._session.committed is None:
            return False
        source = self._document.source
        folder = source.parent if source is not None else Path.home()
        name, _ = QFileDialog.getSaveFileName(
            self._window,
            "Save plan",
            str(folder / Path(self._document.name).with_suffix(PLAN_SUFFIX).name),
            f"Plans (*{PLAN_SUFFIX})",
        )
        return bool(name) and self._save_to(_with_suffix(Path(name), PLAN_SUFFIX))

    def ask_export_drawing(self) -> None:
        """Ask where to write the drawing."""
        self._ask_export("Export drawing", ".dxf", "Drawings (*.dxf)", self._exporter.write_drawing)

    def ask_export_schedule(self) -> None:
        """Ask where to write the list of holes."""
        self._ask_export(
            "Export hole list", ".csv", "Tables (*.csv)", self._exporter.write_schedule
        )

    def ask_cut_folder(self, laid: SheetLayout | None) -> None:
        """Ask where to write all that goes to the table; files in the way are asked about."""
        if laid is None:
            self._session.notice.emit("Sections are not on sheets yet. Enter a sheet at hand.")
            return
        start = str(Path(self._exporter.suggested("")).parent)
        name = QFileDialog.getExistingDirectory(self._window, "Write the cut folder", start)
        if name and self._may_replace(Path(name), len(laid.sheets)):
            self._exporter.write_cut_folder(Path(name), laid)

    def _may_replace(self, folder: Path, sheets: int) -> bool:
        """Whether nothing is in the way, or the person lets it be replaced."""
        found = self._exporter.in_the_way(folder, sheets)
        if not found:
            return True
        button = QMessageBox.StandardButton
        answer = QMessageBox.question(
            self._window,
            "Replace files",
            f"{folder.name} has {', '.join(found)} already. Replace them?",
            button.Yes | button.Cancel,
            button.Cancel,
        )
        return bool(answer == button.Yes)

    def may_leave(self) -> bool:
        """Whether what is open may go: saved, given up by the person, or unchanged."""
        if not self._document.modified:
            return True
        button = QMessageBox.StandardButton
        answer = QMessageBox.question(
            self._window,
            "Unsaved changes",
            f"Save the changes to {self._document.name}?",
            button.Save | button.Discard | button.Cancel,
            button.Save,
        )
        return self.save() if answer == button.Save else bool(answer == button.Discard)

    def _ask_export(
        self, title: str, suffix: str, kinds: str, write: Callable[[Path], None]
    ) -> None:
        if not self._exporter.ready:
            self._session.notice.emit("There are no holes to export yet. Propose them first.")
            return
        suggested = self._exporter.suggested(suffix)
        name, _ = QFileDialog.getSaveFileName(self._window, title, suggested, kinds)
        if name:
            write(_with_suffix(Path(name), suffix))

    def _save_to(self, path: Path) -> bool:
        saved = self._document.save(path)
        if saved:
            self._session.notice.emit(f"Saved {path.name}.")
        return saved


def _with_suffix(path: Path, suffix: str) -> Path:
    return path if path.suffix else path.with_suffix(suffix)
