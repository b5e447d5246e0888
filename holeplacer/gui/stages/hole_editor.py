"""Hole editor: number, place, diameter and fixing of the selected hole, typed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QSignalBlocker, Signal
from PySide6.QtWidgets import QCheckBox, QLabel, QPushButton, QSpinBox

from holeplacer.errors import HoleplacerError
from holeplacer.gui.form import ErrorLine, Form, quiet
from holeplacer.gui.length_field import LengthField
from holeplacer.gui.session import Session
from holeplacer.units import format_length

if TYPE_CHECKING:
    from holeplacer.plan.hole import Boss, Hole
    from holeplacer.plan.plan import Plan

_MOST = 9999


class HoleEditor(QObject):
    """Rows of a form for the one selected hole; for several, what they share.

    Attributes:
        renumber_wanted: All holes are to be numbered from left to right.
    """

    renumber_wanted = Signal()

    def __init__(self, form: Form, session: Session) -> None:
        super().__init__(form)
        self._session = session
        self._title: QLabel = form.heading("Selected hole")
        self._hint = quiet()
        form.wide(self._hint)
        self._number = QSpinBox()
        self._number.setRange(1, _MOST)
        self._number.setKeyboardTracking(False)
        self._x = LengthField("Hole x", least_mm=-1e5)
        self._y = LengthField("Hole y", least_mm=-1e5)
        self._diameter = LengthField("Hole diameter", least_mm=0.5, most_mm=100, empty="as all")
        self._rows = [
            form.row("Number", self._number),
            form.row("x", self._x),
            form.row("y", self._y),
            form.row("Diameter", self._diameter),
        ]
        self._figures = quiet()
        form.wide(self._figures)
        self._fixed = QCheckBox("Fixed: stays when holes are proposed")
        form.wide(self._fixed)
        self._boss = QPushButton("Swell the stroke round it (boss)")
        form.wide(self._boss)
        self._error = ErrorLine()
        form.wide(self._error)
        self._renumber = QPushButton("Number all from left to right")
        form.wide(self._renumber)
        self._renumber.clicked.connect(self.renumber_wanted)
        self._number.valueChanged.connect(self._renumbered)
        self._x.entered.connect(self._moved)
        self._y.entered.connect(self._moved)
        self._diameter.entered.connect(self._resized)
        self._fixed.toggled.connect(self._fix)
        self._boss.clicked.connect(self._swell)

    def show_plan(self, plan: Plan) -> None:
        """Show the selected hole of a plan."""
        chosen = [hole for hole in plan.holes if hole.number in self._session.selected_holes]
        one = chosen[0] if len(chosen) == 1 else None
        for row in self._rows:
            row.show(one is not None)
        self._fixed.setVisible(bool(chosen))
        self._boss.setVisible(one is not None)
        self._renumber.setVisible(bool(plan.holes) and one is None)
        several = f"{len(chosen)} holes selected" if chosen else "Selected hole"
        self._title.setText(several if one is None else f"Hole {one.number}")
        self._hint.say("" if chosen else "Choose a hole on the sign to see it here. A double "
                                         "click on a stroke adds one.")  # fmt: skip
        with QSignalBlocker(self._fixed):
            self._fixed.setChecked(bool(chosen) and all(hole.fixed for hole in chosen))
        if one is not None:
            self._show_hole(plan, one)
        self._figures.say(self._said_of(one))

    def _show_hole(self, plan: Plan, hole: Hole) -> None:
        for field in (self._x, self._y, self._diameter):
            field.set_unit(self._session.unit)
        with QSignalBlocker(self._number):
            self._number.setValue(hole.number)
        self._x.set_mm(hole.x_mm)
        self._y.set_mm(hole.y_mm)
        self._diameter.set_mm(hole.diameter_mm)
        self._diameter.set_empty_text(format_length(plan.standoff.hole_mm, self._session.unit))
        swollen = self._boss_at(plan, hole) is not None
        self._boss.setText("Take the boss away" if swollen else "Swell the stroke round it (boss)")

    def _said_of(self, hole: Hole | None) -> str:
        evaluation, unit = self._session.evaluation, self._session.unit
        if hole is None or evaluation is None:
            return ""
        for figures in evaluation.holes:
            if figures.number == hole.number:
                lines = [
                    (
                        f"edge distance {format_length(figures.edge_distance_mm, unit)} "
                        f"(at least {format_length(figures.limit_mm, unit)})"
                    ),
                    f"ligament {format_length(figures.ligament_mm, unit)}",
                ]
                lines += [
                    f"span to hole {number}: {format_length(length, unit)}"
                    for length, number in figures.spans
                ]
                return "\n".join(lines)
        return ""

    def _only(self) -> tuple[Plan, Hole] | None:
        plan, chosen = self._session.committed, self._session.selected_holes
        if plan is None or len(chosen) != 1:
            return None
        held = [hole for hole in plan.holes if hole.number in chosen]
        return (plan, held[0]) if held else None

    def _moved(self) -> None:
        from holeplacer.plan import edit

        found = self._only()
        if found is None or self._x.mm is None or self._y.mm is None:
            return
        plan, hole = found
        moved = edit.with_hole_moved(plan, hole.number, self._x.mm, self._y.mm)
        self._session.push(moved, f"Move hole {hole.number}")

    def _renumbered(self, new: int) -> None:
        from holeplacer.plan import edit

        found = self._only()
        if found is None or found[1].number == new:
            return
        plan, hole = found
        self._session.push(
            edit.with_hole_numbered(plan, hole.number, new), f"Number hole {hole.number} as {new}"
        )
        self._session.select_holes({new})

    def _resized(self, mm: float | None, _stepped: bool) -> None:
        from holeplacer.plan import edit

        found = self._only()
        if found is not None:
            plan, hole = found
            self._session.push(
                edit.with_hole_diameter(plan, hole.number, mm),
                f"Set diameter of hole {hole.number}",
            )

    def _fix(self, fixed: bool) -> None:
        from holeplacer.plan import edit

        plan, chosen = self._session.committed, sorted(self._session.selected_holes)
        if plan is None or not chosen:
            return
        for number in chosen:
            plan = edit.with_hole_fixed(plan, number, fixed)
        what = f"hole {chosen[0]}" if len(chosen) == 1 else f"{len(chosen)} holes"
        self._session.push(plan, f"{'Fix' if fixed else 'Free'} {what}")

    def _swell(self) -> None:
        from holeplacer.plan import edit
        from holeplacer.plan.hole import Boss
        from holeplacer.rules import edge_distance

        found = self._only()
        if found is None:
            return
        plan, hole = found
        present = self._boss_at(plan, hole)
        try:
            if present is not None:
                changed = edit.without_boss(plan, present)
                self._session.push(changed, f"Take the boss from hole {hole.number}")
                return
            radius = edge_distance.limit(plan, plan.diameter_of(hole))
            boss = Boss(hole.x_mm, hole.y_mm, radius, radius)
            self._session.push(edit.with_boss(plan, boss), f"Put a boss round hole {hole.number}")
        except HoleplacerError as error:
            self._error.say(str(error))

    def _boss_at(self, plan: Plan, hole: Hole) -> Boss | None:
        return next((boss for boss in plan.bosses
                     if (boss.x_mm, boss.y_mm) == (hole.x_mm, hole.y_mm)), None)  # fmt: skip
