"""Other ticks: what else than holes stands on the ribbon and can be taken hold of there."""

from __future__ import annotations

from typing import TYPE_CHECKING, Protocol

if TYPE_CHECKING:
    from PySide6.QtCore import QPoint, QRect, SignalInstance
    from PySide6.QtGui import QPainter

    from holeplacer.gui.canvas.drag import Pointer
    from holeplacer.gui.canvas.plate import Line
    from holeplacer.gui.canvas.seam_drag import SeamDrag
    from holeplacer.gui.theme import Colours


class OtherTicks(Protocol):
    """Asked by the ribbon before it takes a press, a key or a double click for itself."""

    @property
    def held_changed(self) -> SignalInstance:
        """Tells which one is being dragged, -1 when it is let go."""

    def paint(self, painter: QPainter, base_px: float, colours: Colours, exposed: QRect) -> None:
        """Paint those in sight."""

    def tick_at(self, px: QPoint) -> object | None:
        """The one under a pixel."""

    def gesture_at(self, at: Pointer) -> SeamDrag | None:
        """A drag of the one that is pressed."""

    def lines(self, gesture: SeamDrag) -> tuple[Line, ...]:
        """Figures of the one in hand."""

    def hover_at(self, px: QPoint | None) -> bool:
        """The pointer is here, or gone; whether something here can be held."""

    def select_at(self, px: QPoint) -> bool:
        """Select what is here for a context menu; whether something is."""

    def add_at(self, px: QPoint) -> bool:
        """Add one here after a double click; False leaves it to others."""

    def slide(self, by: int, *, fine: bool) -> bool:
        """Move what is selected by a key; False if nothing of these is selected."""

    def step(self, by: int) -> bool:
        """Select the next or previous one by Tab; False leaves it to others."""
