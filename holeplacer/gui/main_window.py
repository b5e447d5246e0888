"""Main window: rail, form, canvas, ribbon and tables round one session."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QPoint, QSettings, QSize, Qt, QTimer
from PySide6.QtGui import QCloseEvent, QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import (
    QDockWidget,
    QFileDialog,
    QMainWindow,
    QMessageBox,
    QStackedWidget,
    QTabWidget,
    QVBoxLayout,
    QWidget,
)

from holeplacer.errors import HoleplacerError, UnitsMissing
from holeplacer.gui.canvas.view import CanvasView
from holeplacer.gui.document import PLAN_SUFFIX, Document
from holeplacer.gui.exporter import Exporter
from holeplacer.gui.finding_list import FindingList
from holeplacer.gui.hole_table import HoleTable
from holeplacer.gui.menus import Menus
from holeplacer.gui.message_line import Kind, MessageLine
from holeplacer.gui.proposer import Proposer
from holeplacer.gui.rail import Rail
from holeplacer.gui.recent_files import RecentFiles
from holeplacer.gui.recovery import Leftover, Recovery
from holeplacer.gui.ribbon.view import RibbonView
from holeplacer.gui.session import Session
from holeplacer.gui.stages.holes import HolesStage
from holeplacer.gui.stages.outline import OutlineStage
from holeplacer.gui.stages.sheet import SheetStage
from holeplacer.gui.stages.standoffs import StandoffsStage
from holeplacer.gui.start_page import StartPage
from holeplacer.gui.status_line import StatusLine
from holeplacer.gui.theme import Choice, Theme
from holeplacer.units import LengthUnit

FORM_WIDTH = 320
RIBBON_HEIGHT = 140
_OPENABLE = f"Artwork and plans (*.dxf *.svg *{PLAN_SUFFIX});;All files (*)"


class MainWindow(QMainWindow):
    """The window."""

    def __init__(self, theme: Theme, settings: QSettings, recovery_folder: Path | None = None):
        super().__init__()
        self.theme, self._settings = theme, settings
        self.session = Session(self)
        self.document = Document(self.session)
        self.proposer = Proposer(self.session)
        self.exporter = Exporter(self.session, self.document)
        self.recovery = Recovery(self.session, self.document, recovery_folder)
        self.recent = RecentFiles(settings, self)
        self.canvas = CanvasView(self.session, theme)
        self.ribbon = RibbonView(self.session, theme)
        self.holes = HoleTable(self.session)
        self.start = StartPage()
        self.message = MessageLine()
        self.status = StatusLine(self.session)
        self.stages = (
            OutlineStage(self.session),
            SheetStage(self.session),
            StandoffsStage(self.session),
            HolesStage(self.session, self.proposer, self.exporter),
        )
        self.rail = Rail(tuple(stage.NAME for stage in self.stages))
        self.forms = QStackedWidget()
        self.findings = FindingList(self.session)
        self._arrange()
        self.menus = Menus(self)
        self._listen()
        self.setAcceptDrops(True)
        self.resize(1280, 800)
        self.resizeDocks([self.form_dock], [FORM_WIDTH], Qt.Orientation.Horizontal)
        self.resizeDocks([self.ribbon_dock], [RIBBON_HEIGHT], Qt.Orientation.Vertical)
        self._restore()
        self._retitle()
        self._show_middle()
        self.start.show_recent(self.recent.paths())
        self.rail.setFocus()

    # --- parts ---

    def _arrange(self) -> None:
        self._middle = QStackedWidget()
        self._middle.addWidget(self.start)
        self._middle.addWidget(self.canvas)
        centre = QWidget()
        column = QVBoxLayout(centre)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.message)
        column.addWidget(self._middle, 1)
        self.setCentralWidget(centre)
        self.setStatusBar(self.status)
        for stage in self.stages:
            self.forms.addWidget(stage)
        form = QWidget()
        below = QVBoxLayout(form)
        below.setContentsMargins(0, 0, 0, 0)
        below.setSpacing(0)
        below.addWidget(self.forms, 1)
        below.addWidget(self.findings)
        form.setMinimumWidth(FORM_WIDTH)
        form.setMaximumWidth(FORM_WIDTH + 160)
        self._form = form
        area = Qt.DockWidgetArea
        self.setCorner(Qt.Corner.BottomRightCorner, area.RightDockWidgetArea)
        self.setCorner(Qt.Corner.BottomLeftCorner, area.LeftDockWidgetArea)
        self._rail_dock = self._dock("Stages", self.rail, area.LeftDockWidgetArea)
        self._rail_dock.setFeatures(QDockWidget.DockWidgetFeature.NoDockWidgetFeatures)
        self._rail_dock.setTitleBarWidget(_NoTitle())
        self.form_dock = self._dock("Outline", form, area.RightDockWidgetArea)
        self.ribbon_dock = self._dock("Strokes", self.ribbon, area.BottomDockWidgetArea)
        self.holes_dock = self._dock("Hole table", self.holes, area.BottomDockWidgetArea)
        self.tabifyDockWidget(self.ribbon_dock, self.holes_dock)
        self.setTabPosition(area.BottomDockWidgetArea, QTabWidget.TabPosition.North)
        for dock in (self.ribbon_dock, self.holes_dock):
            dock.setTitleBarWidget(_NoTitle())  # their tabs name them; the View menu hides them
        self.ribbon_dock.raise_()

    def _dock(self, title: str, content: QWidget, area: Qt.DockWidgetArea) -> QDockWidget:
        dock = QDockWidget(title)
        dock.setObjectName(title)
        dock.setWidget(content)
        self.addDockWidget(area, dock)
        return dock

    def _listen(self) -> None:
        session, document = self.session, self.document
        session.opened.connect(self._opened)
        session.plan_changed.connect(self._show_middle)
        session.problem_changed.connect(self._tell_problem)
        document.changed.connect(self._retitle)
        document.failed.connect(self._tell_error)
        document.was_opened.connect(self.recent.add)
        self.recent.wanted.connect(self.open_file)
        self.recovery.failed.connect(lambda text: self.message.say(Kind.ALERT, text))
        self.exporter.written.connect(self._tell_written)
        self.exporter.failed.connect(self._tell_error)
        self.start.open_wanted.connect(self.ask_open)
        self.start.demo_wanted.connect(self.open_demo)
        self.start.file_wanted.connect(self.open_file)
        self.rail.chosen.connect(self._show_stage)
        self.canvas.pointer_moved.connect(self.status.show_place)
        self.canvas.pointer_left.connect(self.status.forget_place)
        self.canvas.scale_changed.connect(self.status.show_scale)
        self.canvas.menu_wanted.connect(self._show_menu)
        self.status.show_scale(self.canvas.px_per_mm)
        holes = self.stages[-1]
        holes.editor.renumber_wanted.connect(self.canvas.commands.renumber)
        holes.export.drawing_wanted.connect(self.ask_export_drawing)
        holes.export.schedule_wanted.connect(self.ask_export_schedule)
        for stage in self.stages:
            stage.state_changed.connect(self._show_states)
        self._show_stage(0)

    # --- opening and saving ---

    def open_file(self, path: Path) -> None:
        """Open artwork or a plan, once what is open is saved or given up."""
        if self._may_leave():
            self.message.clear()
            self.document.open(path)

    def open_demo(self) -> None:
        """Open the demo, once what is open is saved or given up."""
        if self._may_leave():
            self.message.clear()
            self.document.open_demo()

    def ask_open(self) -> None:
        """Ask which file to open."""
        folder = str(self._settings.value("folder", ""))
        name, _ = QFileDialog.getOpenFileName(self, "Open artwork or plan", folder, _OPENABLE)
        if name:
            self._settings.setValue("folder", str(Path(name).parent))
            self.open_file(Path(name))

    def save(self) -> bool:
        """Save where the plan was saved before; ask where if it never was."""
        if self.document.path is None:
            return self.ask_save()
        return self._save_to(self.document.path)

    def ask_save(self) -> bool:
        """Ask where to save the plan."""
        if self.session.committed is None:
            return False
        source = self.document.source
        suggested = Path(self.document.name).with_suffix(PLAN_SUFFIX).name
        folder = source.parent if source is not None else Path.home()
        name, _ = QFileDialog.getSaveFileName(
            self, "Save plan", str(folder / suggested), f"Plans (*{PLAN_SUFFIX})"
        )
        if not name:
            return False
        path = Path(name)
        return self._save_to(path if path.suffix else path.with_suffix(PLAN_SUFFIX))

    def ask_export_drawing(self) -> None:
        """Ask where to write the drawing."""
        self._ask_export("Export drawing", ".dxf", "Drawings (*.dxf)", self.exporter.write_drawing)

    def ask_export_schedule(self) -> None:
        """Ask where to write the list of holes."""
        self._ask_export("Export hole list", ".csv", "Tables (*.csv)", self.exporter.write_schedule)

    def _ask_export(self, title: str, suffix: str, kinds: str, write: object) -> None:
        if not self.exporter.ready:
            self.session.notice.emit("There are no holes to export yet. Propose them first.")
            return
        name, _ = QFileDialog.getSaveFileName(self, title, self.exporter.suggested(suffix), kinds)
        if name:
            path = Path(name)
            write(path if path.suffix else path.with_suffix(suffix))

    def _save_to(self, path: Path) -> bool:
        saved = self.document.save(path)
        if saved:
            self.message.clear()
            self.session.notice.emit(f"Saved {path.name}.")
        return saved

    def _may_leave(self) -> bool:
        """Whether what is open may go: saved, given up by the person, or unchanged."""
        if not self.document.modified:
            return True
        button = QMessageBox.StandardButton
        answer = QMessageBox.question(
            self,
            "Unsaved changes",
            f"Save the changes to {self.document.name}?",
            button.Save | button.Discard | button.Cancel,
            button.Save,
        )
        if answer == button.Save:
            return self.save()
        return bool(answer == button.Discard)

    # --- what happened ---

    def _opened(self) -> None:
        self._show_middle()
        self.canvas.setFocus()
        self._retitle()

    def _show_middle(self) -> None:
        empty = self.session.plan is None
        self._form.setVisible(not empty)
        self.ribbon.setVisible(not empty)
        shown = self.start if empty else self.canvas
        if self._middle.currentWidget() is not shown:
            self._middle.setCurrentWidget(shown)

    def _retitle(self) -> None:
        name = self.document.name
        self.setWindowTitle(f"{name}[*] - Holeplacer" if name else "Holeplacer")
        self.setWindowModified(self.document.modified and bool(name))

    def _tell_error(self, error: HoleplacerError) -> None:
        self.message.say(Kind.ALERT, str(error))

    def _tell_written(self, path: Path) -> None:
        self.session.notice.emit(f"Wrote {path.name}, read back and checked.")

    def _tell_problem(self) -> None:
        problem = self.session.problem
        if problem is None:
            self.message.clear()
            return
        self.rail.setCurrentRow(0)
        self.form_dock.setVisible(True)
        if isinstance(problem, UnitsMissing):
            self.message.say(Kind.QUESTION, "In which units was this drawn? Choose on the right.")
            return
        undo = self.session.undo_stack
        acts = (("Undo", undo.undo),) if undo.canUndo() else ()
        self.message.say(Kind.ALERT, str(problem), acts)

    def offer_leftovers(self) -> None:
        """Ask, in place, what to do with plans that a crash left unsaved."""
        found = self.recovery.leftovers()
        if found:
            self._offer(found[0])

    def _offer(self, leftover: Leftover) -> None:
        text = f"“{leftover.name}” was not saved when the program last ended."
        self.message.say(
            Kind.QUESTION,
            text,
            (
                ("Recover it", lambda: self._recover(leftover)),
                ("Throw it away", lambda: self._discard(leftover)),
            ),
        )

    def _recover(self, leftover: Leftover) -> None:
        if not self._may_leave():
            self._offer(leftover)
            return
        try:
            self.recovery.recover(leftover)
        except (HoleplacerError, OSError) as error:
            self.message.say(Kind.ALERT, f"It can't be recovered: {error}")

    def _discard(self, leftover: Leftover) -> None:
        self.recovery.discard(leftover)
        self.offer_leftovers()

    # --- stages ---

    def _show_stage(self, row: int) -> None:
        stage = self.stages[row]
        self.forms.setCurrentWidget(stage)
        self.form_dock.setWindowTitle(stage.NAME)
        self.findings.show_rules(stage.RULES)
        stage.refresh_soon()

    def _show_states(self) -> None:
        self.rail.show_states(tuple(stage.state() for stage in self.stages))

    def _show_menu(self, place: QPoint) -> None:
        self.menus.hole.popup(place)

    def propose(self) -> None:
        """Propose holes as the Holes stage has it, or stop proposing."""
        self.rail.setCurrentRow(len(self.stages) - 1)
        self.stages[-1].proposal.act()

    def choose_theme(self, choice: Choice) -> None:
        """Wear these colours, now and next time."""
        self.theme.choose(choice)
        self._settings.setValue("theme", choice.value)

    # --- Qt ---

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        if _dropped(event) is not None:
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        path = _dropped(event)
        if path is not None:
            event.acceptProposedAction()
            # After the drop is over: a question asked here would keep the other program waiting.
            QTimer.singleShot(0, self, lambda: self.open_file(path))

    def closeEvent(self, event: QCloseEvent) -> None:
        if not self._may_leave():
            event.ignore()
            return
        self._settings.setValue("window/place", self.saveGeometry())
        self._settings.setValue("window/parts", self.saveState())
        self._settings.setValue("unit", self.session.unit.value)
        self.session.evaluator.wait()
        self.recovery.close()
        event.accept()

    def _restore(self) -> None:
        place, parts = (self._settings.value(f"window/{name}") for name in ("place", "parts"))
        if place is not None:
            self.restoreGeometry(place)
        if parts is not None:
            self.restoreState(parts)
        unit = self._settings.value("unit", LengthUnit.MM.value)
        self.session.set_unit(LengthUnit.INCH if unit == "in" else LengthUnit.MM)


class _NoTitle(QWidget):
    """Takes the place of a dock's title bar where there is none."""

    def sizeHint(self) -> QSize:
        return QSize(0, 0)

    def minimumSizeHint(self) -> QSize:
        return QSize(0, 0)


def _dropped(event: QDropEvent) -> Path | None:
    urls = [url for url in event.mimeData().urls() if url.isLocalFile()]
    return Path(urls[0].toLocalFile()) if len(urls) == 1 else None
