"""Sheet: metal, gauge, thickness, finish, what it weighs, how it is cut, what is too thin."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from holeplacer.gui.form import quiet
from holeplacer.gui.own_stock import OwnStock
from holeplacer.gui.rail import StageState
from holeplacer.gui.session import Session
from holeplacer.gui.stages.finish_group import FinishGroup
from holeplacer.gui.stages.mass_group import MassGroup
from holeplacer.gui.stages.metal_group import MetalGroup
from holeplacer.gui.stages.stage import Choice, Stage
from holeplacer.gui.stages.thin_group import ThinGroup
from holeplacer.units import LengthUnit

if TYPE_CHECKING:
    from holeplacer.plan.plan import Plan
    from holeplacer.sheet.gauge import Gauge
    from holeplacer.sheet.metal import Metal
    from holeplacer.sheet.process import Process

_OWN = "own thickness"


class SheetStage(Stage):
    """The sheet the sign is cut from."""

    NAME = "Sheet"
    RULES = ("process",)

    def __init__(self, session: Session, stock: OwnStock) -> None:
        super().__init__(session)
        self._stock = stock
        form = self.form
        form.heading("Metal")
        self._metal = Choice()
        self._gauge = Choice()
        self._metal_row = form.row("Metal", self._metal)
        self._gauge_row = form.row("Gauge", self._gauge)
        self._thickness = self.length(
            "Thickness",
            lambda plan: plan.sheet.thickness_mm,
            _with_thickness,
            least_mm=0.2,
            most_mm=25.0,
            step_mm=0.1,
        )
        self.figures = MetalGroup(self, stock)
        self.finish = FinishGroup(self)
        self.mass = MassGroup(self)
        self.thin = ThinGroup(self)
        form.heading("Cutting")
        self._process = Choice()
        self._process_row = form.row("Process", self._process)
        self._least = quiet()
        form.wide(self._least)
        form.end()
        self._metal.chosen.connect(self._choose_metal)
        self._gauge.chosen.connect(self._choose_gauge)
        self._process.chosen.connect(self._choose_process)
        stock.changed.connect(self.refresh_soon)

    def state(self) -> StageState:
        plan = self.session.plan
        if plan is None:
            return StageState(self.NAME)
        gauge = f"{plan.sheet.gauge} ga " if plan.sheet.gauge is not None else ""
        figure = f"{gauge}{plan.sheet.metal}, {self.shown(plan.sheet.thickness_mm)}"
        return StageState(self.NAME, figure, self.open_findings(), ready=True)

    def show_plan(self, plan: Plan) -> None:
        from holeplacer.sheet import process

        if not self.isVisible():  # what is not seen may lag behind: being shown fills it
            return
        self._show_metal(plan)
        self.figures.show_plan(plan)
        self.finish.show_plan(plan)
        self.mass.show_plan(plan)
        self.thin.show_plan(plan)
        self._process.offer(((item.title, item.name) for item in process.processes()),
                            plan.sheet.process)  # fmt: skip
        self._say_least(plan, process.process(plan.sheet.process))

    def _show_metal(self, plan: Plan) -> None:
        from holeplacer.sheet import gauge

        metal = plan.sheet.material
        self._metal.offer([(item.name, item) for item in self._metals(plan)], metal)
        self._metal_row.say(metal.alloy)
        rows = gauge.gauges(metal.gauge_series)
        entries = [(f"{row.number} ga, {self._thickness_of(row)}", row.number) for row in rows]
        self._gauge.offer([*entries, (_OWN, None)], plan.sheet.gauge)
        self._gauge_row.show(bool(rows))
        source = next((row for row in rows if row.number == plan.sheet.gauge), None)
        self._thickness.say(
            f"{source.source}{_unverified(source.status)}"
            if source is not None
            else "entered by you; measure the sheet at hand"
        )

    def _metals(self, plan: Plan) -> list[Metal]:
        """The table's, those kept, and the plan's own if it is none of them."""
        from holeplacer.sheet import metal

        offered = [*metal.metals(), *self._stock.metals()]
        own = plan.sheet.own_metal
        if own is None or own in offered:
            return offered
        return [*(item for item in offered if item.name != own.name), own]

    def _thickness_of(self, row: Gauge) -> str:
        if self.session.unit is LengthUnit.INCH:
            return f"{row.thickness_in:.4f} in"
        return f"{row.thickness_mm:.2f} mm"

    def _say_least(self, plan: Plan, process: Process) -> None:
        thickness = plan.sheet.thickness_mm
        hole = process.least_hole_mm(thickness)
        lines = [
            "Every hole is drilled."
            if hole is None
            else f"Least hole {self.shown(hole)}; yours are {self.shown(plan.standoff.hole_mm)}.",
            f"Least ligament {self.shown(process.least_ligament_mm(thickness))}.",
            f"Kerf {self.shown(process.kerf_mm(thickness))} at this thickness.",
        ]
        self._least.say("\n".join(lines))
        self._process_row.say(f"{process.source}{_unverified(process.status)}")

    def _choose_metal(self, metal: Metal) -> None:
        """A gauge means another thickness in every metal: both change in one step."""
        from holeplacer.sheet import gauge
        from holeplacer.sheet import metal as metals

        plan = self.session.committed
        if plan is None:
            return
        own = None if metal in metals.metals() else metal
        sheet = replace(plan.sheet, metal=metal.name, own_metal=own, gauge=None)
        for row in gauge.gauges(metal.gauge_series):
            if row.number == plan.sheet.gauge:
                sheet = replace(sheet, gauge=row.number, thickness_mm=row.thickness_mm)
        self.push(replace(plan, sheet=sheet), f"Cut from {metal.name}")

    def _choose_gauge(self, number: int | None) -> None:
        from holeplacer.sheet import gauge

        plan = self.session.committed
        if plan is None:
            return
        sheet = replace(plan.sheet, gauge=number)
        if number is not None:
            series = sheet.material.gauge_series
            thickness = gauge.gauge(series, number, metal=sheet.metal).thickness_mm
            sheet = replace(sheet, thickness_mm=thickness)
        text = "Enter the thickness" if number is None else f"Take {number} gauge {sheet.metal}"
        self.push(replace(plan, sheet=sheet), text)

    def _choose_process(self, name: str) -> None:
        plan = self.session.committed
        if plan is not None:
            self.push(replace(plan, sheet=replace(plan.sheet, process=name)), f"Cut by {name}")


def _with_thickness(plan: Plan, mm: float | None) -> Plan:
    thickness = plan.sheet.thickness_mm if mm is None else mm
    return replace(plan, sheet=replace(plan.sheet, gauge=None, thickness_mm=thickness))


def _unverified(status: str) -> str:
    return "; from memory, verify" if status.startswith("M") else ""
