"""Strength: wind, how the sheet is held, and what they do to it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from holeplacer.gui.rail import StageState
from holeplacer.gui.session import Session
from holeplacer.gui.stages.drawn_group import DrawnGroup
from holeplacer.gui.stages.holding_group import HoldingGroup
from holeplacer.gui.stages.limits_group import LimitsGroup
from holeplacer.gui.stages.loading_rows import LoadingRows
from holeplacer.gui.stages.stage import Stage
from holeplacer.gui.stages.step_table import StepGroup
from holeplacer.gui.stages.strength_result import StrengthResult
from holeplacer.gui.stages.wind_group import WindGroup
from holeplacer.gui.strength_shown import StrengthShown
from holeplacer.gui.strength_words import not_known, share_words, worst_known

if TYPE_CHECKING:
    from holeplacer.plan.plan import Plan
    from holeplacer.rules.strength import Strength


class StrengthStage(Stage):
    """What wind and weight do to every stroke and standoff."""

    NAME = "Strength"
    RULES = ("strength",)

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self._rows = LoadingRows(self)
        self.wind = WindGroup(self, self._rows)
        self.result = StrengthResult(self)
        self.limits = LimitsGroup(self)
        self.drawn = DrawnGroup(self, StrengthShown.of(session))
        self.steps = StepGroup(self)
        self.holding = HoldingGroup(self, self._rows)
        self.form.end()

    def state(self) -> StageState:
        plan, evaluation = self.session.plan, self.session.evaluation
        if plan is None:
            return StageState(self.NAME)
        if plan.loading.method == "none":
            return StageState(self.NAME, "no wind chosen")
        found = None if evaluation is None else evaluation.strength
        if found is None:
            return StageState(self.NAME, "a figure is missing", self.open_findings())
        return StageState(self.NAME, _in_short(found), self.open_findings(), ready=True)

    def show_plan(self, plan: Plan) -> None:
        evaluation = self.session.evaluation
        found = None if evaluation is None else evaluation.strength
        self._rows.show_plan(plan)
        self.holding.show_plan(plan)
        self.result.show_plan(plan)
        self.limits.show_plan(plan)
        self.drawn.show_strength(found)
        self.steps.show_pressure(None if found is None else found.effects.pressure)


def _in_short(found: Strength) -> str:
    """Worst utilisation with its check, and how many checks can't be judged yet."""
    worst, missing = worst_known(found), len(not_known(found))
    words = []
    if worst is not None:
        words.append(f"{worst.utilisation.check} {share_words(worst.share)}")
    if missing:
        words.append(f"{missing} not known")
    return ", ".join(words)
