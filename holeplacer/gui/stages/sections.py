"""Sections: where the sign is divided onto the sheets at hand, and what goes to the table."""

from __future__ import annotations

from typing import TYPE_CHECKING

from holeplacer.gui.divider import Divider
from holeplacer.gui.exporter import Exporter
from holeplacer.gui.form import quiet
from holeplacer.gui.rail import StageState
from holeplacer.gui.session import Session
from holeplacer.gui.stages.sections_choices import ChoicesGroup, FeedsGroup
from holeplacer.gui.stages.sections_compared import ComparedGroup, long_words
from holeplacer.gui.stages.sections_coupon import CouponGroup
from holeplacer.gui.stages.sections_folder import FolderGroup
from holeplacer.gui.stages.sections_proposal import SeamGroup
from holeplacer.gui.stages.sections_sheets import SheetGroup
from holeplacer.gui.stages.sections_stock import StockGroup
from holeplacer.gui.stages.stage import Stage

if TYPE_CHECKING:
    from holeplacer.plan.plan import Plan


class SectionsStage(Stage):
    """Sheets at hand, seams, sections on sheets, coupon, and the folder for the table."""

    NAME = "Sections"
    RULES = ("seams", "seam_distance")

    def __init__(self, session: Session, divider: Divider, exporter: Exporter) -> None:
        super().__init__(session)
        self._divider = divider
        self.stock = StockGroup(self)
        self.seams = SeamGroup(self, divider)
        self.compared = ComparedGroup(self, divider)
        self.sheets = SheetGroup(self, divider)
        self.choices = ChoicesGroup(self)
        self._process = quiet()
        self.form.wide(self._process)
        self.feeds = FeedsGroup(self)
        self.coupon = CouponGroup(self)
        self.folder = FolderGroup(self, divider, exporter)
        self.form.end()
        divider.changed.connect(self.refresh_soon)

    def state(self) -> StageState:
        plan, layout = self.session.plan, self.session.layout
        if plan is None:
            return StageState(self.NAME)
        if not plan.sections.stock:
            return StageState(self.NAME, "no sheet at hand yet", self.open_findings())
        count = len(plan.seams)
        figure = "1 seam" if count == 1 else f"{count} seams"
        if count and layout is not None:
            weld = sum(seam.length_mm for seam in plan.seams)
            figure += f", weld {long_words(weld, self.session.unit)}"
        return StageState(self.NAME, figure, self.open_findings(), ready=layout is not None)

    def open_findings(self) -> int:
        """Rules broken, and sections that collide on their sheets."""
        division = self._divider.division
        collided = 0 if division is None else sum(item.broken for item in division.findings)
        return super().open_findings() + collided

    def show_plan(self, plan: Plan) -> None:
        if not self.isVisible():  # what is not seen may lag behind: being shown fills it
            return
        self.stock.show_plan(plan)
        self.seams.show_plan(plan)
        self.compared.show_plan(plan)
        self.sheets.show_plan(plan)
        self.choices.show_plan(plan)
        self._process.say(self._process_words(plan))
        self.feeds.show_plan(plan)
        self.coupon.show_plan(plan)
        self.folder.refresh()

    def _process_words(self, plan: Plan) -> str:
        from holeplacer.sheet import process

        found = process.process(plan.sheet.process)
        kerf = self.shown(found.kerf_mm(plan.sheet.thickness_mm))
        pierce = self.shown(found.pierce_clearance_mm(plan.sheet.thickness_mm))
        return (
            f"Cut by {found.title} (chosen on the Sheet stage): kerf {kerf}, pierces {pierce} "
            "clear of what stays."
        )
