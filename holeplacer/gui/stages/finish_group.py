"""Finish group: what is put on after cutting, and what it takes from every hole."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject

from holeplacer.errors import HoleplacerError
from holeplacer.gui.quantity_field import QuantityField
from holeplacer.gui.quantity_kind import QuantityKind
from holeplacer.gui.stages.stage import Choice, Stage
from holeplacer.loads.quantity import Quantity, decimals
from holeplacer.units import MM_PER_INCH, LengthUnit

if TYPE_CHECKING:
    from holeplacer.plan.plan import Plan

_ENTERED = "entered"
_MM_PER_MIL = MM_PER_INCH / 1000
_COAT = Quantity(
    noun="a thickness of finish",
    example="75 um or 3 mil",
    factors={
        "um": 1e-3,
        "µm": 1e-3,
        "μm": 1e-3,
        "mm": 1.0,
        "mil": _MM_PER_MIL,
        "mils": _MM_PER_MIL,
        "in": MM_PER_INCH,
    },
)


def show_coat(mm: float, unit: LengthUnit) -> str:
    """A finish's thickness as painters say it: `75 µm` or `3 mil`."""
    if unit is LengthUnit.MM:
        return f"{decimals(mm * 1000, 1)} µm"
    return f"{decimals(mm / _MM_PER_MIL, 2)} mil"


COAT = QuantityKind(_COAT.value, show_coat, ("um", "mil"))


class FinishGroup(QObject):
    """Rows of a form."""

    def __init__(self, stage: Stage) -> None:
        super().__init__(stage)
        self._stage = stage
        stage.form.heading("Finish")
        self.choice = Choice()
        self._row = stage.form.row("Finish", self.choice)
        self.thickness = QuantityField("Thickness per side", COAT)
        self._thickness_row = stage.form.row("Per side", self.thickness)
        self.thickness.entered.connect(self._enter)
        self.choice.chosen.connect(self._choose)

    def show_plan(self, plan: Plan) -> None:
        """Show the finish of a plan."""
        from holeplacer.sheet import finish

        sheet = plan.sheet
        entries: list[tuple[str, object]] = [(item.title, item.name) for item in finish.finishes()]
        self.choice.offer([*entries, ("own thickness", _ENTERED)], sheet.finish)
        if sheet.finish == _ENTERED:
            self._row.say("entered by you; measure a coated scrap")
        else:
            item = finish.finish(sheet.finish)
            unverified = "; from memory, verify" if item.status.startswith("M") else ""
            self._row.say(f"{item.source}{unverified}")
        taken = self._stage.shown(2 * sheet.finish_mm)
        self.thickness.set_value(sheet.finish_mm, self._stage.session.unit)
        self._thickness_row.say(f"takes {taken} from every hole" if sheet.finish_mm else "")

    def _choose(self, name: str) -> None:
        from holeplacer.sheet import finish

        plan = self._stage.session.committed
        if plan is None:
            return
        sheet = replace(plan.sheet, finish=name)
        text = "Enter the finish"
        if name != _ENTERED:
            item = finish.finish(name)
            sheet, text = replace(sheet, finish_mm=item.per_side_mm), f"Finish with {item.title}"
        self._stage.push(replace(plan, sheet=sheet), text)

    def _enter(self, mm: float | None) -> None:
        from holeplacer.plan import validity

        plan = self._stage.session.committed
        if plan is None or mm is None:
            return
        sheet = replace(plan.sheet, finish=_ENTERED, finish_mm=mm)
        try:
            changed = validity.checked(replace(plan, sheet=sheet))
        except HoleplacerError as error:
            self._thickness_row.error.say(str(error))
            return
        self._thickness_row.error.say("")
        coat = show_coat(mm, self._stage.session.unit)
        self._stage.push(changed, f"Finish with {coat} a side")
