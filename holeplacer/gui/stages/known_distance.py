"""Known distance: two points of the sign, picked or typed, and how far apart they really are."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QPushButton

from holeplacer.gui.form import Form, Row
from holeplacer.gui.length_field import LengthField
from holeplacer.gui.session import Point, Session
from holeplacer.units import format_length

if TYPE_CHECKING:
    from holeplacer.artwork.options import ReadOptions
    from holeplacer.evaluation.layout import Layout

_NAMES = ("First point x", "First point y", "Second point x", "Second point y")


class KnownDistanceRows(QObject):
    """The rows of a form by which the sign is scaled to one distance that is known.

    Attributes:
        entered: The points and the distance are complete: a `KnownDistance`.
    """

    entered = Signal(object)

    def __init__(self, form: Form, session: Session) -> None:
        super().__init__(form)
        self._session = session
        self._reading: ReadOptions | None = None
        self._layout: Layout | None = None
        pick = QPushButton("Pick two points of a known distance …")
        pick.clicked.connect(self._pick)
        form.wide(pick)
        self._fields = [LengthField(name, least_mm=-1e5, empty="mm") for name in _NAMES]
        self._labels: list[Row] = []
        for start, what in ((0, "From"), (2, "To")):
            pair = form.side_by_side(*self._fields[start : start + 2])
            pair.setAccessibleName(what)
        for field in self._fields:
            field.entered.connect(self._typed)
        self._distance = LengthField("Distance between them", least_mm=0.1, empty="really")
        self._row = form.row("Distance", self._distance)
        self._distance.entered.connect(self._typed)

    def show_reading(self, reading: ReadOptions, layout: Layout | None) -> None:
        """Show the known distance the sign is scaled by, if it is."""
        self._reading, self._layout = reading, layout
        for field in (*self._fields, self._distance):
            field.set_unit(self._session.unit)
        known = reading.known
        if known is not None and layout is not None:
            self._show_points(self._on_sign(((known.x1, known.y1), (known.x2, known.y2))))
            self._distance.set_mm(known.distance_mm)
        self._say_present()

    def _pick(self) -> None:
        self._session.ask_points("Click two points whose distance you know", 2, self._picked)

    def _picked(self, points: tuple[Point, ...]) -> None:
        self._show_points(points)
        self._distance.set_mm(None)
        self._say_present()
        self._distance.setFocus()

    def _show_points(self, points: tuple[Point, ...]) -> None:
        places = [value for point in points for value in point]
        for field, value in zip(self._fields, places, strict=True):
            field.set_mm(value)

    def _points(self) -> tuple[Point, Point] | None:
        values = [field.mm for field in self._fields]
        if any(value is None for value in values):
            return None
        return (values[0], values[1]), (values[2], values[3])

    def _say_present(self) -> None:
        points = self._points()
        present = "" if points is None else format_length(math.dist(*points), self._session.unit)
        self._row.say(f"is {present} now; enter what it really is" if present else
                      "pick or type the points first")  # fmt: skip

    def _typed(self) -> None:
        from holeplacer.artwork import options

        self._say_present()
        points, distance = self._points(), self._distance.mm
        if points is None or distance is None or points[0] == points[1]:
            return
        (x1, y1), (x2, y2) = self._as_drawn(points)
        known = options.KnownDistance(x1, y1, x2, y2, distance)
        if self._reading is None or known != self._reading.known:
            self.entered.emit(known)
