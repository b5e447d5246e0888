"""Known distance: two points of the sign, picked or typed, and how far apart they really are."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QGridLayout, QLabel, QPushButton, QWidget

from holeplacer.gui.form import RHYTHM, ErrorLine, quiet
from holeplacer.gui.length_field import LengthField
from holeplacer.gui.session import Point, Session
from holeplacer.units import format_length

if TYPE_CHECKING:
    from holeplacer.artwork.options import ReadOptions
    from holeplacer.evaluation.layout import Layout

_ENDS = ("From", "To")


class KnownDistanceForm(QWidget):
    """By which the sign is scaled to one distance that is known.

    Attributes:
        entered: The points and the distance are complete: a `KnownDistance`.
    """

    entered = Signal(object)

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self._reading: ReadOptions | None = None
        self._layout: Layout | None = None
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setSpacing(RHYTHM // 2)
        self.pick = QPushButton("Pick two points on the sign …")
        self.pick.clicked.connect(self._pick)
        self._grid.addWidget(self.pick, 0, 0, 1, 3)
        self.points: list[LengthField] = []
        self._error = ErrorLine()
        for row, end in enumerate(_ENDS, start=1):
            self._grid.addWidget(QLabel(f"{end} x, y"), row, 0)
            for column, part in enumerate("xy", start=1):
                field = self._field(f"{end} {part}", least_mm=-1e5, empty=part)
                self._grid.addWidget(field, row, column)
                self.points.append(field)
        self.distance = self._field("Distance between them", least_mm=0.1, empty="really")
        self._grid.addWidget(QLabel("Distance"), 3, 0)
        self._grid.addWidget(self.distance, 3, 1, 1, 2)
        self._note = quiet()
        self._grid.addWidget(self._note, 4, 0, 1, 3)
        self._grid.addWidget(self._error, 5, 0, 1, 3)
        self._grid.setColumnStretch(1, 1)
        self._grid.setColumnStretch(2, 1)
        self._say_present()

    def show_reading(self, reading: ReadOptions, layout: Layout | None) -> None:
        """Show the known distance the sign is scaled by, if it is."""
        known, shown = reading.known, self._reading.known if self._reading else None
        again = layout is not self._layout
        self._reading, self._layout = reading, layout
        for field in (*self.points, self.distance):
            field.set_unit(self._session.unit)
        if known is not None and layout is not None and (known != shown or again):
            from holeplacer.artwork import placing

            ends = ((known.x1, known.y1), (known.x2, known.y2))
            on_sign = placing.on_sign(layout.artwork, layout.plan.reading, ends)
            self._show_points(on_sign.tolist())
            self.distance.set_mm(known.distance_mm)
        self._say_present()

    def _field(self, name: str, *, least_mm: float, empty: str) -> LengthField:
        field = LengthField(name, least_mm=least_mm, empty=empty)
        field.entered.connect(self._typed)
        field.refused.connect(self._error.say)
        return field

    def _pick(self) -> None:
        self._session.ask_points("Click two points whose distance you know", 2, self._picked)

    def _picked(self, points: tuple[Point, ...]) -> None:
        self._show_points(points)
        self.distance.set_mm(None)
        self._say_present()
        self.distance.setFocus()

    def _show_points(self, points: Iterable[Iterable[float]]) -> None:
        places = [value for point in points for value in point]
        for field, value in zip(self.points, places, strict=True):
            field.set_mm(value)

    def _ends(self) -> tuple[Point, Point] | None:
        x1, y1, x2, y2 = (field.mm for field in self.points)
        if x1 is None or y1 is None or x2 is None or y2 is None:
            return None
        return (x1, y1), (x2, y2)

    def _say_present(self) -> None:
        ends = self._ends()
        if ends is None:
            self._note.say("Pick or type both points, then enter how far apart they really are.")
            return
        present = format_length(math.dist(*ends), self._session.unit)
        self._note.say(f"They are {present} apart now; enter what it really is.")

    def _typed(self) -> None:
        from holeplacer.artwork import options, placing

        self._say_present()
        ends, distance, layout = self._ends(), self.distance.mm, self._layout
        if ends is None or distance is None or layout is None or self._reading is None:
            return
        if ends[0] == ends[1]:
            self._error.say("The two points are the same; take two that are apart.")
            return
        drawn = placing.as_drawn(layout.artwork, layout.plan.reading, ends)
        (x1, y1), (x2, y2) = drawn.tolist()
        known = options.KnownDistance(x1, y1, x2, y2, distance)
        if known != self._reading.known:
            self.entered.emit(known)
