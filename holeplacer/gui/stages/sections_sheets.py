"""Sheet group: sections on their sheets, what is scrap, and those placed by hand."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QPushButton

from holeplacer.gui.divider import Divider
from holeplacer.gui.form import ErrorLine, WrappedLabel, quiet
from holeplacer.gui.sections_shown import SectionsShown
from holeplacer.gui.stages.sections_stock import size_words
from holeplacer.gui.stages.stage import Stage
from holeplacer.gui.wording import in_unit

if TYPE_CHECKING:
    from holeplacer.cutting.division import Division
    from holeplacer.plan.plan import Plan

_LOOK = {False: "Look at the sheets", True: "Back to the sign"}


class SheetGroup(QObject):
    """Rows of a form."""

    def __init__(self, stage: Stage, divider: Divider) -> None:
        super().__init__(stage)
        self._stage, self._divider = stage, divider
        self._shown = SectionsShown.of(stage.session)
        form = stage.form
        self._heading = form.heading("On the sheets")
        self.look = QPushButton(_LOOK[False])
        form.wide(self.look)
        self._sheets = WrappedLabel()
        form.wide(self._sheets)
        self._wrong = ErrorLine()
        form.wide(self._wrong)
        self._hands = quiet()
        form.wide(self._hands)
        self.anew = QPushButton("Lay the rest out anew")
        self.all_anew = QPushButton("Lay all out anew")
        form.side_by_side(self.anew, self.all_anew)
        self.look.clicked.connect(self._toggle)
        self.anew.clicked.connect(divider.lay_anew)
        self.all_anew.clicked.connect(divider.forget_hands)
        self._shown.changed.connect(stage.refresh_soon)

    def show_plan(self, plan: Plan) -> None:
        """Show where the sections of a plan lie."""
        found = self._divider.division
        laid = found is not None and found.layout is not None
        self.look.setText(_LOOK[self._shown.wants_sheets])
        self.look.setEnabled(laid or self._divider.last is not None or self._shown.wants_sheets)
        self._sheets.say(self._said(plan, found))
        unit = self._stage.session.unit
        wrong = () if found is None else found.findings
        self._wrong.say("\n▲ ".join(in_unit(f"{item.message}.", unit) for item in wrong))
        by_hand = sum(item.by_hand for item in plan.laid)
        self._hands.say(self._hand_words(by_hand) if laid else "")
        self.anew.setVisible(bool(by_hand))
        self.all_anew.setVisible(bool(plan.laid))

    def _said(self, plan: Plan, found: Division | None) -> str:
        if not plan.sections.stock:
            return "No sheet is at hand yet."
        if found is None:
            return "Sections are being laid …" if self._divider.working else ""
        if found.layout is None:
            return "" if found.findings else "Not every section fits a sheet: see the findings."
        unit = self._stage.session.unit
        lines = [
            f"sheet {number}: {size_words(sheet.stock, unit)}, "
            f"{len(found.layout.on_sheet(number - 1))} of {len(found.layout.placed)} sections, "
            f"{100 * figures.scrap_share:.0f} % scrap"
            for number, (sheet, figures) in enumerate(
                zip(found.layout.sheets, found.sheets, strict=True), start=1
            )
        ]
        return "\n".join(lines)

    def _hand_words(self, by_hand: int) -> str:
        if not by_hand:
            return (
                "Drag a section on its sheet to move it, by the grip at its edge to turn it; "
                "arrow keys nudge, R turns."
            )
        one = "1 section was" if by_hand == 1 else f"{by_hand} sections were"
        return f"{one} placed by hand and will stay when the rest is laid out anew."

    def _toggle(self) -> None:
        self._shown.set_on_sheets(not self._shown.wants_sheets)
