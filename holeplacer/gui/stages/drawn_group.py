"""Drawn group: what of strength is drawn on the sign, and for which load case."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QSignalBlocker
from PySide6.QtWidgets import QCheckBox

from holeplacer.gui.stages.stage import Choice, Stage
from holeplacer.gui.strength_shown import WORST, Colouring, StrengthShown

if TYPE_CHECKING:
    from holeplacer.rules.strength import Strength

_COLOURINGS = (
    ("deflection", Colouring.DEFLECTION), ("stress", Colouring.STRESS),
    ("nothing", Colouring.NOTHING),
)  # fmt: skip


class DrawnGroup(QObject):
    """Rows of a form; they change the view, not the plan."""

    def __init__(self, stage: Stage, shown: StrengthShown) -> None:
        super().__init__(stage)
        self._shown = shown
        form = stage.form
        self._heading = form.heading("Drawn on the sign")
        self._case = Choice()
        self._colouring = Choice()
        self._reactions = QCheckBox("as arrows")
        self._deflected = QCheckBox("exaggerated")
        self._rows = (
            form.row("Load case", self._case),
            form.row("Strokes by", self._colouring),
            form.row("Reactions", self._reactions),
            form.row("Deflected shape", self._deflected),
        )
        self._case.chosen.connect(shown.set_case)
        self._colouring.chosen.connect(shown.set_colouring)
        self._reactions.toggled.connect(shown.set_reactions)
        self._deflected.toggled.connect(shown.set_deflected)
        shown.changed.connect(stage.refresh_soon)

    def show_strength(self, found: Strength | None) -> None:
        """Offer the cases of a result; without one there is nothing to draw."""
        for row in self._rows:
            row.show(found is not None)
        self._heading.setVisible(found is not None)
        if found is None:
            return
        effects = found.effects
        names = [response.name for response in effects.wind]
        names += [case.name for case in effects.in_plane]
        chosen = self._shown.case if self._shown.case in names else WORST
        self._case.offer([("the worst", WORST), *((name, name) for name in names)], chosen)
        across = all(case.name != self._shown.case for case in effects.in_plane)
        for row in (self._rows[1], self._rows[3]):  # in the plane there is neither
            row.entry.setEnabled(across)
        self._colouring.offer(_COLOURINGS, self._shown.colouring)
        for box, on in (
            (self._reactions, self._shown.reactions), (self._deflected, self._shown.deflected),
        ):  # fmt: skip
            with QSignalBlocker(box):
                box.setChecked(on)
