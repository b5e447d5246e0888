"""Ways out as buttons: each cures the chosen finding in one step that can be undone."""

from __future__ import annotations

import math
from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QVBoxLayout, QWidget

from holeplacer.gui.form import RHYTHM, ActButton
from holeplacer.gui.session import Session
from holeplacer.gui.wording import in_unit
from holeplacer.units import LengthUnit, format_length

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
        if finding is not None:
            self._offer_move(finding)
        for way in self._ways(finding) if finding is not None else ():
            words = in_unit(way.text, self._session.unit)
            self._add(words[:1].upper() + words[1:], partial(self._take, way))
        self.setVisible(bool(self.buttons))

    def _add(self, words: str, act: Callable[[], None]) -> None:
        button = ActButton(words)
        button.setToolTip("One step; Undo takes it back")
        button.clicked.connect(lambda _checked=False: act())
        self._column.addWidget(button)
        self.buttons.append(button)

    def _offer_move(self, finding: Finding) -> None:
        """Offer the nearest place with metal enough to a hole that lacks it."""
        from holeplacer.rules import edge_distance

        layout = self._session.layout
        if layout is None or finding.rule != edge_distance.NAME:
            return
        room = edge_distance.nearest_room(layout.axis, *finding.place.xy_mm, finding.limit)
        if room is not None:
            way = format_length(math.dist(room, finding.place.xy_mm), self._session.unit)
            self._add(f"Move it {way} to where there is metal enough", partial(self._move, room))

    def _move(self, room: tuple[float, float]) -> None:
        from holeplacer.plan import edit

        plan, finding = self._session.committed, self._finding
        if plan is not None and finding is not None:
            number = finding.place.index
            self._session.push(edit.with_hole_moved(plan, number, *room), f"Move hole {number}")

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
