"""Strength result: largest deflection, worst stress, worst utilisation; each jumps to its place."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QPushButton

from holeplacer.documents import caution
from holeplacer.gui.form import ErrorLine, Row, quiet
from holeplacer.gui.stages.stage import Stage
from holeplacer.gui.strength_words import (
    format_stress,
    not_known,
    share_words,
    status_words,
    worst_known,
)
from holeplacer.gui.wording import in_unit
from holeplacer.loads.force import format_force
from holeplacer.loads.pressure import format_pressure
from holeplacer.resistance.utilisation import NOT_ENTERED
from holeplacer.units import format_length

if TYPE_CHECKING:
    from holeplacer.plan.plan import Plan
    from holeplacer.rules.limit_states import LimitState
    from holeplacer.rules.strength import Strength

Place = tuple[float, float]


class JumpButton(QPushButton):
    """A figure; pressed, the window shows its place."""

    def __init__(self, name: str) -> None:
        super().__init__()
        self._name = name
        self.place: Place | None = None
        self.hole = 0
        self.setToolTip("Show where")

    def show_figure(self, figure: str, place: Place, hole: int = 0) -> None:
        """Show another figure and its place."""
        self.place, self.hole = place, hole
        self.setText(figure)
        self.setAccessibleName(f"{self._name} {figure}, show where")


class StrengthResult(QObject):
    """Rows of a form: the figures, the caution, or why there are none."""

    def __init__(self, stage: Stage) -> None:
        super().__init__(stage)
        self._session = stage.session
        form = stage.form
        self._heading = form.heading("Result")
        self._at = quiet()
        form.wide(self._at)
        self._rows: dict[str, tuple[Row, JumpButton]] = {}
        for name in ("Largest deflection", "Worst stress", "Worst utilisation", "Largest pull",
                     "Largest push"):  # fmt: skip
            button = JumpButton(name)
            self._rows[name] = form.row(name, button), button
            button.clicked.connect(lambda _on=False, button=button: self._jump(button))
        self._why = ErrorLine()
        form.wide(self._why)
        self._missing_words = quiet()
        form.wide(self._missing_words)
        self._caution = quiet(caution.SHORT)
        form.wide(self._caution)

    def show_plan(self, plan: Plan) -> None:
        """Show the figures of the session's evaluation."""
        evaluation = self._session.evaluation
        found = None if evaluation is None else evaluation.strength
        self._heading.setVisible(plan.loading.method != "none")
        self._caution.setVisible(found is not None)
        self._at.setVisible(found is not None)
        self._missing_words.setVisible(found is not None)
        for row, _button in self._rows.values():
            row.show(found is not None)
        self._why.say(self._missing(plan) if found is None else "")
        if found is not None:
            self._show(plan, found)

    def _missing(self, plan: Plan) -> str:
        """What still has to be entered; empty where no wind is chosen."""
        evaluation = self._session.evaluation
        if plan.loading.method == "none" or evaluation is None:
            return ""
        said = [item for item in evaluation.findings if item.rule == "strength"]
        return in_unit(said[0].message, self._session.unit) if said else ""

    def _show(self, plan: Plan, found: Strength) -> None:
        unit = self._session.unit
        responses, pressure = found.effects.wind, found.effects.pressure
        most = max(responses, key=lambda response: response.max_deflection_mm)
        off = format_pressure(pressure.out_pa, unit)
        on = format_pressure(pressure.in_pa, unit)
        self._say(
            "Largest deflection", format_length(most.max_deflection_mm, unit),
            f"{most.name}; {self._limit_words(plan)}", most.at_mm,
        )  # fmt: skip
        most = max(responses, key=lambda response: response.max_stress_mpa)
        self._say("Worst stress", format_stress(most.max_stress_mpa, unit),
                  f"in the wind, {most.name}; bending and torsion", most.stress_at_mm)  # fmt: skip
        self._show_worst(worst_known(found))
        missing = not_known(found)
        self._missing_words.say(
            f"Not judged: {', '.join(missing)} (resistance {NOT_ENTERED})." if missing else ""
        )
        self._show_forces(plan, found)
        self._at.say(f"At {off} off the wall and {on} on to it.")

    def _limit_words(self, plan: Plan) -> str:
        loading = plan.loading
        if loading.deflection_limit_mm is not None:
            return f"at most {format_length(loading.deflection_limit_mm, self._session.unit)}"
        return (f"at most span/{loading.deflection_ratio:g}, "
                f"overhang/{loading.overhang_ratio:g}")  # fmt: skip

    def _show_worst(self, worst: LimitState | None) -> None:
        row, _button = self._rows["Worst utilisation"]
        row.show(worst is not None)
        if worst is None:
            return
        item = worst.utilisation
        of = f"hole {worst.hole}" if worst.hole else "the sheet"
        words = (f"{item.check}, {of}, {worst.case}; at most 1. {item.source}; "
                 f"{status_words(item.status)}")  # fmt: skip
        mark = "✕ " if item.passes is False else ""
        figure = f"{mark}{share_words(item.utilisation)}"
        self._say("Worst utilisation", figure, words, worst.at_mm, worst.hole)

    def _show_forces(self, plan: Plan, found: Strength) -> None:
        unit = self._session.unit
        forces = [
            (force, hole, response.name)
            for response in found.effects.wind
            for force, hole in zip(response.reactions_n, plan.holes, strict=False)
        ]
        for name, sign, of in (("Largest pull", 1, "stud"), ("Largest push", -1, "wall")):
            felt = [item for item in forces if sign * item[0] > 0]
            self._rows[name][0].show(bool(felt))
            if felt:
                force, hole, case = max(felt, key=lambda item: abs(item[0]))
                self._say(name, format_force(abs(force), unit),
                          f"on the {of} at hole {hole.number}, {case}",
                          (hole.x_mm, hole.y_mm), hole.number)  # fmt: skip

    def _say(self, name: str, figure: str, note: str, place: Place, hole: int = 0) -> None:
        row, button = self._rows[name]
        button.show_figure(figure, place, hole)
        row.say(note)

    def _jump(self, button: JumpButton) -> None:
        if button.hole:
            self._session.select_holes({button.hole})
        if button.place is not None:
            self._session.place_shown.emit(*button.place)
