"""Coupon group: the test plate's steps and size, and the hole that fitted, taken into the plan."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QPushButton, QSpinBox

from holeplacer.errors import HoleplacerError
from holeplacer.gui.form import ErrorLine, quiet
from holeplacer.gui.stages.stage import Choice, Stage, Write
from holeplacer.units import format_length

if TYPE_CHECKING:
    from holeplacer.cutting.coupon import Coupon
    from holeplacer.plan.plan import Plan

_MOST_STEPS = 9


class CouponGroup(QObject):
    """Rows of a form."""

    def __init__(self, stage: Stage) -> None:
        super().__init__(stage)
        self._stage = stage
        form = stage.form
        form.heading("Coupon")
        form.wide(
            quiet(
                "A small plate cut first, on the same sheet with the same settings: holes in "
                "steps round the planned one. It is in the cut folder with a slip to fill in."
            )
        )
        self.step = stage.length(
            "Step", lambda plan: plan.sections.coupon.step_mm, _writer("step_mm"),
            least_mm=0.02, most_mm=5.0, step_mm=0.1,
        )  # fmt: skip
        self.steps = QSpinBox()
        self.steps.setRange(1, _MOST_STEPS)
        self.steps.setKeyboardTracking(False)
        form.row("Steps", self.steps, "so many smaller holes than planned, and as many larger")
        stage.length(
            "Plate width", lambda plan: plan.sections.coupon.width_mm, _writer("width_mm"),
            least_mm=1.0, most_mm=2000.0, empty="as needed",
        )  # fmt: skip
        stage.length(
            "Plate height", lambda plan: plan.sections.coupon.height_mm, _writer("height_mm"),
            least_mm=1.0, most_mm=2000.0, empty="as needed",
        )  # fmt: skip
        self._size = quiet()
        form.wide(self._size)
        self._error = ErrorLine()
        form.wide(self._error)
        self.fitted = Choice()
        form.row("It fitted in", self.fitted, "the smallest hole the stud passes freely")
        self.take = QPushButton("Plan with the hole that fitted")
        form.wide(self.take)
        self._label = ""
        self._made: Coupon | None = None
        self.steps.valueChanged.connect(self._choose_steps)
        self.fitted.chosen.connect(self._choose)
        self.take.clicked.connect(self._take)

    def show_plan(self, plan: Plan) -> None:
        """Show the coupon of a plan."""
        from holeplacer.cutting import coupon

        layout, unit = self._stage.session.layout, self._stage.session.unit
        self.steps.blockSignals(True)
        self.steps.setValue(plan.sections.coupon.steps)
        self.steps.blockSignals(False)
        self._made = None
        try:
            self._made = None if layout is None else coupon.planned(plan, layout.outline)
            self._error.say("")
        except HoleplacerError as error:
            self._error.say(str(error))
        made = self._made
        if made is None:
            self._size.say("")
        else:
            width = format_length(made.width_mm, unit).removesuffix(f" {unit.value}")
            self._size.say(
                f"Plate {width} × {format_length(made.height_mm, unit)}, with a slot and the "
                f"least ligament planned, {format_length(made.ligament_mm, unit)}."
            )
        labels = [trial.label for trial in made.holes] if made is not None else []
        if self._label not in labels:
            planned = f"{plan.standoff.hole_mm:.2f}"
            self._label = planned if planned in labels else ""
        self.fitted.offer(((f"marked {label}", label) for label in labels), self._label)
        self.take.setEnabled(bool(self._label))

    def _choose(self, label: object) -> None:
        self._label = str(label)
        self.take.setEnabled(True)

    def _choose_steps(self, steps: int) -> None:
        plan = self._stage.session.committed
        if plan is not None:
            made = replace(plan.sections, coupon=replace(plan.sections.coupon, steps=steps))
            changed = replace(plan, sections=made)
            self._stage.push(changed, f"Try {2 * steps + 1} holes on the coupon", self.steps)

    def _take(self) -> None:
        from holeplacer.cutting import coupon

        plan = self._stage.session.committed
        if plan is None or self._made is None:
            return
        try:
            changed = coupon.chosen(plan, self._made, self._label)
        except HoleplacerError as error:
            self._error.say(str(error))
            return
        hole = format_length(changed.standoff.hole_mm, self._stage.session.unit)
        self._stage.push(changed, f"Plan with the hole that fitted, {hole}")
        self._stage.session.notice.emit(f"The plan's holes are {hole} now.")


def _writer(field: str) -> Write:
    def write(plan: Plan, mm: float | None) -> Plan:
        change: dict[str, Any] = {field: mm}
        made = replace(plan.sections, coupon=replace(plan.sections.coupon, **change))
        return replace(plan, sections=made)

    return write
