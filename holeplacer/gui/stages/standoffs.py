"""Standoffs: hardware from the table or one's own, the hole it needs, and what heat does to it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from holeplacer.gui.own_stock import OwnStock
from holeplacer.gui.rail import StageState
from holeplacer.gui.session import Session
from holeplacer.gui.stages.fit_group import FitGroup
from holeplacer.gui.stages.hardware_group import HardwareGroup
from holeplacer.gui.stages.movement_group import MovementGroup
from holeplacer.gui.stages.stage import Stage

if TYPE_CHECKING:
    from holeplacer.plan.plan import Plan


class StandoffsStage(Stage):
    """The hardware that holds the sheet off the wall."""

    NAME = "Standoffs"

    def __init__(self, session: Session, stock: OwnStock) -> None:
        super().__init__(session)
        self.hardware = HardwareGroup(self, stock)
        self.fit = FitGroup(self)
        self.movement = MovementGroup(self)
        self.form.end()
        stock.changed.connect(self.refresh_soon)

    def state(self) -> StageState:
        plan = self.session.plan
        if plan is None:
            return StageState(self.NAME)
        figure = f"hole {self.shown(plan.standoff.hole_mm)}"
        return StageState(self.NAME, figure, self.open_findings(), ready=True)

    def show_plan(self, plan: Plan) -> None:
        from holeplacer.evaluation import hole_fit

        if not self.isVisible():  # what is not seen may lag behind: being shown fills it
            return
        layout = self.session.layout
        fits = () if layout is None else hole_fit.hole_fits(plan, layout.outline)
        self.hardware.show_plan(plan)
        self.fit.show_plan(plan, fits)
        self.movement.show_plan(plan, fits)
