"""Movement group: what heat and cold do to every hole, and the hole each piece grows about."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QPushButton

from holeplacer.gui.form import quiet
from holeplacer.gui.stages.fit_table import MEANINGS, FitTable
from holeplacer.gui.stages.stage import Stage
from holeplacer.loads.degrees import format_temperature

if TYPE_CHECKING:
    from holeplacer.evaluation.hole_fit import HoleFit
    from holeplacer.plan.hole import Hole
    from holeplacer.plan.plan import Plan

_MOST_NAMED = 6


class MovementGroup(QObject):
    """Rows of a form."""

    def __init__(self, stage: Stage) -> None:
        super().__init__(stage)
        self._stage = stage
        form = stage.form
        form.heading("Heat and cold")
        self.said = quiet()
        form.wide(self.said)
        self.table = FitTable(stage.session)
        form.wide(self.table)
        self._meanings = quiet()
        form.wide(self._meanings)
        self.of_hole = quiet()
        form.wide(self.of_hole)
        self.about = QPushButton()
        form.wide(self.about)
        self.about.clicked.connect(self._choose)

    def show_plan(self, plan: Plan, fits: tuple[HoleFit, ...]) -> None:
        """Show the movement of a plan's holes.

        Args:
            plan: The plan.
            fits: Its holes against what they need.
        """
        lines = [self._temperatures(plan), *_fixed_points(fits)]
        self.said.say("\n".join([*lines, self.table.unit_words()] if fits else lines))
        self.table.show_fits(fits)
        self._meanings.say(MEANINGS if any(not fit.enough for fit in fits) else "")
        hole = self._selected(plan)
        fit = next((fit for fit in fits if hole is not None and fit.number == hole.number), None)
        self.of_hole.say(self._hole_words(fit) if fit is not None else "")
        self.about.setVisible(hole is not None and fit is not None and fit.about is not None)
        if hole is not None:
            self.about.setText(
                "Propose where it grows about again"
                if hole.fixed_point
                else f"Let it grow about hole {hole.number}"
            )
            self.about.setEnabled(hole.fixed_point or fit is None or fit.about != hole.number)

    def _selected(self, plan: Plan) -> Hole | None:
        chosen = [hole for hole in plan.holes if hole.number in self._stage.session.selected_holes]
        return chosen[0] if len(chosen) == 1 else None

    def _temperatures(self, plan: Plan) -> str:
        unit, temperature = self._stage.session.unit, plan.loading.temperature
        low, high, hung = (
            format_temperature(value, unit)
            for value in (
                temperature.lowest_c,
                temperature.highest_c,
                temperature.installation_c,
            )
        )
        return f"The metal goes from {low} to {high}, hung at {hung}: change it under Strength."

    def _hole_words(self, fit: HoleFit) -> str:
        shown, moves, needed = self._stage.shown, fit.movement, fit.needed
        if fit.about is None:
            return f"Hole {fit.number} lies outside the metal."
        if moves.is_fixed_point:
            return (
                f"Hole {fit.number} stays round: its piece grows and shrinks about it. "
                f"It needs {shown(needed.round_mm)}."
            )
        return (
            f"Hole {fit.number}, {shown(moves.distance_mm)} from hole {fit.about}, moves "
            f"{shown(moves.out_mm)} away from it in heat, {shown(moves.in_mm)} towards it in cold. "
            f"Round it needs {shown(needed.round_mm)}; as a slot "
            f"{shown(needed.slot_width_mm)} × {shown(needed.round_mm)} over all, pointing at hole "
            f"{fit.about} ({_degrees(moves.direction_rad)} from the x axis)."
        )

    def _choose(self) -> None:
        from holeplacer.plan import edit

        plan = self._stage.session.committed
        hole = None if plan is None else self._selected(plan)
        if plan is None or hole is None:
            return
        text = (
            "Propose where the sheet grows about"
            if hole.fixed_point
            else f"Let the sheet grow about hole {hole.number}"
        )
        changed = edit.with_fixed_point(plan, hole.number, not hole.fixed_point)
        self._stage.push(changed, text)


def _fixed_points(fits: tuple[HoleFit, ...]) -> list[str]:
    numbers = [fit.number for fit in fits if fit.movement.is_fixed_point]
    if not numbers:
        return ["Without holes there is nothing to move yet."]
    if len(numbers) == 1:
        return [f"The sheet grows about hole {numbers[0]}, which stays round."]
    named = ", ".join(str(number) for number in numbers[:_MOST_NAMED])
    left = f" and {len(numbers) - _MOST_NAMED} more" if len(numbers) > _MOST_NAMED else ""
    return [f"Each piece grows about one hole, which stays round: {named}{left}."]


def _degrees(radians: float) -> str:
    """A line's direction: 0 to 180 degrees, since a slot has no front."""
    return f"{math.degrees(radians) % 180.0:.0f}°"
