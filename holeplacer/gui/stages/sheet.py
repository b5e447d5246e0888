"""Sheet: metal, gauge, thickness, process, and the least hole and ligament that follow."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from holeplacer.gui.form import quiet
from holeplacer.gui.rail import StageState
from holeplacer.gui.session import Session
from holeplacer.gui.stages.stage import Choice, Stage
from holeplacer.units import LengthUnit, format_area, format_mass

if TYPE_CHECKING:
    from holeplacer.plan.plan import Plan
    from holeplacer.sheet.gauge import Gauge
    from holeplacer.sheet.process import Process

_OWN = "own thickness"


class SheetStage(Stage):
    """The sheet the sign is cut from."""

    NAME = "Sheet"
    RULES = ("process",)

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        form = self.form
        form.heading("Metal")
        self._metal = Choice()
        self._gauge = Choice()
        form.row("Metal", self._metal)
        self._gauge_row = form.row("Gauge", self._gauge)
        self._thickness = self.length(
            "Thickness",
            lambda plan: plan.sheet.thickness_mm,
            _with_thickness,
            least_mm=0.2,
            most_mm=25.0,
            step_mm=0.1,
        )
        self._mass = quiet()
        form.wide(self._mass)
        form.heading("Cutting")
        self._process = Choice()
        self._process_row = form.row("Process", self._process)
        self._least = quiet()
        form.wide(self._least)
        form.end()
        self._metal.chosen.connect(self._choose_metal)
        self._gauge.chosen.connect(self._choose_gauge)
        self._process.chosen.connect(self._choose_process)

    def state(self) -> StageState:
        plan = self.session.plan
        if plan is None:
            return StageState(self.NAME)
        gauge = f"{plan.sheet.gauge} ga " if plan.sheet.gauge is not None else ""
        figure = f"{gauge}{plan.sheet.metal}, {self.shown(plan.sheet.thickness_mm)}"
        return StageState(self.NAME, figure, self.open_findings(), ready=True)

    def show_plan(self, plan: Plan) -> None:
        from holeplacer.sheet import gauge, metal, process

        sheet = plan.sheet
        self._metal.offer(((item.name, item.name) for item in metal.metals()), sheet.metal)
        rows = gauge.gauges(metal.metal(sheet.metal).gauge_series)
        entries = [(f"{row.number} ga, {self._thickness_of(row)}", row.number) for row in rows]
        self._gauge.offer([*entries, (_OWN, None)], sheet.gauge)
        source = next((row for row in rows if row.number == sheet.gauge), None)
        self._thickness.say(
            f"{source.source}{_unverified(source.status)}"
            if source is not None
            else "entered by you; measure the sheet at hand"
        )
        self._process.offer(((item.title, item.name) for item in process.processes()),
                            sheet.process)  # fmt: skip
        self._say_least(plan, process.process(sheet.process))
        self._say_mass(plan)

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

    def _say_mass(self, plan: Plan) -> None:
        from holeplacer.sheet import metal

        layout = self.session.layout
        if layout is None:
            return
        item, area = metal.metal(plan.sheet.metal), layout.outline.area_mm2
        mass, unit = item.mass_kg(area, plan.sheet.thickness_mm), self.session.unit
        self._mass.say(
            f"The sign weighs {format_mass(mass, unit)} "
            f"({format_area(area, unit)} of {item.alloy}, {item.density_kg_m3:.0f} kg/m³)."
        )

    def _choose_metal(self, name: str) -> None:
        """A gauge means another thickness in every metal: both change in one step."""
        from holeplacer.sheet import gauge, metal

        plan = self.session.committed
        if plan is None:
            return
        sheet = replace(plan.sheet, metal=name, gauge=None)
        for row in gauge.gauges(metal.metal(name).gauge_series):
            if row.number == plan.sheet.gauge:
                sheet = replace(sheet, gauge=row.number, thickness_mm=row.thickness_mm)
        self.push(replace(plan, sheet=sheet), f"Cut from {name}")

    def _choose_gauge(self, number: int | None) -> None:
        from holeplacer.sheet import gauge, metal

        plan = self.session.committed
        if plan is None:
            return
        sheet = replace(plan.sheet, gauge=number)
        if number is not None:
            series = metal.metal(sheet.metal).gauge_series
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
