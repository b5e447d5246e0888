"""Menus: every act by name, with its key; keys and context menus are only short cuts to these."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING, Protocol

from PySide6.QtCore import QObject, QSignalBlocker
from PySide6.QtGui import QAction, QActionGroup, QKeySequence
from PySide6.QtWidgets import QMenu, QWhatsThis

from holeplacer.gui.help_text import HelpWindow
from holeplacer.gui.sections_shown import SectionsShown
from holeplacer.gui.strength_shown import StrengthShown
from holeplacer.gui.theme import Choice
from holeplacer.units import LengthUnit

if TYPE_CHECKING:
    from PySide6.QtWidgets import QDockWidget

    from holeplacer.gui.canvas.seam_layer import SeamLayer
    from holeplacer.gui.canvas.view import CanvasView
    from holeplacer.gui.canvas.zoom_view import ZoomView
    from holeplacer.gui.divider import Divider
    from holeplacer.gui.file_commands import FileCommands
    from holeplacer.gui.finding_list import FindingList
    from holeplacer.gui.frame import Frame
    from holeplacer.gui.proposer import Proposer
    from holeplacer.gui.rail import Rail
    from holeplacer.gui.session import Session
    from holeplacer.gui.stages.stage import Stage

Keys = QKeySequence.StandardKey | str | tuple[QKeySequence.StandardKey | str, ...]


class Bench(Protocol):
    """What the menus act on."""

    window: Frame
    session: Session
    files: FileCommands
    proposer: Proposer
    canvas: CanvasView
    seam_layer: SeamLayer
    divider: Divider
    findings: FindingList
    rail: Rail
    stages: tuple[Stage, ...]
    form_dock: QDockWidget
    ribbon_dock: QDockWidget
    holes_dock: QDockWidget
    reactions_dock: QDockWidget
    states_dock: QDockWidget

    @property
    def seen(self) -> ZoomView:
        """The view in the middle: the sign or the sheets."""

    def propose(self) -> None:
        """Propose holes, or stop proposing."""

    def propose_seams(self) -> None:
        """Propose seams, or stop proposing."""

    def write_cut_folder(self) -> None:
        """Ask where to write all that goes to the table."""

    def choose_theme(self, choice: Choice) -> None:
        """Wear these colours."""


class Menus(QObject):
    """The menu bar's menus.

    Attributes:
        hole: Acts on the selected holes; also the canvas's context menu.
        seam: Acts on the selected seams; its context menu.
    """

    def __init__(self, bench: Bench) -> None:
        super().__init__(bench.window)
        self._bench = bench
        self._needs_plan: list[QAction] = []
        self._needs_selection: list[QAction] = []
        file, edit, view, self.hole, self.seam, help_ = bench.window.titles
        self._file(file)
        self._edit(edit)
        self._view(view)
        self._hole(self.hole)
        self._seam(self.seam)
        self._help(help_)
        session = bench.session
        session.plan_changed.connect(self._enable)
        session.selection_changed.connect(self._enable)
        session.unit_changed.connect(self._tick_unit)
        bench.proposer.changed.connect(self._enable)
        bench.divider.changed.connect(self._enable)
        self._enable()
        self._tick_unit()

    def _file(self, menu: QMenu) -> None:
        window, files, key = self._bench.window, self._bench.files, QKeySequence.StandardKey
        self._act(menu, "&Open …", files.ask_open, key.Open)
        menu.addMenu(window.recent)
        self._act(menu, "Open the &demo", files.open_demo)
        menu.addSeparator()
        self._act(menu, "&Save plan", files.save, key.Save, plan=True)
        self._act(menu, "Save plan &as …", files.ask_save, (key.SaveAs, "Ctrl+Shift+S"), plan=True)
        menu.addSeparator()
        self._act(menu, "&Export drawing (DXF) …", files.ask_export_drawing, "Ctrl+E", plan=True)
        self._act(menu, "Export hole &list (CSV) …", files.ask_export_schedule, "Ctrl+Shift+E",
                  plan=True)  # fmt: skip
        self._act(menu, "Write the &cut folder …", self._bench.write_cut_folder, "Ctrl+Alt+E",
                  plan=True)  # fmt: skip
        menu.addSeparator()
        self._act(menu, "&Quit", window.close, (key.Quit, "Ctrl+Q"))

    def _edit(self, menu: QMenu) -> None:
        bench, key = self._bench, QKeySequence.StandardKey
        undo = bench.session.undo_stack.createUndoAction(menu, "&Undo")
        redo = bench.session.undo_stack.createRedoAction(menu, "&Redo")
        undo.setShortcuts(key.Undo)
        redo.setShortcuts(_sequences((key.Redo, "Ctrl+Y")))
        menu.addActions([undo, redo])
        menu.addSeparator()
        self._act(menu, "Select &all holes", bench.canvas.commands.select_all, key.SelectAll,
                  plan=True)  # fmt: skip
        self._act(menu, "Select &nothing", lambda: bench.session.select_holes(()),
                  (key.Deselect, "Ctrl+Shift+A"), plan=True)  # fmt: skip

    def _view(self, menu: QMenu) -> None:
        bench, key, canvas = self._bench, QKeySequence.StandardKey, self._bench.canvas
        self._act(menu, "Zoom &in", lambda: bench.seen.zoom_in(), (key.ZoomIn, "Ctrl+="))
        self._act(menu, "Zoom &out", lambda: bench.seen.zoom_out(), key.ZoomOut)
        self._act(menu, "&Fit the sign", lambda: bench.seen.fit(), "Ctrl+0")
        self._act(menu, "Fit the s&election", canvas.fit_selection, "Ctrl+9")
        menu.addSeparator()
        self._tick(menu, "&Grid", canvas.set_grid, canvas.grid, "Ctrl+G")
        self._tick(menu, "Medial &axis", canvas.set_axis_shown, False, "Ctrl+Shift+M")
        shown = StrengthShown.of(bench.session)
        self._tick(menu, "S&trength on the sign", shown.set_pinned, shown.pinned, "Ctrl+Shift+L")
        measure = self._tick(menu, "&Measure", canvas.set_measuring, False, "Ctrl+M")
        canvas.measuring_changed.connect(measure.setChecked)
        menu.addSeparator()
        for dock, keys in (
            (bench.form_dock, "F6"), (bench.ribbon_dock, "F7"), (bench.holes_dock, "Shift+F7"),
            (bench.reactions_dock, "Ctrl+F7"), (bench.states_dock, "Ctrl+Shift+F7"),
        ):  # fmt: skip
            action = dock.toggleViewAction()
            action.setShortcut(keys)
            menu.addAction(action)
        stages = menu.addMenu("&Stage")
        for row, stage in enumerate(bench.stages):
            choose = partial(bench.rail.setCurrentRow, row)
            self._act(stages, f"&{row + 1} {stage.NAME}", choose, f"Alt+{row + 1}")
        self._units(menu.addMenu("&Units"))
        self._theme(menu.addMenu("&Colours"))

    def _units(self, menu: QMenu) -> None:
        group = QActionGroup(menu)
        self._unit_actions = {}
        for text, unit in (("&Millimetres", LengthUnit.MM), ("&Inches", LengthUnit.INCH)):
            action = menu.addAction(text)
            action.setCheckable(True)
            action.triggered.connect(
                lambda _on=False, unit=unit: self._bench.session.set_unit(unit)
            )
            group.addAction(action)
            self._unit_actions[unit] = action

    def _theme(self, menu: QMenu) -> None:
        group = QActionGroup(menu)
        bench = self._bench
        for text, choice in (
            ("As the &system", Choice.SYSTEM), ("&Light", Choice.LIGHT), ("&Dark", Choice.DARK),
        ):  # fmt: skip
            action = menu.addAction(text)
            action.setCheckable(True)
            action.setChecked(choice is bench.window.theme.choice)
            action.triggered.connect(lambda _on=False, choice=choice: bench.choose_theme(choice))
            group.addAction(action)

    def _hole(self, menu: QMenu) -> None:
        bench, canvas, key = self._bench, self._bench.canvas, QKeySequence.StandardKey
        commands = canvas.commands
        self._propose = self._act(menu, "&Propose holes", bench.propose, "Ctrl+Return", plan=True)
        menu.addSeparator()
        self._act(menu, "&Add at the pointer", canvas.add_at_pointer, "Ins", plan=True)
        self._delete = self._act(menu, "&Delete", self._delete_selected, key.Delete)
        self._fix = self._act(menu, "&Fix or free", self._fix_selected, "Ctrl+K")
        self._act(menu, "&Number …", canvas.edit_number, "F2", selection=True)
        menu.addSeparator()
        self._act(menu, "Number all from &left to right", commands.renumber, plan=True)
        self._act(menu, "N&ext finding", lambda: bench.findings.step(1), "F8", plan=True)
        self._act(menu, "P&revious finding", lambda: bench.findings.step(-1), "Shift+F8",
                  plan=True)  # fmt: skip

    def _seam(self, menu: QMenu) -> None:
        bench = self._bench
        shown = SectionsShown.of(bench.session)
        self._propose_seams = self._act(
            menu, "&Propose seams", bench.propose_seams, "Ctrl+Shift+Return", plan=True
        )
        menu.addSeparator()
        self._act(menu, "P&ut one on a stroke",
                  lambda: shown.place_seam(bench.seam_layer.commands.add), "Shift+Ins",
                  plan=True)  # fmt: skip
        menu.addAction(self._delete)
        menu.addAction(self._fix)
        menu.addSeparator()
        self._sheets = self._tick(menu, "Look at the &sheets", self._look_at_sheets, False,
                                  "Ctrl+Shift+B")  # fmt: skip
        shown.changed.connect(self._tick_sheets)

    def _tick_sheets(self) -> None:
        """Show where one is, without choosing it: leaving the stage keeps the choice."""
        with QSignalBlocker(self._sheets):
            self._sheets.setChecked(SectionsShown.of(self._bench.session).on_sheets)

    def _look_at_sheets(self, on: bool) -> None:
        bench = self._bench
        if on:
            row = next(row for row, stage in enumerate(bench.stages) if stage.NAME == "Sections")
            bench.rail.setCurrentRow(row)
        SectionsShown.of(bench.session).set_on_sheets(on)

    def _delete_selected(self) -> None:
        bench = self._bench
        seams = bench.session.selected_seams
        (bench.seam_layer.commands if seams else bench.canvas.commands).delete()

    def _fix_selected(self) -> None:
        bench = self._bench
        seams = bench.session.selected_seams
        (bench.seam_layer.commands if seams else bench.canvas.commands).toggle_fixed()

    def _help(self, menu: QMenu) -> None:
        self._help_window: HelpWindow | None = None
        key = QKeySequence.StandardKey
        self._act(menu, "&How to work with this", self._show_help, key.HelpContents)
        self._act(menu, "&What is this?", QWhatsThis.enterWhatsThisMode, "Shift+F1")

    def _show_help(self) -> None:
        if self._help_window is None:
            self._help_window = HelpWindow(self._bench.window)
        self._help_window.show()
        self._help_window.raise_()
        self._help_window.activateWindow()

    def _act(
        self,
        menu: QMenu,
        text: str,
        act: Callable[[], object],
        keys: Keys = (),
        *,
        plan: bool = False,
        selection: bool = False,
    ) -> QAction:
        action = menu.addAction(text)
        action.triggered.connect(lambda _on=False: act())
        action.setShortcuts(_sequences(keys))
        if plan:
            self._needs_plan.append(action)
        if selection:
            self._needs_selection.append(action)
        return action

    def _tick(
        self, menu: QMenu, text: str, switch: Callable[[bool], object], on: bool, keys: Keys
    ) -> QAction:
        action = menu.addAction(text)
        action.setCheckable(True)
        action.setChecked(on)
        action.toggled.connect(switch)
        action.setShortcuts(_sequences(keys))
        return action

    def _enable(self) -> None:
        session = self._bench.session
        for action in self._needs_plan:
            action.setEnabled(session.plan is not None)
        for action in self._needs_selection:
            action.setEnabled(bool(session.selected_holes))
        for action in (self._delete, self._fix):
            action.setEnabled(bool(session.selected_holes or session.selected_seams))
        self._propose_seams.setText("Stop &proposing" if self._bench.divider.proposing
                                    else "&Propose seams")  # fmt: skip
        self._propose.setText("Stop &proposing" if self._bench.proposer.working
                              else "&Propose holes")  # fmt: skip

    def _tick_unit(self) -> None:
        self._unit_actions[self._bench.session.unit].setChecked(True)


def _sequences(keys: Keys) -> list[QKeySequence]:
    """All key sequences meant, each once; a standard key brings those of the platform."""
    found: list[QKeySequence] = []
    for key in keys if isinstance(keys, tuple) else (keys,):
        if isinstance(key, QKeySequence.StandardKey):
            meant = QKeySequence.keyBindings(key)
        else:
            meant = [QKeySequence(key)]
        found += [sequence for sequence in meant if sequence not in found]
    return found
