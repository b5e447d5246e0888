"""Standoffs: a size from the table or one's own, and the hole it needs."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

from holeplacer.gui.form import quiet
from holeplacer.gui.rail import StageState
from holeplacer.gui.session import Session
from holeplacer.gui.stages.stage import Choice, Read, Stage, Write

if TYPE_CHECKING:
    from holeplacer.plan.plan import Plan

_OWN = "own"
_PARTS = (
    ("Stud", "stud_mm", "diameter", 1.0, 50.0),
    ("Hole", "hole_mm", "", 1.0, 60.0),
    ("Barrel", "barrel_mm", "diameter, behind the sheet", 1.0, 200.0),
    ("Cap", "cap_mm", "diameter, seen in front; 0 without one", 0.0, 200.0),
    ("Washer", "washer_mm", "diameter, bears on metal all round; 0 without one", 0.0, 200.0),
    ("Projection", "projection_mm", "wall to the back of the sheet", 0.0, 500.0),
)


class StandoffsStage(Stage):
    """The hardware that holds the sheet off the wall."""

    NAME = "Standoffs"

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        form = self.form
        form.heading("Hardware")
        self._size = Choice()
        form.row("Size", self._size, "ordinary trade sizes, no maker's parts; measure yours")
        self._rows = {}
        for name, field, note, least, most in _PARTS:
            row = self.length(
                name, _reader(field), _writer(field), least_mm=least, most_mm=most, step_mm=0.5
            )
            row.say(note)
            self._rows[field] = row
        self._fits = quiet()
        form.wide(self._fits)
        form.end()
        self._size.chosen.connect(self._choose)

    def state(self) -> StageState:
        plan = self.session.plan
        if plan is None:
            return StageState(self.NAME)
        figure = f"hole {self.shown(plan.standoff.hole_mm)}"
        return StageState(self.NAME, figure, self.open_findings(), ready=True)

    def show_plan(self, plan: Plan) -> None:
        from holeplacer.standoffs import clearance_hole, standoff

        names = [(item.name, item.name) for item in standoff.standoffs()]
        self._size.offer([*names, ("own size", _OWN)], plan.standoff.name)
        stud = plan.standoff.stud_mm
        self._rows["hole_mm"].say(
            f"normal fit on this stud: {self.shown(clearance_hole.hole_for_stud(stud))}"
        )
        rows = [row for row in clearance_hole.clearance_holes() if abs(row.stud_mm - stud) < 0.01]
        self._fits.say(
            "\n".join(
                f"{row.stud} stud: close {self.shown(row.close_mm)}, normal "
                f"{self.shown(row.normal_mm)}, loose {self.shown(row.loose_mm)} ({row.source})"
                for row in rows
            )
        )

    def _choose(self, name: str) -> None:
        from holeplacer.standoffs import standoff

        plan = self.session.committed
        if plan is None:
            return
        if name == _OWN:
            chosen = replace(plan.standoff, name=_OWN)
            self.push(replace(plan, standoff=chosen), "Enter the standoff")
            return
        chosen = plan.standoff.with_hardware(standoff.standoff(name))
        self.push(replace(plan, standoff=chosen), f"Take standoff {name}")


def _reader(field: str) -> Read:
    return lambda plan: getattr(plan.standoff, field)


def _writer(field: str) -> Write:
    """One part changed by hand makes the size one's own."""

    def write(plan: Plan, mm: float | None) -> Plan:
        part: dict[str, Any] = {field: mm or 0.0}
        return replace(plan, standoff=replace(plan.standoff, **part, name=_OWN))

    return write
