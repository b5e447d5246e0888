"""Things: what else than holes can be taken hold of on the canvas."""

from __future__ import annotations

from typing import Protocol

from holeplacer.gui.canvas.drag import Gesture, Pointer


class Things(Protocol):
    """Asked by the canvas before it takes a press, a key or a double click for itself."""

    def gesture_at(self, at: Pointer) -> Gesture | None:
        """What a press here does; None if nothing of these things is here."""

    def hover_at(self, at: Pointer | None) -> bool:
        """The pointer is here, or gone; whether something here can be held."""

    def select_at(self, at: Pointer) -> bool:
        """Select what is here for a context menu; whether something is."""

    def add_at(self, at: Pointer) -> bool:
        """Add one of them here after a double click; False leaves it to others."""

    def nudge(self, across: int, up: int, *, fine: bool) -> bool:
        """Move what is selected by a key; False if nothing of these is selected."""

    def step(self, by: int) -> bool:
        """Select the next or previous one by Tab; False leaves it to others."""
