"""Workbench: canvas, forms, ribbon and tables round one session, set up in the main window."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QObject, QPoint, QSize, Qt
from PySide6.QtWidgets import QDockWidget, QStackedWidget, QTabWidget, QVBoxLayout, QWidget

from holeplacer.errors import HoleplacerError, UnitsMissing
from holeplacer.gui.canvas.seam_layer import SeamLayer
from holeplacer.gui.canvas.strength_layer import StrengthLayer
from holeplacer.gui.canvas.view import CanvasView
from holeplacer.gui.canvas.zoom_view import ZoomView
from holeplacer.gui.divider import Divider
from holeplacer.gui.document import Document
from holeplacer.gui.exporter import Exporter
from holeplacer.gui.file_commands import FileCommands
from holeplacer.gui.finding_list import FindingList
from holeplacer.gui.frame import Frame
from holeplacer.gui.hole_table import HoleTable
from holeplacer.gui.limit_state_table import LimitStateTable
from holeplacer.gui.menus import Menus
from holeplacer.gui.message_line import Kind, MessageLine
from holeplacer.gui.own_stock import OwnStock
from holeplacer.gui.proposer import Proposer
from holeplacer.gui.rail import Rail
from holeplacer.gui.reaction_table import ReactionTable
from holeplacer.gui.recovery import Leftover, Recovery
from holeplacer.gui.ribbon.seam_ticks import SeamTicks
from holeplacer.gui.ribbon.strength_lane import StrengthLane
from holeplacer.gui.ribbon.view import RibbonView
from holeplacer.gui.sections_shown import SectionsShown
from holeplacer.gui.session import Session
from holeplacer.gui.sheets.view import SheetsView
from holeplacer.gui.stages.holes import HolesStage
from holeplacer.gui.stages.outline import OutlineStage
from holeplacer.gui.stages.sections import SectionsStage
from holeplacer.gui.stages.sheet import SheetStage
from holeplacer.gui.stages.stage import Stage
from holeplacer.gui.stages.standoffs import StandoffsStage
from holeplacer.gui.stages.strength import StrengthStage
from holeplacer.gui.status_line import StatusLine
from holeplacer.gui.strength_shown import StrengthShown
from holeplacer.gui.theme import Choice
from holeplacer.units import LengthUnit

FORM_WIDTH = 320
RIBBON_HEIGHT = 176  # 140 for the ribbon itself, the rest for tabs and scroll bar
_WIDER = 160


class Workbench(QObject):
    """All parts of the window and what passes between them."""

    def __init__(self, window: Frame, recovery_folder: Path | None) -> None:
        super().__init__(window)
        self.window = window
        self._first_time = True
        self._seen: tuple[QDockWidget, ...] = ()
        self.session = Session(self)
        self.document = Document(self.session)
        self.proposer = Proposer(self.session)
        self.divider = Divider(self.session)
        self.exporter = Exporter(self.session, self.document)
        self.recovery = Recovery(self.session, self.document, recovery_folder)
        self.files = FileCommands(
            window, self.session, self.document, self.exporter, window.settings
        )
        self.canvas = CanvasView(self.session, window.theme)
        self.strength_layer = StrengthLayer(self.session, self.canvas, window.theme)
        self.seam_layer = SeamLayer(self.session, self.canvas, window.theme)
        self.sheets = SheetsView(self.session, self.divider, window.theme)
        self.ribbon = RibbonView(self.session, window.theme)
        self.strength_lane = StrengthLane(self.session, self.ribbon)
        self.seam_ticks = SeamTicks(self.session, self.ribbon)
        self.holes = HoleTable(self.session)
        self.reactions = ReactionTable(self.session)
        self.limit_states = LimitStateTable(self.session)
        self.message = MessageLine()
        self.status = StatusLine(self.session)
        self.hole_stage = HolesStage(self.session, self.proposer, self.exporter)
        self.sections_stage = SectionsStage(self.session, self.divider, self.exporter)
        stock = OwnStock(window.settings, self)
        self.stages: tuple[Stage, ...] = (
            OutlineStage(self.session),
            SheetStage(self.session, stock),
            StandoffsStage(self.session, stock),
            self.hole_stage,
            StrengthStage(self.session),
            self.sections_stage,
        )
        self.rail = Rail(tuple(stage.NAME for stage in self.stages))
        self.findings = FindingList(self.session)
        self._arrange()
        self.menus = Menus(self)
        self._listen()
        self._listen_to_views()
        self._restore()
        self._retitle()
        self._show_middle()
        self._show_stage(0)
        self.rail.setFocus()

    # --- parts ---

    def _arrange(self) -> None:
        window, area = self.window, Qt.DockWidgetArea
        window.column.insertWidget(0, self.message)
        window.middle.addWidget(self.canvas)
        window.middle.addWidget(self.sheets)
        for part in (self.canvas, self.canvas.viewport(), self.sheets, self.sheets.viewport()):
            part.setAcceptDrops(False)  # a graphics view takes every drop; files are the window's
        window.setStatusBar(self.status)
        window.setCorner(Qt.Corner.BottomRightCorner, area.RightDockWidgetArea)
        window.setCorner(Qt.Corner.BottomLeftCorner, area.LeftDockWidgetArea)
        rail = self._dock("Stages", self.rail, area.LeftDockWidgetArea)
        rail.setFeatures(QDockWidget.DockWidgetFeature.NoDockWidgetFeatures)
        rail.setTitleBarWidget(_NoTitle())
        self.form_dock = self._dock("Form", self._forms(), area.RightDockWidgetArea)
        self.ribbon_dock = self._dock("Strokes", self.ribbon, area.BottomDockWidgetArea)
        self.holes_dock = self._dock("Hole table", self.holes, area.BottomDockWidgetArea)
        self.reactions_dock = self._dock("Reactions", self.reactions, area.BottomDockWidgetArea)
        self.states_dock = self._dock(
            "How it is reckoned", self.limit_states, area.BottomDockWidgetArea
        )
        for dock in (self.holes_dock, self.reactions_dock, self.states_dock):
            window.tabifyDockWidget(self.ribbon_dock, dock)
        window.setTabPosition(area.BottomDockWidgetArea, QTabWidget.TabPosition.North)
        for dock in self._below:
            dock.setTitleBarWidget(_NoTitle())  # their tabs name them; the View menu hides them
            dock.setFeatures(QDockWidget.DockWidgetFeature.DockWidgetClosable)
        self.ribbon_dock.raise_()

    @property
    def _below(self) -> tuple[QDockWidget, ...]:
        """What shares the bottom of the window, a tab each."""
        return self.ribbon_dock, self.holes_dock, self.reactions_dock, self.states_dock

    def _dock(self, title: str, content: QWidget, area: Qt.DockWidgetArea) -> QDockWidget:
        dock = QDockWidget(title)
        dock.setObjectName(title)
        dock.setWidget(content)
        self.window.addDockWidget(area, dock)
        return dock

    def _forms(self) -> QWidget:
        """The chosen stage's form, its findings below."""
        self._form = QWidget()
        self.forms = QStackedWidget()
        for stage in self.stages:
            self.forms.addWidget(stage)
        below = QVBoxLayout(self._form)
        below.setContentsMargins(0, 0, 0, 0)
        below.setSpacing(0)
        below.addWidget(self.forms, 1)
        below.addWidget(self.findings)
        self._form.setMinimumWidth(FORM_WIDTH)
        self._form.setMaximumWidth(FORM_WIDTH + _WIDER)
        return self._form

    def _listen(self) -> None:
        session, document, window = self.session, self.document, self.window
        session.opened.connect(self._opened)
        session.plan_changed.connect(self._show_middle)
        session.problem_changed.connect(self._tell_problem)
        document.changed.connect(self._retitle)
        document.failed.connect(self._tell_error)
        document.was_opened.connect(window.recent.add)
        window.recent.wanted.connect(self.files.open_file)
        window.start.open_wanted.connect(self.files.ask_open)
        window.start.demo_wanted.connect(self.files.open_demo)
        window.start.file_wanted.connect(self.files.open_file)
        self.rail.chosen.connect(self._show_stage)
        self.files.begins.connect(self.message.clear)
        self.recovery.failed.connect(self._tell_alert)
        self.exporter.written.connect(self._tell_written)
        self.exporter.failed.connect(self._tell_error)

    def _listen_to_views(self) -> None:
        canvas, ribbon, status = self.canvas, self.ribbon, self.status
        canvas.pointer_moved.connect(status.show_place)
        canvas.pointer_left.connect(status.forget_place)
        canvas.scale_changed.connect(status.show_scale)
        canvas.menu_wanted.connect(self._show_menu)
        canvas.hole_hovered.connect(ribbon.hover_hole)
        ribbon.hole_hovered.connect(canvas.hover_hole)
        ribbon.hole_held.connect(canvas.hold_hole)
        ribbon.place_hovered.connect(status.show_place)
        ribbon.place_hovered.connect(canvas.show_place)
        ribbon.pointer_left.connect(status.forget_place)
        ribbon.pointer_left.connect(canvas.hide_place)
        ribbon.place_hovered.connect(canvas.show_place)
        ribbon.pointer_left.connect(canvas.hide_place)
        ribbon.hole_held.connect(canvas.hold_hole)
        ribbon.menu_wanted.connect(self._show_menu)
        self.seam_layer.hovered_changed.connect(self.seam_ticks.hover)
        self.seam_ticks.hovered_changed.connect(self.seam_layer.hover)
        self.seam_ticks.held_changed.connect(self.seam_layer.hold)
        status.show_scale(canvas.px_per_mm)
        stage = self.hole_stage
        stage.editor.renumber_wanted.connect(canvas.commands.renumber)
        stage.export.drawing_wanted.connect(self.files.ask_export_drawing)
        stage.export.schedule_wanted.connect(self.files.ask_export_schedule)
        self.sections_stage.folder.wanted.connect(self.write_cut_folder)
        self.sheets.pointer_moved.connect(status.show_place)
        self.sheets.pointer_left.connect(status.forget_place)
        self.sheets.scale_changed.connect(status.show_scale)
        SectionsShown.of(self.session).changed.connect(self._show_middle)
        for form in self.stages:
            form.state_changed.connect(self._show_states)

    # --- acts ---

    def propose(self) -> None:
        """Propose holes as the Holes stage has it, or stop proposing."""
        self.rail.setCurrentRow(self.stages.index(self.hole_stage))
        self.hole_stage.proposal.act()

    def propose_seams(self) -> None:
        """Propose seams as the Sections stage has it, or stop proposing."""
        self.rail.setCurrentRow(self.stages.index(self.sections_stage))
        self.sections_stage.seams.act()

    def write_cut_folder(self) -> None:
        """Ask where to write all that goes to the table."""
        found = self.divider.division
        if found is None or found.layout is None:
            self.rail.setCurrentRow(self.stages.index(self.sections_stage))
        self.files.ask_cut_folder(None if found is None else found.layout)

    @property
    def seen(self) -> ZoomView:
        """The view in the middle: the sign or the sheets."""
        return self.sheets if self.window.middle.currentWidget() is self.sheets else self.canvas

    def choose_theme(self, choice: Choice) -> None:
        """Wear these colours, now and next time."""
        self.window.theme.choose(choice)
        self.window.settings.setValue("theme", choice.value)

    def close(self, *, answered: bool = False) -> bool:
        """Leave in good order; False if the person wants to stay.

        Args:
            answered: The person has said what becomes of unsaved changes.
        """
        if not answered and not self.files.may_leave():
            return False
        settings = self.window.settings
        if self.session.plan is not None:  # else the parts are put away, which is no choice
            settings.setValue("window/parts", self.window.saveState())
        settings.setValue("unit", self.session.unit.value)
        self.session.evaluator.wait()
        self.recovery.close()
        return True

    # --- what happened ---

    def _opened(self) -> None:
        self._show_middle()
        self.canvas.setFocus()
        self._retitle()

    def _show_middle(self) -> None:
        """The start page alone, or the canvas with all that stands round it."""
        empty = self.session.plan is None
        on_sheets = SectionsShown.of(self.session).on_sheets
        shown = self.window.start if empty else self.sheets if on_sheets else self.canvas
        if self.window.middle.currentWidget() is shown and not empty:
            return
        was_empty = self.window.middle.currentWidget() is self.window.start
        self.window.middle.setCurrentWidget(shown)
        if not was_empty and not empty:
            return
        docks = (self.form_dock, *self._below)
        if empty:
            self._seen = tuple(dock for dock in docks if not _put_away(dock))
        for dock in self._seen:
            dock.setVisible(not empty)
        self.ribbon_dock.raise_()
        if self._first_time and not empty:
            self._first_time = False
            self.window.resizeDocks([self.form_dock], [FORM_WIDTH], Qt.Orientation.Horizontal)
            self.window.resizeDocks([self.ribbon_dock], [RIBBON_HEIGHT], Qt.Orientation.Vertical)

    def _retitle(self) -> None:
        name = self.document.name
        self.window.setWindowTitle(f"{name}[*] - Holeplacer" if name else "Holeplacer")
        self.window.setWindowModified(self.document.modified and bool(name))

    def _tell_alert(self, text: str) -> None:
        self.message.say(Kind.ALERT, text)

    def _tell_error(self, error: HoleplacerError) -> None:
        self._tell_alert(str(error))

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

    # --- after a crash ---

    def offer_leftovers(self) -> None:
        """Ask, in place, what to do with plans that a crash left unsaved."""
        found = self.recovery.leftovers()
        if found:
            self._offer(found[0])

    def _offer(self, leftover: Leftover) -> None:
        self.message.say(
            Kind.QUESTION,
            f"“{leftover.name}” was not saved when the program last ended.",
            (
                ("Recover it", lambda: self._recover(leftover)),
                ("Throw it away", lambda: self._discard(leftover)),
            ),
        )

    def _recover(self, leftover: Leftover) -> None:
        if not self.files.may_leave():
            self._offer(leftover)
            return
        try:
            self.recovery.recover(leftover)
        except (HoleplacerError, OSError) as error:
            self._tell_alert(f"It can't be recovered: {error}")

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
        StrengthShown.of(self.session).set_open(isinstance(stage, StrengthStage))
        SectionsShown.of(self.session).set_open(stage is self.sections_stage)

    def _show_states(self) -> None:
        self.rail.show_states(tuple(stage.state() for stage in self.stages))

    def _show_menu(self, place: QPoint) -> None:
        menu = self.menus.seam if self.session.selected_seams else self.menus.hole
        menu.popup(place)

    def _restore(self) -> None:
        settings = self.window.settings
        parts = settings.value("window/parts")
        self._first_time = parts is None
        if parts is not None:
            self.window.restoreState(parts)
        inch = settings.value("unit", LengthUnit.MM.value) == LengthUnit.INCH.value
        self.session.set_unit(LengthUnit.INCH if inch else LengthUnit.MM)


def _put_away(dock: QDockWidget) -> bool:
    """Whether the person closed it; one that is not shown yet was not closed."""
    chosen = dock.testAttribute(Qt.WidgetAttribute.WA_WState_ExplicitShowHide)
    return chosen and dock.isHidden()


class _NoTitle(QWidget):
    """Takes the place of a dock's title bar where there is none."""

    def sizeHint(self) -> QSize:
        return QSize(0, 0)

    def minimumSizeHint(self) -> QSize:
        return QSize(0, 0)
