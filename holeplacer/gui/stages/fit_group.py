"""Fit group: the hole a stud needs, part by part, and the acts that give it."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QPushButton

from holeplacer.gui.form import quiet
from holeplacer.gui.stages.finish_group import show_coat
from holeplacer.gui.stages.hardware_group import own_name, reader, writer
from holeplacer.gui.stages.stage import Choice, Stage
from holeplacer.units import LengthUnit, format_length

if TYPE_CHECKING:
    from holeplacer.evaluation.hole_fit import HoleFit
    from holeplacer.plan.plan import Plan
    from holeplacer.standoffs.clearance_hole import Fit
    from holeplacer.standoffs.hole_size import NeededHole

_FITS = (("close", "close"), ("normal", "normal"), ("loose", "loose"), ("as entered", "entered"))
_STATUS = {"M": "; from memory, verify", "E": "", "P": "", "R": ""}


class FitGroup(QObject):
    """Rows of a form."""

    def __init__(self, stage: Stage) -> None:
        super().__init__(stage)
        self._stage = stage
        form = stage.form
        form.heading("Hole")
        self.fit = Choice()
        self._fit_row = form.row("Fit", self.fit)
        self.clearance = stage.length(
            "Clearance", reader("clearance_mm"), _with_clearance, most_mm=20.0, step_mm=0.1
        )
        self.clearance.say("hole less stud, before finish and movement")
        self.hole = stage.length(
            "Hole", reader("hole_mm"), writer("hole_mm"), least_mm=1.0, most_mm=60.0, step_mm=0.5
        )
        self.needs = quiet()
        form.wide(self.needs)
        self.take = QPushButton()
        self.enlarge = QPushButton()
        form.wide(self.take)
        form.wide(self.enlarge)
        self.fit.chosen.connect(self._choose)
        self.take.clicked.connect(self._take)
        self.enlarge.clicked.connect(self._enlarge)
        self._fits: tuple[HoleFit, ...] = ()
        self._drill = 0.0

    def show_plan(self, plan: Plan, fits: tuple[HoleFit, ...]) -> None:
        """Show what the holes of a plan need.

        Args:
            plan: The plan.
            fits: Its holes against what they need.
        """
        from holeplacer.evaluation import hole_fit
        from holeplacer.standoffs import hole_size

        self._fits = fits
        self.fit.offer(_FITS, plan.standoff.fit)
        self.clearance.show(plan.standoff.fit == "entered")
        still = hole_fit.needed(plan, plan.standoff.hole_mm)
        self._fit_row.say(f"{still.source}{_STATUS[still.status]}")
        self._say_classes(plan)
        worst = hole_fit.worst(fits)
        self.needs.say(self._words(plan, still, worst))
        needed = still if worst is None else worst.needed
        self._drill = hole_size.drill_mm(needed.round_mm, inch=self._inch)
        wanted = not needed.is_met_by(plan.standoff.hole_mm)
        self.take.setVisible(wanted)
        self.take.setText(f"Make the hole {self._drill_words(self._drill)}")
        short = sum(not fit.enough for fit in fits)
        self.enlarge.setVisible(short > 0)
        self.enlarge.setText(f"Enlarge {short} of {len(fits)} holes, each as it needs")

    @property
    def _inch(self) -> bool:
        return self._stage.session.unit is LengthUnit.INCH

    def _drill_words(self, mm: float) -> str:
        return format_length(mm, self._stage.session.unit)

    def _say_classes(self, plan: Plan) -> None:
        from holeplacer.standoffs import clearance_hole

        shown, stud = self._stage.shown, plan.standoff.stud_mm
        figures = [
            f"{fit} {shown(clearance_hole.hole_for_stud(stud, fit))}"
            for fit in clearance_hole.FITS
            if fit != "entered"
        ]
        self.hole.say(f"for this stud: {', '.join(figures)}")

    def _words(self, plan: Plan, still: NeededHole, worst: HoleFit | None) -> str:
        needed = still if worst is None else worst.needed
        shown = self._stage.shown
        whose = "The stud" if worst is None else f"Hole {worst.number}"
        lines = [
            f"{whose} needs {shown(needed.round_mm)}:",
            f"   {shown(needed.fit_mm)} for the fit",
            (
                f"+ {shown(needed.finish_mm)} for the finish, twice "
                f"{show_coat(plan.sheet.finish_mm, self._stage.session.unit)} a side"
            ),
        ]
        if worst is None:
            return "\n".join([*lines, "Heat and cold add to it once there are holes."])
        moves = shown(worst.movement.greatest_mm)
        lines.append(f"+ {shown(needed.movement_mm)} for heat and cold, twice {moves}")
        if worst.enough:
            lines.append("Every hole is large enough.")
        return "\n".join(lines)

    # --- acts ---

    def _choose(self, fit: Fit) -> None:
        plan = self._stage.session.committed
        if plan is not None:
            standoff = replace(plan.standoff, fit=fit)
            self._stage.push(replace(plan, standoff=standoff), f"Let the stud fit {fit}")

    def _take(self) -> None:
        plan = self._stage.session.committed
        if plan is not None:
            standoff = replace(plan.standoff, hole_mm=self._drill, name=own_name(plan))
            text = f"Make the hole {self._drill_words(self._drill)}"
            self._stage.push(replace(plan, standoff=standoff), text)

    def _enlarge(self) -> None:
        from holeplacer.evaluation import hole_fit

        plan = self._stage.session.committed
        if plan is not None:
            enlarged = hole_fit.enlarged(plan, self._fits, inch=self._inch)
            self._stage.push(enlarged, "Enlarge holes as each needs")


def _with_clearance(plan: Plan, mm: float | None) -> Plan:
    return replace(plan, standoff=replace(plan.standoff, clearance_mm=mm or 0.0))
