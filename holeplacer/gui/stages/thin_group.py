"""Thin group: strokes whose metal is too narrow for any hole, each a button that jumps there."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QPushButton

from holeplacer.gui.form import quiet
from holeplacer.gui.stages.stage import Stage
from holeplacer.units import format_way

if TYPE_CHECKING:
    from holeplacer.evaluation.thin_strokes import ThinStroke
    from holeplacer.plan.plan import Plan

_MOST_SHOWN = 3


class ThinGroup(QObject):
    """Rows of a form."""

    def __init__(self, stage: Stage) -> None:
        super().__init__(stage)
        self._stage = stage
        stage.form.heading("Too thin for a hole")
        self.said = quiet()
        stage.form.wide(self.said)
        self.buttons = tuple(QPushButton() for _ in range(_MOST_SHOWN))
        self._shown: tuple[ThinStroke, ...] = ()
        for index, button in enumerate(self.buttons):
            button.setToolTip("Show it on the sign")
            button.clicked.connect(partial(self._jump, index))
            stage.form.wide(button)

    def show_plan(self, plan: Plan) -> None:
        """Show what is too thin for the hole of a plan."""
        from holeplacer.evaluation import thin_strokes

        layout = self._stage.session.layout
        if layout is None:
            return
        found = thin_strokes.thin_strokes(plan, layout.axis)
        self._shown = found[:_MOST_SHOWN]
        for index, button in enumerate(self.buttons):
            button.setVisible(index < len(self._shown))
            if index < len(self._shown):
                button.setText(self._words(self._shown[index]))
        self.said.say(self._summary(plan, found))

    def _summary(self, plan: Plan, found: tuple[ThinStroke, ...]) -> str:
        from holeplacer.evaluation import thin_strokes

        shown = self._stage.shown
        needs = (
            f"A {shown(plan.standoff.hole_mm)} hole needs "
            f"{shown(thin_strokes.needed_width_mm(plan))} of clear width."
        )
        if not found:
            return f"{needs} Every stroke has it."
        length = sum(item.length_mm for item in found)
        many = "1 place" if len(found) == 1 else f"{len(found)} places"
        way = format_way(length, self._stage.session.unit)
        return f"{needs} In {many}, {way} of stroke in all, there is less:"

    def _words(self, item: ThinStroke) -> str:
        shown = self._stage.shown
        if item.length_mm == 0:
            return f"A dot, {shown(item.width_mm)} wide"
        return f"{shown(item.length_mm)} long, {shown(item.width_mm)} wide on average"

    def _jump(self, index: int) -> None:
        if index < len(self._shown):
            self._stage.session.place_shown.emit(*self._shown[index].xy_mm)
