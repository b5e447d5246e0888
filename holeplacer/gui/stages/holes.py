"""Holes: the rules' limits, the proposal, the selected hole, and what goes out."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

from PySide6.QtWidgets import QDoubleSpinBox

from holeplacer.gui.exporter import Exporter
from holeplacer.gui.form import Row, quiet
from holeplacer.gui.proposer import Proposer
from holeplacer.gui.rail import StageState
from holeplacer.gui.session import Session
from holeplacer.gui.stages.export_group import ExportGroup
from holeplacer.gui.stages.hole_editor import HoleEditor
from holeplacer.gui.stages.propose_group import ProposeGroup
from holeplacer.gui.stages.stage import Choice, Read, Stage, Write, show_number
from holeplacer.gui.wording import in_unit

if TYPE_CHECKING:
    from holeplacer.plan.plan import Plan

_PRACTICE = "common practice, no source"


class HolesStage(Stage):
    """Where the holes go and what holds them there."""

    NAME = "Holes"
    RULES = ("edge_distance", "spacing", "overhang", "turning", "neighbours", "seam_distance")

    def __init__(self, session: Session, proposer: Proposer, exporter: Exporter) -> None:
        super().__init__(session)
        self.proposal = ProposeGroup(self.form, session, proposer)
        self.editor = HoleEditor(self.form, session)
        self._build_metal()
        self._build_holding()
        self.export = ExportGroup(self.form, session, exporter)
        self.form.end()

    def _build_metal(self) -> None:
        form = self.form
        form.heading("Metal round a hole")
        self._rule_set = Choice()
        self._rule_row = form.row("Rule set", self._rule_set)
        self._rule_set.chosen.connect(self._choose_rule_set)
        self._edge = self._limit("Edge distance", "edge_distance_mm", 0.5, empty="by the rule set")
        self._ligament = self._limit("Ligament", "ligament_mm", 0.5)
        self._cap = self._limit("Cap past the edge", "cap_overhang_mm", 0.5)
        self._neighbour = self._limit("Hole to hole", "neighbour_mm", 1.0, empty="by the rule set")
        self._governs = quiet()
        form.wide(self._governs)

    def _build_holding(self) -> None:
        form = self.form
        form.heading("Holding the sign")
        self._spacing = self._limit("Spacing", "spacing_mm", 10.0, least_mm=20.0)
        self._overhang = self._limit("Overhang", "overhang_mm", 5.0, least_mm=5.0)
        self._turning = QDoubleSpinBox()
        self._turning.setRange(0.0, 90.0)
        self._turning.setDecimals(0)
        self._turning.setSuffix(" %")
        self._turning.setKeyboardTracking(False)
        self._turning.valueChanged.connect(self._choose_turning)
        self._turning_row = form.row(
            "Base against turning",
            self._turning,
            f"of a piece's longest stroke, at least, between two of its holes; {_PRACTICE}",
        )

    def _limit(
        self, name: str, field: str, step_mm: float, *, least_mm: float = 0.0,
        empty: str | None = None,
    ) -> Row:  # fmt: skip
        return self.length(
            name, _reader(field), _writer(field), least_mm=least_mm, step_mm=step_mm, empty=empty
        )

    def state(self) -> StageState:
        plan = self.session.plan
        if plan is None:
            return StageState(self.NAME)
        evaluation = self.session.evaluation
        figure = "1 hole" if len(plan.holes) == 1 else f"{len(plan.holes)} holes"
        if evaluation is not None and evaluation.spans:
            figure += f", span {self.shown(evaluation.spans[0].length_mm)}"
        if not plan.holes and self.session.proposal is None:
            return StageState(self.NAME, "no holes yet")
        if not plan.holes:
            figure = "no hole fits"
        return StageState(self.NAME, figure, self.open_findings(), ready=evaluation is not None)

    def show_plan(self, plan: Plan) -> None:
        from holeplacer.rules import edge_distance, edge_rule, neighbours

        limits = plan.limits
        rule = edge_rule.edge_rule(limits.rule_set)
        self._rule_set.offer(
            ((item.title, item.name) for item in edge_rule.edge_rules()), limits.rule_set
        )
        clause = f"{rule.source}, {rule.clause}" if rule.clause else rule.source
        verify = "; from memory, verify" if "M" in rule.status else ""
        self._rule_row.say(f"{clause}{verify}")
        by_rule = self.shown(rule.edge_mm(plan.standoff.stud_mm, plan.standoff.hole_mm))
        self._edge.say(f"rule set: at least {by_rule} from a hole's centre")
        self._ligament.say(f"metal left between hole and edge; {_PRACTICE}")
        self._cap.say("how far the visible cap may overhang")
        self._neighbour.say(f"centres at least {self.shown(neighbours.limit(plan))} apart now")
        self._governs.say(
            f"In force: at least {self.shown(edge_distance.limit(plan))} from centre to edge "
            f"({in_unit(edge_distance.governs(plan), self.session.unit)})."
        )
        self._spacing.say(f"greatest way along a stroke between two holes; {_PRACTICE}")
        self._overhang.say(
            "greatest way from a tip to its first hole; at half the spacing a tip gives way less "
            "than a span does (beam theory)"
        )
        show_number(self._turning, 100 * limits.turning_share)
        self.proposal.refresh()
        self.editor.show_plan(plan)
        self.export.refresh()

    def _choose_rule_set(self, name: str) -> None:
        plan = self.session.committed
        if plan is not None:
            limits = replace(plan.limits, rule_set=name)
            self.push(replace(plan, limits=limits), "Choose the rule set")

    def _choose_turning(self, percent: float) -> None:
        plan = self.session.committed
        if plan is not None:
            limits = replace(plan.limits, turning_share=percent / 100)
            text = f"Set base against turning to {percent:.0f} %"
            self.push(replace(plan, limits=limits), text, source=self._turning)


def _reader(field: str) -> Read:
    return lambda plan: getattr(plan.limits, field)


def _writer(field: str) -> Write:
    def write(plan: Plan, mm: float | None) -> Plan:
        change: dict[str, Any] = {field: mm}
        return replace(plan, limits=replace(plan.limits, **change))

    return write
