"""Propose group: the primary act of the Holes stage, its result, and what one more would buy."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QSignalBlocker
from PySide6.QtWidgets import QButtonGroup, QProgressBar, QPushButton, QRadioButton, QSpinBox

from holeplacer.documents import caution
from holeplacer.gui.count_chart import CountChart
from holeplacer.gui.form import ErrorLine, Form, PrimaryButton, WrappedLabel, quiet
from holeplacer.gui.proposer import Proposer
from holeplacer.gui.session import Session
from holeplacer.units import format_length

if TYPE_CHECKING:
    from holeplacer.placement.propose import Proposal
    from holeplacer.plan.plan import Plan

_MOST_HOLES = 999
_ROUNDING = 1e-6

CAUTION = "An estimate for planning, not an approval."


class ProposeGroup(QObject):
    """Rows of a form: how many, the button, progress, the result line, the curve."""

    def __init__(self, form: Form, session: Session, proposer: Proposer) -> None:
        super().__init__(form)
        self._session, self._proposer = session, proposer
        form.heading("Proposal")
        self._fewest = QRadioButton("Fewest that keep the rules")
        self._given = QRadioButton("Best places for")
        self._count = QSpinBox()
        self._count.setRange(1, _MOST_HOLES)
        self._count.setAccessibleName("Count of holes")
        self._either = QButtonGroup(self)  # they stand in different lines of the form
        self._either.addButton(self._fewest)
        self._either.addButton(self._given)
        self._fewest.setChecked(True)
        form.wide(self._fewest)
        form.side_by_side(self._given, self._count)
        self.button = PrimaryButton("Propose holes")
        self.button.setToolTip("Fixed holes stay where they are")
        form.wide(self.button)
        self._bar = QProgressBar()
        self._bar.setTextVisible(False)
        self._bar.setFixedHeight(8)
        self._bar.setAccessibleName("Progress")
        form.wide(self._bar)
        self._working = quiet()
        form.wide(self._working)
        self._result = WrappedLabel()
        form.wide(self._result)
        self._left_open = quiet()
        form.wide(self._left_open)
        self._failure = ErrorLine()
        form.wide(self._failure)
        self._weigh = QPushButton("What would more or fewer holes give?")
        form.wide(self._weigh)
        self._chart = CountChart()
        form.wide(self._chart)
        self._weigh_give = QPushButton("And what deflection?")
        self._weigh_give.setToolTip("Proposes holes for each count; this takes a while")
        self._weigh_give.clicked.connect(proposer.weigh_deflection)
        form.wide(self._weigh_give)
        self._give_caution = quiet()
        form.wide(self._give_caution)
        self.button.clicked.connect(self.act)
        self._weigh.clicked.connect(self._proposer.draw_curve)
        self._count.valueChanged.connect(self._count_entered)
        self._show_suffix()
        self._chart.chosen.connect(self._take_count)
        proposer.changed.connect(self.refresh)
        session.busy_changed.connect(self._show_progress)
        session.unit_changed.connect(self.refresh)
        self.refresh()

    def act(self) -> None:
        """Propose, or stop proposing."""
        if self._proposer.working:
            self._proposer.stop()
        else:
            count = self._count.value() if self._given.isChecked() else None
            self._proposer.propose(count)

    def refresh(self) -> None:
        """Show what there is to say."""
        working, plan = self._proposer.working, self._session.plan
        self.button.setText("Stop" if working else "Propose holes")
        ready = self._session.layout is not None and self._session.problem is None
        self.button.setEnabled(working or ready)
        self._weigh.setEnabled(ready and not working)
        failure = self._proposer.failure
        self._failure.say("" if failure is None else str(failure))
        proposal = self._session.proposal
        self._result.say(self._summary(plan, proposal))
        self._left_open.say(self._unsupported(proposal))
        curve = self._proposer.curve
        self._chart.setVisible(curve is not None)
        self._weigh.setVisible(curve is None and plan is not None and bool(plan.holes))
        if curve is not None and plan is not None:
            points = tuple((point.count, point.largest_span_mm) for point in curve)
            limit, unit = plan.limits.spacing_mm, self._session.unit
            given = tuple((one.count, one.max_deflection_mm) for one in self._proposer.deflections)
            self._chart.show_curve(points, limit, unit, len(plan.holes), given)
        self._offer_deflections(plan)
        if plan is not None and not self._given.isChecked() and plan.holes:
            with QSignalBlocker(self._count):
                self._count.setValue(len(plan.holes))
            self._show_suffix()
        self._show_progress()

    def _offer_deflections(self, plan: Plan | None) -> None:
        """The second curve can be asked for where a wind is chosen and the first one stands."""
        curve, given = self._proposer.curve, self._proposer.deflections
        asked = plan is not None and plan.loading.method != "none"
        self._weigh_give.setVisible(asked and curve is not None and not given)
        self._weigh_give.setEnabled(not self._proposer.working)
        self._give_caution.say(caution.SHORT if given else "")

    def _summary(self, plan: Plan | None, proposal: Proposal | None) -> str:
        if plan is None:
            return ""
        if proposal is None:
            return f"{_holes(len(plan.holes))}, placed or changed by hand." if plan.holes else ""
        if proposal.count == 0:
            return self._none_fits(plan)
        unit, spacing = self._session.unit, plan.limits.spacing_mm
        words = f"{_holes(proposal.count)}; at least {proposal.lower_bound} are needed."
        if proposal.tightness > 1 + _ROUNDING:
            kept = format_length(proposal.tightness * spacing, unit)
            words = f"{_holes(proposal.count)}: too few for the limits; they could keep {kept}."
        elif proposal.proven:
            words = f"✓ {_holes(proposal.count)}: proven fewest."
        spans = self._session.evaluation.spans if self._session.evaluation is not None else ()
        if spans:
            words += (f" Longest span {format_length(spans[0].length_mm, unit)}"
                      f" (at most {format_length(spacing, unit)}).")  # fmt: skip
        return f"{words} {CAUTION}"

    def _none_fits(self, plan: Plan) -> str:
        from holeplacer.rules import edge_distance  # not with the window

        layout, unit = self._session.layout, self._session.unit
        if layout is None:
            return ""
        axis = layout.axis
        radii = [*(float(branch.clearance.max()) for branch in axis.branches),
                 *axis.node_clearance.tolist()]  # fmt: skip
        widest = format_length(2 * max(radii), unit)
        needed = format_length(2 * edge_distance.limit(plan), unit)
        return (
            f"No hole fits: the widest stroke is {widest} wide, a hole needs {needed}. "
            "The findings say what would make room."
        )

    def _unsupported(self, proposal: Proposal | None) -> str:
        if proposal is None or not proposal.unsupported:
            return ""
        count, unit = len(proposal.unsupported), self._session.unit
        total = format_length(sum(part.length_mm for part in proposal.unsupported), unit)
        where = "1 stretch" if count == 1 else f"{count} stretches"
        return f"{total} of stroke in {where} can't be reached by any hole: see the findings."

    def _show_progress(self) -> None:
        working, share = self._proposer.working, self._session.progress
        self._bar.setVisible(working)
        self._working.say(self._session.busy if working else "")
        if working:
            self._bar.setRange(0, 0 if share is None else 1000)
            self._bar.setValue(0 if share is None else round(1000 * share))

    def _count_entered(self) -> None:
        self._given.setChecked(True)
        self._show_suffix()

    def _show_suffix(self) -> None:
        self._count.setSuffix(" hole" if self._count.value() == 1 else " holes")

    def _take_count(self, count: int) -> None:
        self._given.setChecked(True)
        self._count.setValue(count)
        self._proposer.propose(count)


def _holes(count: int) -> str:
    return "1 hole" if count == 1 else f"{count} holes"
