"""Limits group: what this sheet bears, asked backwards, and the acts that take it."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QSignalBlocker
from PySide6.QtWidgets import QLabel, QProgressBar, QPushButton

from holeplacer.errors import HoleplacerError
from holeplacer.gui.form import ErrorLine, Row, quiet
from holeplacer.gui.sheet_asker import SheetAsker
from holeplacer.gui.stages.stage import Stage
from holeplacer.resistance.utilisation import NOT_ENTERED

if TYPE_CHECKING:
    from holeplacer.placement.gauge_limit import GaugeLimit
    from holeplacer.placement.spacing_limit import SpacingLimit
    from holeplacer.placement.verdict import Verdict
    from holeplacer.plan.plan import Plan

_ASK = "Find largest spacing and thinnest gauge"
_STALE = "The plan has changed since; ask again."


class LimitsGroup(QObject):
    """Rows of a form: the plain strip at once, the rest on request."""

    def __init__(self, stage: Stage) -> None:
        super().__init__(stage)
        self._stage, self._session = stage, stage.session
        self.asker = SheetAsker(stage.session)
        form = stage.form
        self._heading = form.heading("What this sheet bears")
        self._strip = form.row("A plain strip spans", QLabel())
        self.button = QPushButton(_ASK)
        self.button.setToolTip("Tries spacings and gauges under all loads; this takes some seconds")
        form.wide(self.button)
        self._bar = QProgressBar()
        self._bar.setTextVisible(False)
        self._bar.setFixedHeight(8)
        self._bar.setRange(0, 1000)
        self._bar.setAccessibleName("Progress of spacing and gauge")
        form.wide(self._bar)
        self._working = quiet()
        form.wide(self._working)
        self._failure = ErrorLine()
        form.wide(self._failure)
        self.spacing = form.row("Largest spacing", QPushButton())
        self.gauge = form.row("Thinnest gauge", QPushButton())
        self._not_judged = quiet()
        form.wide(self._not_judged)
        self.button.clicked.connect(self.act)
        self._button(self.spacing).clicked.connect(self.asker.take_spacing)
        self._button(self.gauge).clicked.connect(self.asker.take_gauge)
        self.asker.changed.connect(self._follow)
        stage.session.busy_changed.connect(self._show_progress)

    def act(self) -> None:
        """Ask, or stop asking."""
        if self.asker.working:
            self.asker.stop()
        else:
            self.asker.ask()

    def show_plan(self, plan: Plan) -> None:
        """Show the strip's span of this plan, and the answer if it is this plan's."""
        span_mm = self._strip_mm(plan)
        asked = span_mm is not None
        for part in (self._heading, self.button):
            part.setVisible(asked)
        self._strip.show(asked)
        label = self._strip.entry
        if span_mm is not None and isinstance(label, QLabel):
            label.setText(self._stage.shown(span_mm) if math.isfinite(span_mm) else "any length")
            self._strip.say("straight, on two supports: a first idea, not an answer")
        self._show_answer(plan, asked)

    @staticmethod
    def _strip_mm(plan: Plan) -> float | None:
        """None without a wind, or while a figure of it is missing (the findings say which)."""
        from holeplacer.placement import strip_span

        if plan.loading.method == "none":
            return None
        try:
            return strip_span.strip_span_mm(plan)
        except HoleplacerError:
            return None

    def _follow(self) -> None:
        self._stage.refresh_soon()
        self._show_progress()

    def _show_answer(self, plan: Plan, asked: bool) -> None:
        found = self.asker.found if asked else None
        self.spacing.show(found is not None)
        self.gauge.show(found is not None)
        failure = self.asker.failure
        self._failure.say("" if failure is None or not asked else str(failure))
        if found is None:
            self._not_judged.say(_STALE if asked and self.asker.stale else "")
        else:
            self._show_spacing(found.spacing)
            self._show_gauge(plan, found.gauge)
            missing = ", ".join(found.spacing.verdict.not_judged)
            self._not_judged.say(f"Not judged: {missing} (resistance {NOT_ENTERED})."
                                 if missing else "")  # fmt: skip
        self._show_progress()

    def _show_spacing(self, found: SpacingLimit) -> None:
        spacing, overhang = (
            self._stage.shown(found.spacing_mm),
            self._stage.shown(found.overhang_mm),
        )
        if not found.enough:
            self._say(self.spacing, "none", False,
                      f"Even {spacing} is too much: {_governs(found.verdict)}.")  # fmt: skip
            return
        words = f"Overhang {overhang}, {len(found.holes)} holes: {_governs(found.verdict)}."
        if found.beyond is not None and found.beyond_mm is not None:
            words += f" At {self._stage.shown(found.beyond_mm)}: {_governs(found.beyond)}."
        self._say(self.spacing, f"Take {spacing}", True,
                  f"{words} Taken with its holes; free ones are replaced.")  # fmt: skip

    def _show_gauge(self, plan: Plan, found: GaugeLimit | None) -> None:
        if found is None:
            why = "Place holes first." if not plan.holes else "This metal has no gauges."
            self._say(self.gauge, "none", False, why)
            return
        thick = self._stage.shown(found.gauge.thickness_mm)
        if not found.enough:
            self._say(self.gauge, "none", False,
                      f"Even {found.gauge.number} gauge: {_governs(found.verdict)}.")  # fmt: skip
            return
        words = f"{thick}, with the holes where they are: {_governs(found.verdict)}."
        if found.thinner is not None and found.beyond is not None:
            words += f" {found.thinner.number} gauge: {_governs(found.beyond)}."
        self._say(self.gauge, f"Take {found.gauge.number} gauge", True, words)

    def _say(self, row: Row, figure: str, can_take: bool, note: str) -> None:
        button = self._button(row)
        button.setText(figure)
        button.setEnabled(can_take and not self.asker.working)
        button.setAccessibleName(f"{row.label.text()}: {figure}")
        row.say(note)

    @staticmethod
    def _button(row: Row) -> QPushButton:
        assert isinstance(row.entry, QPushButton)  # noqa: S101 (made above)
        return row.entry

    def _show_progress(self) -> None:
        working, share = self.asker.working, self._session.progress
        self.button.setText("Stop" if working else _ASK)
        self.button.setEnabled(self._session.layout is not None)
        self._bar.setVisible(working)
        self._working.say(self._session.busy if working else "")
        with QSignalBlocker(self._bar):
            self._bar.setValue(round(1000 * (share or 0.0)))


def _governs(said: Verdict) -> str:
    """The limit state nearest to failing, with its place and utilisation."""
    state = said.governs
    if state is None:
        return "nothing holds it"
    item = state.utilisation
    at = f" at hole {state.hole}" if state.hole else ""
    memory = f", {item.caveat}" if item.caveat else ""
    return f"{item.check}{at} {said.utilisation:.2f} of 1{memory}"
