"""Seam group: the primary act of the Sections stage, its result, and the selected seam."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QSignalBlocker
from PySide6.QtWidgets import QCheckBox, QLabel, QProgressBar, QPushButton

from holeplacer.gui.canvas.seam_commands import SeamCommands
from holeplacer.gui.divider import Divider
from holeplacer.gui.form import ErrorLine, PrimaryButton, WrappedLabel, quiet
from holeplacer.gui.sections_shown import SectionsShown
from holeplacer.gui.stages.stage import Stage
from holeplacer.units import format_length

if TYPE_CHECKING:
    from holeplacer.plan.plan import Plan
    from holeplacer.rules.finding import Finding
    from holeplacer.seams.choice import SeamChoice

_PLACE = "Put a seam on a stroke"
_PLACING = "Click a stroke … (Esc to stop)"


class SeamGroup(QObject):
    """Rows of a form: propose, what it gave, put one by hand, the selected one."""

    def __init__(self, stage: Stage, divider: Divider) -> None:
        super().__init__(stage)
        self._stage, self._divider = stage, divider
        self._shown = SectionsShown.of(stage.session)
        self.commands = SeamCommands(stage.session, self)
        form = stage.form
        form.heading("Seams")
        self.button = PrimaryButton("Propose seams")
        self.button.setToolTip("Fixed seams and all holes stay where they are")
        form.wide(self.button)
        self._bar = QProgressBar()
        self._bar.setTextVisible(False)
        self._bar.setFixedHeight(8)
        self._bar.setAccessibleName("Progress")
        form.wide(self._bar)
        self._working = quiet()
        form.wide(self._working)
        self._result = WrappedLabel()
        form.wide(self._result)
        self._failure = ErrorLine()
        form.wide(self._failure)
        self.place = QPushButton(_PLACE)
        self.place.setCheckable(True)
        form.wide(self.place)
        self._title: QLabel = form.heading("Selected seam")
        self._hint = quiet()
        form.wide(self._hint)
        self._fixed = QCheckBox("Fixed: stays when seams are proposed")
        form.wide(self._fixed)
        self._figures = quiet()
        form.wide(self._figures)
        self._delete = QPushButton("Delete seam")
        form.wide(self._delete)
        self.button.clicked.connect(self.act)
        self.place.clicked.connect(self._toggle_placing)
        self._fixed.clicked.connect(self.commands.toggle_fixed)
        self._delete.clicked.connect(self.commands.delete)
        self._shown.changed.connect(self._show_placing)
        divider.changed.connect(stage.refresh_soon)
        stage.session.busy_changed.connect(self._show_progress)

    def act(self) -> None:
        """Propose seams, or stop proposing."""
        if self._divider.proposing:
            self._divider.stop()
        else:
            self._divider.propose()

    def show_plan(self, plan: Plan) -> None:
        """Show what there is to say of a plan's seams."""
        session = self._stage.session
        ready = session.layout is not None and session.problem is None
        self.button.setEnabled(self._divider.proposing or (ready and bool(plan.sections.stock)))
        self.button.setText("Stop" if self._divider.proposing else "Propose seams")
        self.place.setEnabled(ready)
        failure = self._divider.failure
        self._failure.say("" if failure is None else str(failure))
        self._result.say(self._said(plan))
        self._show_selected(plan)
        self._show_progress()

    def _said(self, plan: Plan) -> str:
        if not plan.sections.stock:
            return "" if plan.seams else "Enter a sheet at hand first; then seams can be proposed."
        if not plan.seams:
            # Told by the rule on seams where it does not fit.
            fits = not any(item.rule == "seams" for item in self._findings())
            return "The sign fits the sheets at hand whole: no seam is needed." if fits else ""
        count = _counted(len(plan.seams), "seam")
        choice = self._divider.choice
        if choice is None:
            fixed = sum(seam.fixed for seam in plan.seams)
            return f"{count}, placed or changed by hand{f'; {fixed} fixed' if fixed else ''}."
        return f"{self._proof(choice)} {count}, {self._weld(choice)}."

    def _proof(self, choice: SeamChoice) -> str:
        sections = _counted(choice.sections, "section")
        if choice.proven:
            return f"✓ {sections}: proven fewest."
        return f"{sections}; at least {choice.lower_bound} are needed."

    def _weld(self, choice: SeamChoice) -> str:
        weld = f"{format_length(choice.weld_mm, self._stage.session.unit)} of weld"
        return f"{weld}, proven the least" if choice.least_cost else weld

    def _findings(self) -> tuple[Finding, ...]:
        evaluation = self._stage.session.evaluation
        return () if evaluation is None else evaluation.findings

    def _show_selected(self, plan: Plan) -> None:
        chosen = sorted(i for i in self._stage.session.selected_seams if i < len(plan.seams))
        one = chosen[0] if len(chosen) == 1 else None
        several = f"{len(chosen)} seams selected" if chosen else "Selected seam"
        self._title.setText(several if one is None else f"Seam {one + 1}")
        self._hint.say(
            "" if chosen or not plan.seams else "Choose a seam on the sign to see it here. Drag it "
            "along its stroke; a double click on a stroke adds one."
        )  # fmt: skip
        self._fixed.setVisible(bool(chosen))
        self._delete.setVisible(bool(chosen))
        self._delete.setText("Delete seam" if one is not None else "Delete seams")
        self._title.setVisible(bool(plan.seams))
        with QSignalBlocker(self._fixed):
            self._fixed.setChecked(bool(chosen) and all(plan.seams[i].fixed for i in chosen))
        self._figures.say("" if one is None else self._figures_of(plan, one))

    def _figures_of(self, plan: Plan, index: int) -> str:
        from holeplacer.gui.canvas.seam_figures import seam_lines

        layout, unit = self._stage.session.layout, self._stage.session.unit
        if layout is None:
            return ""
        lines = seam_lines(plan, layout, plan.seams[index], unit)
        return "\n".join(
            f"{'▲ ' if line.broken else ''}{line.what} {line.figure}"
            + (f" (at least {line.limit.removeprefix('≥ ')})" if line.limit else "")
            for line in lines
        )

    def _toggle_placing(self, on: bool) -> None:
        if on:
            self._shown.place_seam(self.commands.add)
        else:
            self._shown.stop_placing()
        self._show_placing()

    def _show_placing(self) -> None:
        placing = self._shown.placing
        self.place.setChecked(placing)
        self.place.setText(_PLACING if placing else _PLACE)

    def _show_progress(self) -> None:
        working, session = self._divider.working, self._stage.session
        share = session.progress
        self._bar.setVisible(working)
        self._working.say(session.busy if working else "")
        if working:
            self._bar.setRange(0, 0 if share is None else 1000)
            self._bar.setValue(0 if share is None else round(1000 * share))


def _counted(count: int, what: str) -> str:
    return f"1 {what}" if count == 1 else f"{count} {what}s"
