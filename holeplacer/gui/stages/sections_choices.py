"""How the sign is divided: distances, table travel, the weld's preparation, turning, feeds."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject

from holeplacer.errors import HoleplacerError
from holeplacer.gui.form import Row, quiet
from holeplacer.gui.quantity_field import QuantityField
from holeplacer.gui.quantity_kind import DURATION, FEED, QuantityKind
from holeplacer.gui.stages.stage import Choice, Read, Stage, Write

if TYPE_CHECKING:
    from holeplacer.plan.plan import Plan
    from holeplacer.plan.sections import Preparation, Turning

_PRACTICE = "common practice, no source"
_PREPARATIONS: tuple[tuple[str, Preparation], ...] = (
    ("square edges", "square"), ("bevelled edges", "bevel"),
)  # fmt: skip
_TURNINGS: tuple[tuple[str, Turning], ...] = (
    ("by any angle", "any"), ("by quarter turns", "quarter"), ("not at all", "none"),
)  # fmt: skip
_TURNING_NOTE = "a brushed or grained face runs one way: quarter turns at most, or none"


class ChoicesGroup(QObject):
    """Rows of a form."""

    def __init__(self, stage: Stage) -> None:
        super().__init__(stage)
        self._stage = stage
        stage.form.heading("Seams and sheets")
        self.clear = self._length("Clear of seams", "seam_clear_mm", 1.0)
        self.clear.say(f"to a hole's edge, a tip, a junction: heat and grinding; {_PRACTICE}")
        self.margin = self._length("Sheet margin", "margin_mm", 1.0)
        self.margin.say("left uncut along every side: clamps, burnt or bent edges")
        self.apart = self._length("Between sections", "apart_mm", 1.0)
        self.apart.say("on the sheet: kerfs, pierces and lead-ins")
        self._travel = [
            self._length(f"Table {side}", f"travel_{side}_mm", 10.0, empty="not the limit")
            for side in ("width", "height")
        ]
        self._travel[1].say("how far the torch travels")
        self._turning = Choice()
        self.turning = stage.form.row("Sections turn", self._turning, _TURNING_NOTE)
        self._turning.chosen.connect(lambda value: self._choose("turning", value, _TURNINGS))
        stage.form.heading("Weld")
        self._preparation = Choice()
        self.preparation = stage.form.row("Prepared with", self._preparation)
        self._preparation.chosen.connect(
            lambda value: self._choose("preparation", value, _PREPARATIONS)
        )
        self.gap = self._length("Root gap", "root_gap_mm", 0.5, most_mm=50.0)
        self._notes = quiet()
        stage.form.wide(self._notes)

    def show_plan(self, plan: Plan) -> None:
        """Fill the lists, and say what is to be ground."""
        from holeplacer.seams import preparation

        choice = plan.sections
        self._turning.offer(_TURNINGS, choice.turning)
        self._preparation.offer(_PREPARATIONS, choice.preparation)
        lines = preparation.notes(plan, self._stage.session.unit)
        self._notes.say("\n".join(f"• {line}." for line in lines) + f"\n{_PRACTICE.capitalize()}.")

    def _length(
        self, name: str, field: str, step_mm: float, *, empty: str | None = None,
        most_mm: float = 1e4,
    ) -> Row:  # fmt: skip
        least = 1.0 if empty is not None else 0.0
        return self._stage.length(
            name, _reader(field), _writer(field), least_mm=least, most_mm=most_mm,
            step_mm=step_mm, empty=empty,
        )  # fmt: skip

    def _choose(self, field: str, value: object, entries: tuple[tuple[str, Any], ...]) -> None:
        plan = self._stage.session.committed
        if plan is not None:
            words = next(text for text, one in entries if one == value)
            what = "Turn sections" if field == "turning" else "Prepare seams with"
            change: dict[str, Any] = {field: value}
            made = replace(plan, sections=replace(plan.sections, **change))
            self._stage.push(made, f"{what} {words}")


class FeedsGroup(QObject):
    """Rows of a form: the feeds a rough time is reckoned from; none is ever guessed."""

    def __init__(self, stage: Stage) -> None:
        super().__init__(stage)
        self._stage = stage
        self._fill: list[Callable[[Plan], None]] = []
        stage.form.heading("Feeds, for a rough time")
        self._row("Cutting", "cut_mm_min", FEED)
        self._row("Between cuts", "travel_mm_min", FEED)
        self._row("One pierce", "pierce_s", DURATION)
        row = self._row("Welding", "weld_mm_min", FEED)
        row.say("as your table and torch run; time is only told from what is entered")

    def show_plan(self, plan: Plan) -> None:
        """Fill the rows."""
        for fill in self._fill:
            fill(plan)

    def _row(self, name: str, field: str, kind: QuantityKind) -> Row:
        entry = QuantityField(f"{name} feed" if kind is FEED else name, kind, empty="not entered")
        row = self._stage.form.row(name, entry)

        def entered(value: float | None) -> None:
            plan = self._stage.session.committed
            if plan is None:
                return
            change: dict[str, Any] = {field: value}
            feeds = replace(plan.sections.feeds, **change)
            shown = "" if value is None else kind.show(value, self._stage.session.unit)
            text = f"Set {name.lower()} to {shown}" if shown else f"Clear {name.lower()}"
            made = replace(plan, sections=replace(plan.sections, feeds=feeds))
            self._put(row, made, text)

        def fill(plan: Plan) -> None:
            entry.set_value(getattr(plan.sections.feeds, field), self._stage.session.unit)

        entry.entered.connect(entered)
        self._fill.append(fill)
        return row

    def _put(self, row: Row, plan: Plan, text: str) -> None:
        from holeplacer.plan import validity

        try:
            self._stage.push(validity.checked(plan), text)
            row.error.say("")
        except HoleplacerError as error:
            row.error.say(str(error))


def _reader(field: str) -> Read:
    return lambda plan: getattr(plan.sections, field)


def _writer(field: str) -> Write:
    def write(plan: Plan, mm: float | None) -> Plan:
        change: dict[str, Any] = {field: mm}
        return replace(plan, sections=replace(plan.sections, **change))

    return write
