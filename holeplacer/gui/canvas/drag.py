"""Gestures: one class for each thing a held pointer does; the ribbon uses the same ones.

A gesture is started, moved any number of times, and then either committed (at most one step in
the undo stack) or cancelled (everything is as before). It speaks of places on the sign in mm;
whoever drives it turns pixels into places.
"""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtCore import QPoint, Qt

from holeplacer.gui.session import Session

if TYPE_CHECKING:
    from holeplacer.plan.plan import Plan

Point = tuple[float, float]
Places = Mapping[int, Point]
Carry = Callable[[Places, "Pointer", "Pointer"], Places]
"""Where holes go: their places at the press, the press, and where the pointer is now."""

SLACK_PX = 3
"""A press that moves no further than this is a click."""


@dataclass(frozen=True)
class Pointer:
    """Where the pointer is and what is held with it.

    Attributes:
        place: On the sign, mm.
        px: On the widget.
        free: A hole may leave the axis (Alt, or Ctrl where the window manager takes Alt).
        adds: What is touched joins the selection (Ctrl or Shift).
        straight: A measured line stays level or upright (Shift).
    """

    place: Point
    px: QPoint
    free: bool = False
    adds: bool = False
    straight: bool = False

    def strays(self, start: Pointer) -> bool:
        """Whether it has left the place of the press for good."""
        return (self.px - start.px).manhattanLength() > SLACK_PX


class Gesture(ABC):
    """Something a held pointer does."""

    cursor: Qt.CursorShape | None = None

    @abstractmethod
    def move(self, at: Pointer) -> None:
        """The pointer went here."""

    @abstractmethod
    def commit(self, at: Pointer) -> None:
        """The button was let go here."""

    @abstractmethod
    def cancel(self) -> None:
        """Everything as before."""


class HoleDrag(Gesture):
    """Moves the held hole, and with it all that are selected; nothing is silently corrected.

    Each slides along the axis on its own, or is carried freely: `carry` knows which. A hole
    stays where it is let go; if it breaks a rule there, that is a finding.
    """

    cursor = Qt.CursorShape.ClosedHandCursor

    def __init__(self, session: Session, number: int, carry: Carry, start: Pointer) -> None:
        self._session = session
        self._carry = carry
        self._start = start
        self._moving = False
        self.number = number
        if start.adds:
            _toggle(session, number)
        elif number not in session.selected_holes:
            session.select_holes({number})
        plan = session.committed
        self._before: Plan | None = plan
        moved = session.selected_holes if number in session.selected_holes else {number}
        self._places = {
            hole.number: (hole.x_mm, hole.y_mm)
            for hole in (plan.holes if plan is not None else ())
            if hole.number in moved
        }

    @property
    def moving(self) -> bool:
        """Whether it moves, or is still no more than a press."""
        return self._moving

    def move(self, at: Pointer) -> None:
        if self._overtaken or not (self._moving or at.strays(self._start)):
            return
        self._moving = True
        self._session.preview(self._moved(at))

    def commit(self, at: Pointer) -> None:
        if not self._moving:
            if not at.adds and len(self._session.selected_holes) > 1:
                self._session.select_holes({self.number})
            return
        self._moving = False
        plan = None if self._overtaken else self._moved(at)
        if plan is not None:
            self._session.push(plan, named("Move", self._places))

    def cancel(self) -> None:
        if self._moving:
            self._moving = False
            self._session.preview(None)

    @property
    def _overtaken(self) -> bool:
        """Whether another step was made meanwhile, by a key: it counts, the drag does not."""
        return self._session.committed is not self._before

    def _moved(self, at: Pointer) -> Plan | None:
        plan = self._before
        if plan is None or self.number not in self._places:
            return plan
        from holeplacer.plan import edit  # with the first drag, not with the window

        for number, place in self._carry(self._places, self._start, at).items():
            plan = edit.with_hole_moved(plan, number, *place)
        return plan


class BandSelection(Gesture):
    """Selects the holes inside a rectangle drawn from the press."""

    def __init__(
        self, session: Session, start: Pointer, show: Callable[[Point | None, Point], None]
    ) -> None:
        """Draw the rectangle through `show(corner, corner)`; None there takes it away."""
        self._session = session
        self._start = start
        self._show = show
        self._before = session.selected_holes
        self._kept = self._before if start.adds else frozenset()
        self._drawn = False

    def move(self, at: Pointer) -> None:
        if not self._drawn and not at.strays(self._start):
            return
        self._drawn = True
        self._show(self._start.place, at.place)
        self._session.select_holes(self._kept | self._inside(at.place))

    def commit(self, at: Pointer) -> None:
        self._show(None, at.place)
        if not self._drawn and not self._start.adds:
            self._session.select_holes(())

    def cancel(self) -> None:
        self._show(None, self._start.place)
        self._session.select_holes(self._before)

    def _inside(self, corner: Point) -> frozenset[int]:
        plan = self._session.plan
        left, right = sorted((self._start.place[0], corner[0]))
        low, high = sorted((self._start.place[1], corner[1]))
        return frozenset(
            hole.number
            for hole in (plan.holes if plan is not None else ())
            if left <= hole.x_mm <= right and low <= hole.y_mm <= high
        )


class Pan(Gesture):
    """Moves the view under the pointer; the plan is not touched."""

    cursor = Qt.CursorShape.ClosedHandCursor

    def __init__(self, scroll: Callable[[QPoint], None], start: Pointer) -> None:
        """Scroll through `scroll(pixels moved since last time)`."""
        self._scroll = scroll
        self._start = start.px
        self._last = start.px

    def move(self, at: Pointer) -> None:
        self._scroll(at.px - self._last)
        self._last = at.px

    def commit(self, at: Pointer) -> None:
        self.move(at)

    def cancel(self) -> None:
        self._scroll(self._start - self._last)


def named(verb: str, numbers: Iterable[int]) -> str:
    """Name of a step: `Move hole 7`, `Move 3 holes`."""
    held = sorted(numbers)
    return f"{verb} hole {held[0]}" if len(held) == 1 else f"{verb} {len(held)} holes"


def _toggle(session: Session, number: int) -> None:
    session.select_holes(session.selected_holes ^ {number})
