"""Section drag: a section carried or turned on its sheet by hand; one drag is one step."""

from __future__ import annotations

import math
from collections.abc import Callable

from PySide6.QtCore import Qt

from holeplacer.gui.canvas.drag import Gesture, Pointer

Show = Callable[[float, float, float], None]
"""Shows a section so far to the right, upwards and turned, from where it was."""

Keep = Callable[[float, float, float], None]
"""Keeps it there, as one step."""

Point = tuple[float, float]


class SectionMove(Gesture):
    """Carries a section along with the pointer."""

    cursor = Qt.CursorShape.ClosedHandCursor

    def __init__(self, start: Pointer, show: Show, keep: Keep) -> None:
        self._start, self._show, self._keep = start, show, keep
        self.moving = False

    def move(self, at: Pointer) -> None:
        if self.moving or at.strays(self._start):
            self.moving = True
            self._show(*self._way(at))

    def commit(self, at: Pointer) -> None:
        if self.moving:
            self._keep(*self._way(at))

    def cancel(self) -> None:
        if self.moving:
            self._show(0.0, 0.0, 0.0)

    def _way(self, at: Pointer) -> tuple[float, float, float]:
        return (at.place[0] - self._start.place[0], at.place[1] - self._start.place[1], 0.0)


class SectionTurn(Gesture):
    """Turns a section about its centre, in steps unless the pointer frees it."""

    cursor = Qt.CursorShape.ClosedHandCursor

    def __init__(
        self,
        start: Pointer,
        show: Show,
        keep: Keep,
        *,
        centre: Point,
        angle_rad: float,
        step_rad: float,
        free: bool,
    ) -> None:
        """Begin.

        Args:
            start: The press.
            show: Shows it turned.
            keep: Keeps it turned.
            centre: What it turns about, in the scene.
            angle_rad: How far it is turned now.
            step_rad: It turns to whole multiples of this.
            free: Whether the pointer may free it from the steps.
        """
        self._start, self._show, self._keep = start, show, keep
        self._centre, self._angle, self._step, self._free = centre, angle_rad, step_rad, free
        self.moving = False

    def move(self, at: Pointer) -> None:
        if self.moving or at.strays(self._start):
            self.moving = True
            self._show(0.0, 0.0, self._turned(at))

    def commit(self, at: Pointer) -> None:
        if self.moving:
            self._keep(0.0, 0.0, self._turned(at))

    def cancel(self) -> None:
        if self.moving:
            self._show(0.0, 0.0, 0.0)

    def _turned(self, at: Pointer) -> float:
        by = self._direction(at) - self._direction(self._start)
        if not (at.free and self._free):
            by = round((self._angle + by) / self._step) * self._step - self._angle
        return math.remainder(by, 2 * math.pi)

    def _direction(self, at: Pointer) -> float:
        return math.atan2(at.place[1] - self._centre[1], at.place[0] - self._centre[0])
