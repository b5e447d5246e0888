"""Sections shown: what of sections canvas, ribbon and sheets draw, whichever form is open."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal

from holeplacer.gui.session import Point, Session

if TYPE_CHECKING:
    from holeplacer.plan.seam import Seam


class SectionsShown(QObject):
    """What the person wants to see of sections; there is one for each session.

    Attributes:
        changed: Something of it is another one.
    """

    changed = Signal()

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self._open = False
        self._on_sheets = False
        self._placing = False
        self._way: tuple[str, tuple[Seam, ...]] | None = None
        session.opened.connect(self._forget)
        session.pick_changed.connect(self._picked)
        self._session = session

    @staticmethod
    def of(session: Session) -> SectionsShown:
        """The one of a session."""
        for child in session.children():
            if isinstance(child, SectionsShown):
                return child
        return SectionsShown(session)

    @property
    def open(self) -> bool:
        """The Sections stage is open: seams can be taken hold of, sections are told apart."""
        return self._open

    @property
    def on_sheets(self) -> bool:
        """Sections are looked at on their sheets, not on the sign."""
        return self._open and self._on_sheets

    @property
    def wants_sheets(self) -> bool:
        """The same as chosen, whether or not the stage is open."""
        return self._on_sheets

    @property
    def placing(self) -> bool:
        """The next click on a stroke puts a seam across it."""
        return self._placing

    @property
    def looked_at(self) -> str:
        """Name of the other way to divide the sign that is looked at; empty for the plan's own."""
        return "" if self._way is None else self._way[0]

    @property
    def other_seams(self) -> tuple[Seam, ...]:
        """Seams of that other way."""
        return () if self._way is None else self._way[1]

    def set_open(self, open_: bool) -> None:
        """The Sections stage was opened or left."""
        if open_ != self._open:
            self._open = open_
            if not open_:
                self._way = None
                self.stop_placing()
            self.changed.emit()

    def set_on_sheets(self, on_sheets: bool) -> None:
        """Look at the sheets, or at the sign."""
        if on_sheets != self._on_sheets:
            self._on_sheets = on_sheets
            self.changed.emit()

    def look_at(self, name: str, seams: tuple[Seam, ...]) -> None:
        """Draw the seams of another way to divide the sign; an empty name ends that."""
        way = (name, seams) if name else None
        if way != self._way:
            self._way = way
            self.changed.emit()

    def place_seam(self, add: Callable[[Point], object]) -> None:
        """Have the next click on a stroke put a seam there: `add` is called with the place."""
        self._placing = True

        def then(points: tuple[Point, ...]) -> None:
            add(points[0])

        self._session.ask_points("Click a stroke to put a seam across it", 1, then)
        self.changed.emit()

    def stop_placing(self) -> None:
        """No seam is put anywhere by the next click."""
        if self._placing:
            self._placing = False
            self._session.drop_pick()

    def _picked(self) -> None:
        if self._session.pick is None and self._placing:
            self._placing = False
            self.changed.emit()

    def _forget(self) -> None:
        self._way = None
        self._on_sheets = False
        self.changed.emit()
