"""Strength shown: which response canvas, ribbon and forms draw, and the scales they share."""

from __future__ import annotations

import math
from enum import Enum
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal

from holeplacer.gui.session import Session
from holeplacer.gui.strength_words import MPA_PER_KSI
from holeplacer.loads.force import N_PER_POUND
from holeplacer.units import MM_PER_INCH, LengthUnit

if TYPE_CHECKING:
    from holeplacer.rules.load_effects import InPlaneCase
    from holeplacer.rules.strength import Strength
    from holeplacer.structure.response import Response

_ROUND = (1.0, 1.2, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0)

_INCH_SIZES = {
    "deflection": MM_PER_INCH,
    "stress": MPA_PER_KSI,
    "reaction": N_PER_POUND,
    "shear": N_PER_POUND,
}
"""What is one on a scale shown in inches, pounds and ksi, so that it ends in a round figure."""

WORST = ""
"""The case that is worst in what is drawn."""


class Colouring(Enum):
    """What the strokes are coloured by."""

    NOTHING = "nothing"
    DEFLECTION = "deflection"
    STRESS = "stress"


class StrengthShown(QObject):
    """What the person wants to see of strength; there is one for each session.

    Attributes:
        changed: What is drawn is another one: choice, scale or response.
    """

    changed = Signal()

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self._session = session
        self.colouring = Colouring.DEFLECTION
        self.reactions = True
        self.deflected = False
        self._case = WORST
        self._open = False
        self._pinned = False
        self._tops = dict.fromkeys(("deflection", "stress", "reaction", "shear"), 0.0)
        session.evaluation_changed.connect(self._evaluated)
        session.unit_changed.connect(self._evaluated)
        session.opened.connect(self._forget)

    @staticmethod
    def of(session: Session) -> StrengthShown:
        """The one of a session."""
        for child in session.children():
            if isinstance(child, StrengthShown):
                return child
        return StrengthShown(session)

    # --- whether and what ---

    @property
    def strength(self) -> Strength | None:
        """What is known of strength; None where no wind is chosen."""
        evaluation = self._session.evaluation
        return None if evaluation is None else evaluation.strength

    @property
    def drawn(self) -> Strength | None:
        """The same where it is to be drawn, else None."""
        return self.strength if self._open or self._pinned else None

    @property
    def pinned(self) -> bool:
        """Drawn whichever stage is open."""
        return self._pinned

    @property
    def case(self) -> str:
        """Name of the case the person chose; `WORST` for the worst."""
        return self._case

    @property
    def response(self) -> Response | None:
        """The response that is drawn."""
        found = self.drawn
        return None if found is None else self.chosen_of(found)

    @property
    def in_plane(self) -> InPlaneCase | None:
        """The case in the sheet's plane that the person chose; None where it is another kind."""
        found = self.drawn
        cases = () if found is None else found.effects.in_plane
        return next((case for case in cases if case.name == self._case), None)

    def chosen_of(self, found: Strength) -> Response:
        """The response to the chosen case, or to the worst one."""
        responses = found.effects.wind
        for response in responses:
            if response.name == self._case:
                return response
        if self.colouring is Colouring.STRESS:
            return max(responses, key=lambda response: response.max_stress_mpa)
        return max(responses, key=lambda response: response.max_deflection_mm)

    def top(self, of: str) -> float:
        """Round figure at the upper end of a scale: `deflection`, `stress`, `reaction`, `shear`.

        While a hole is dragged it only grows, so that colours and lengths can be compared.
        """
        return self._tops[of]

    # --- choosing ---

    def set_open(self, open_: bool) -> None:
        """The Strength stage was opened or left."""
        self._set("_open", open_)

    def set_pinned(self, pinned: bool) -> None:
        """Draw it whichever stage is open, or no longer."""
        self._set("_pinned", pinned)

    def set_case(self, case: str) -> None:
        """Draw another case."""
        self._set("_case", case)

    def set_colouring(self, colouring: Colouring) -> None:
        """Colour the strokes by something else."""
        self._set("colouring", colouring)

    def set_reactions(self, seen: bool) -> None:
        """Draw reactions as arrows, or not."""
        self._set("reactions", seen)

    def set_deflected(self, seen: bool) -> None:
        """Draw the deflected shape, or not."""
        self._set("deflected", seen)

    def _set(self, name: str, value: object) -> None:
        if getattr(self, name) != value:
            setattr(self, name, value)
            self._scale()
            self.changed.emit()

    # --- in step with the session ---

    def _evaluated(self) -> None:
        if self._open or self._pinned:
            self._scale()
            self.changed.emit()

    def _forget(self) -> None:
        self._tops = dict.fromkeys(self._tops, 0.0)

    def _scale(self) -> None:
        found = self.drawn
        if found is None:
            return
        responses = found.effects.wind
        pulls = [abs(force) for response in responses for force in response.reactions_n]
        in_plane = found.effects.in_plane
        shears = [
            case.shear_n(index) for case in in_plane for index in range(len(case.result.forces_n))
        ]
        greatest = {
            "deflection": max(response.max_deflection_mm for response in responses),
            "stress": max(response.max_stress_mpa for response in responses),
            "reaction": max(pulls, default=0.0),
            "shear": max(shears, default=0.0),
        }
        held = self._session.plan is not self._session.committed
        sizes = _INCH_SIZES if self._session.unit is LengthUnit.INCH else {}
        for name, value in greatest.items():
            least, size = self._tops[name] if held else 0.0, sizes.get(name, 1.0)
            self._tops[name] = max(round_up(value / size) * size, least)


def round_up(value: float) -> float:
    """The next round figure: one that ticks divide well.

    >>> round_up(3.7), round_up(82.0), round_up(0.0)
    (4.0, 100.0, 1.0)
    """
    if not value > 0 or value == float("inf"):
        return 1.0
    power = 10.0 ** math.floor(math.log10(value))
    return next(step * power for step in _ROUND if step * power >= value * (1 - 1e-9))
