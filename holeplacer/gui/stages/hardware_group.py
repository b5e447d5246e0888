"""Hardware group: a size from the table or one's own, part by part, kept for later if wanted."""

from __future__ import annotations

from dataclasses import fields, replace
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject

from holeplacer.errors import HoleplacerError
from holeplacer.gui.form import Row
from holeplacer.gui.own_stock import OwnStock
from holeplacer.gui.stages.keep_row import KeepRow
from holeplacer.gui.stages.metal_group import STRESS
from holeplacer.gui.stages.stage import Choice, Read, Stage, Write

if TYPE_CHECKING:
    from holeplacer.plan.plan import Plan, StandoffChoice
    from holeplacer.standoffs.standoff import Standoff

_OWN = "own"
_FROM_MEMORY = "from memory, verify"
_DIAMETERS = (
    ("Stud", "stud_mm", "", 1.0),
    ("Barrel", "barrel_mm", "diameter, behind the sheet", 1.0),
    ("Washer behind", "washer_behind_mm", "between barrel and sheet; 0 without one", 0.0),
    ("Cap", "cap_mm", "diameter of cap or head, seen in front; 0 without one", 0.0),
    ("Washer", "washer_mm", "in front, bears on metal all round; 0 without one", 0.0),
)


class HardwareGroup(QObject):
    """Rows of a form."""

    def __init__(self, stage: Stage, stock: OwnStock) -> None:
        super().__init__(stage)
        self._stage, self._stock = stage, stock
        form = stage.form
        form.heading("Hardware")
        self.size = Choice()
        form.row("Size", self.size, "ordinary trade sizes, no maker's parts; measure yours")
        self.rows: dict[str, Row] = {}
        for name, field, note, least in _DIAMETERS:
            self.rows[field] = stage.length(
                name, reader(field), writer(field), least_mm=least, most_mm=200.0, step_mm=0.5
            )
            self.rows[field].say(note)
        self.head = Choice()
        self._head_row = form.row("Head", self.head)
        self.rows["bearing_mm"] = stage.length(
            "Presses on", reader("bearing_mm"), _with_bearing, most_mm=200.0, step_mm=0.5, empty=""
        )
        self.rows["bearing_mm"].say("diameter that bears on the front of the sheet")
        self.material = Choice()
        self._material_row = form.row("Stud of", self.material)
        self.rows["projection_mm"] = stage.length(
            "Projection", reader("projection_mm"), writer("projection_mm"), most_mm=500.0
        )
        self.rows["projection_mm"].say("wall to the back of the sheet")
        self.keeping = KeepRow(form, "size")
        self.size.chosen.connect(self._choose)
        self.head.chosen.connect(self._choose_head)
        self.material.chosen.connect(self._choose_material)
        self.keeping.named.connect(self._rename)
        self.keeping.keep_wanted.connect(self._keep)
        self.keeping.forget_wanted.connect(self._forget)

    def show_plan(self, plan: Plan) -> None:
        """Show the hardware of a plan."""
        from holeplacer.standoffs import head, standoff, stud

        chosen, kept = plan.standoff, self._stock.standoffs()
        table = {item.name for item in standoff.standoffs()}
        names = [*(item.name for item in standoff.standoffs()), *(item.name for item in kept)]
        entries = [(name, name) for name in names]
        if chosen.name not in names and chosen.name != _OWN:
            entries.append((chosen.name, chosen.name))
        self.size.offer([*entries, ("own size", _OWN)], chosen.name)
        self.head.offer(((item.title, item.name) for item in head.heads()), chosen.head)
        self._head_row.say(head.head(chosen.head).note)
        self.material.offer(
            ((item.title, item.name) for item in stud.stud_materials()), chosen.stud_material
        )
        self._say_stud(chosen)
        field: Any = self.rows["bearing_mm"].entry
        bare = replace(chosen, bearing_mm=None)
        field.set_empty_text(self._stage.shown(bare.pressed_mm))
        found = next((item for item in kept if item.name == chosen.name), None)
        self.keeping.show_item(
            None if chosen.name in table else chosen.name,
            kept=found is not None,
            same=found == hardware_of(chosen),
        )

    def _say_stud(self, chosen: StandoffChoice) -> None:
        from holeplacer.standoffs import stud

        thread, material = stud.thread(chosen.stud_mm), stud.stud_material(chosen.stud_material)
        root, unit = self._stage.shown(thread.root_mm), self._stage.session.unit
        name = f"{thread.stud} coarse thread" if thread.stud else "coarse thread"
        self.rows["stud_mm"].say(f"diameter; root of a {name} {root}; {_FROM_MEMORY}")
        self._material_row.say(
            f"{material.title}: yield {STRESS.show(material.yield_mpa, unit)}, "
            f"tensile {STRESS.show(material.ultimate_mpa, unit)}; "
            f"{_FROM_MEMORY}"
        )

    # --- acts ---

    def _choose(self, name: str) -> None:
        from holeplacer.standoffs import standoff

        plan = self._stage.session.committed
        if plan is None:
            return
        if name == _OWN:
            self._push(plan, replace(plan.standoff, name=_OWN), "Enter the standoff")
            return
        offered = (*standoff.standoffs(), *self._stock.standoffs())
        found = next((item for item in offered if item.name == name), None)
        if found is not None:  # else it is the plan's own, chosen already
            self._push(plan, plan.standoff.with_hardware(found), f"Take standoff {name}")

    def _choose_head(self, name: str) -> None:
        """Another head has another size: the usual one for the stud, to be measured."""
        from holeplacer.standoffs import head

        plan = self._stage.session.committed
        if plan is not None:
            item = head.head(name)
            cap = round(item.across * plan.standoff.stud_mm, 3)
            changed = replace(plan.standoff, head=name, cap_mm=cap, name=own_name(plan))
            self._push(plan, changed, f"Take a {item.title}")

    def _choose_material(self, name: str) -> None:
        from holeplacer.standoffs import stud

        plan = self._stage.session.committed
        if plan is not None:
            changed = replace(plan.standoff, stud_material=name, name=own_name(plan))
            self._push(plan, changed, f"Take a stud of {stud.stud_material(name).title}")

    def _rename(self, name: str) -> None:
        from holeplacer.standoffs import standoff

        plan = self._stage.session.committed
        if plan is None:
            return
        if not name or name in {item.name for item in standoff.standoffs()}:
            self.keeping.tell("A size of your own needs a name that is not in the table.")
            return
        self.keeping.tell("")
        self._push(plan, replace(plan.standoff, name=name), f"Call the size {name}")

    def _keep(self) -> None:
        plan = self._stage.session.committed
        if plan is None:
            return
        try:
            self._stock.keep_standoff(hardware_of(plan.standoff))
        except HoleplacerError as error:
            self.keeping.tell(str(error))
            return
        self.keeping.tell("")

    def _forget(self) -> None:
        plan = self._stage.session.committed
        if plan is not None:
            self._stock.forget_standoff(plan.standoff.name)

    def _push(self, plan: Plan, changed: StandoffChoice, text: str) -> None:
        from holeplacer.plan import edit

        self._stage.push(edit.with_standoff(plan, changed), text)


def hardware_of(chosen: StandoffChoice) -> Standoff:
    """The hardware alone, without how its stud is to fit."""
    from holeplacer.standoffs.standoff import Standoff

    return Standoff(**{field.name: getattr(chosen, field.name) for field in fields(Standoff)})


def own_name(plan: Plan) -> str:
    """Name of the plan's hardware once a part is changed: the table's names are no longer true."""
    from holeplacer.standoffs import standoff

    name = plan.standoff.name
    return _OWN if name in {item.name for item in standoff.standoffs()} else name


def reader(field: str) -> Read:
    """Reads one part of a plan's standoff."""
    return lambda plan: getattr(plan.standoff, field)


def writer(field: str) -> Write:
    """Changes one part by hand, which makes the size one's own."""

    def write(plan: Plan, mm: float | None) -> Plan:
        part: dict[str, Any] = {field: mm or 0.0}
        return replace(plan, standoff=replace(plan.standoff, **part, name=own_name(plan)))

    return write


def _with_bearing(plan: Plan, mm: float | None) -> Plan:
    return replace(plan, standoff=replace(plan.standoff, bearing_mm=mm, name=own_name(plan)))
