"""Mass group: what sign and pieces weigh, by density and by gauge, and where they balance."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject

from holeplacer.gui.form import quiet
from holeplacer.gui.stages.metal_group import DENSITY
from holeplacer.gui.stages.stage import Stage
from holeplacer.units import format_area, format_mass

if TYPE_CHECKING:
    from holeplacer.plan.plan import Plan
    from holeplacer.sheet.mass import SheetMass

_MOST_PIECES = 6


class MassGroup(QObject):
    """Rows of a form."""

    def __init__(self, stage: Stage) -> None:
        super().__init__(stage)
        self._stage = stage
        stage.form.heading("Mass")
        self.said = quiet()
        stage.form.wide(self.said)

    def show_plan(self, plan: Plan) -> None:
        """Show the mass of a plan's sign."""
        from holeplacer.evaluation import sign_mass

        layout = self._stage.session.layout
        if layout is None:
            return
        mass = sign_mass.sign_mass(plan, layout.outline)
        self.said.say("\n".join([*self._whole(plan, mass), *self._pieces(mass)]))

    def _whole(self, plan: Plan, mass: SheetMass) -> list[str]:
        unit, metal = self._stage.session.unit, plan.sheet.material
        area = format_area(mass.area_mm2, unit)
        unverified = " (from memory, verify)" if "density_kg_m3" in metal.from_memory else ""
        lines = [
            (
                f"{format_mass(mass.mass_kg, unit)} by density: {area} of {metal.alloy}, "
                f"{DENSITY.show(metal.density_kg_m3, unit)}{unverified}, holes taken out"
            )
        ]
        if mass.finish_kg:
            lines.append(f"{format_mass(mass.finish_kg, unit)} of it is finish on both faces")
        if mass.nominal_kg is not None:
            nominal = format_mass(mass.nominal_kg, unit)
            lines.append(f"{nominal} by the gauge's nominal weight, finish not counted")
        return [*lines, f"Balances at {self._place(mass.centre_mm)}"]

    def _pieces(self, mass: SheetMass) -> list[str]:
        if len(mass.pieces) < 2:
            return []
        unit = self._stage.session.unit
        lines = [
            f"Piece {number}: {format_mass(piece.mass_kg, unit)} at {self._place(piece.centre_mm)}"
            for number, piece in enumerate(mass.pieces[:_MOST_PIECES], start=1)
        ]
        left = len(mass.pieces) - _MOST_PIECES
        return [*lines, f"and {left} more"] if left > 0 else lines

    def _place(self, xy_mm: tuple[float, float]) -> str:
        return f"x {self._stage.shown(xy_mm[0])}, y {self._stage.shown(xy_mm[1])}"
