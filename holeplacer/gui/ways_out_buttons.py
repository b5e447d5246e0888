"""Ways out as buttons: each cures the chosen finding in one step that can be undone."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QVBoxLayout, QWidget

from holeplacer.gui.form import RHYTHM, ActButton
from holeplacer.gui.session import Session
from holeplacer.gui.wording import in_unit
from holeplacer.units import LengthUnit

if TYPE_CHECKING:
    from holeplacer.rules.finding import Finding
    from holeplacer.rules.ways_out import WayOut


class WaysOutButtons(QWidget):
    """One button per cure, with its figure.

    Attributes:
        buttons: Those shown.
    """

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self._finding: Finding | None = None
        self._unit = LengthUnit.MM
        self.buttons: list[ActButton] = []
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(RHYTHM // 2)

    def show_finding(self, finding: Finding | None) -> None:
        """Offer the cures of a finding; none for None."""
        if (finding, self._session.unit) == (self._finding, self._unit):
            return
        self._finding, self._unit = finding, self._session.unit
        for old in self.buttons:
            old.deleteLater()
        self.buttons.clear()
        for way in self._ways(finding) if finding is not None else ():
            words = in_unit(way.text, self._session.unit)
            button = ActButton(words[:1].upper() + words[1:])
            button.setToolTip("One step; Undo takes it back")
            button.clicked.connect(lambda _checked=False, chosen=way: self._take(chosen))
            self._column.addWidget(button)
            self.buttons.append(button)
        self.setVisible(bool(self.buttons))

    def _ways(self, finding: Finding) -> tuple[WayOut, ...]:
        from holeplacer.evaluation import cures

        plan, evaluation = self._session.plan, self._session.evaluation
        if plan is None or evaluation is None:
            return ()
        return cures.cures(plan, evaluation, finding)

    def _take(self, way: WayOut) -> None:
        from holeplacer.rules import ways_out

        plan, finding = self._session.committed, self._finding
        if plan is None or finding is None:
            return
        number = finding.place.index if finding.place.kind.value == "hole" else None
        self._session.push(ways_out.taken(plan, way, number=number), f"Take {way.text}")
