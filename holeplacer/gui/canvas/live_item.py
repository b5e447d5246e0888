"""What a hole in hand costs, under the pointer: the metal it needs, and what comes short."""

from __future__ import annotations

import math
from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QFont, QPainter, QPen
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from holeplacer.gui.canvas.label_item import LabelItem
from holeplacer.gui.canvas.plate import Line
from holeplacer.gui.theme import Colours

_TARGET_PX = 4.0
_CLEAR_PX = 18.0
_ROOMY_PX = 16.0


@dataclass(frozen=True)
class LiveFigures:
    """Figures of the hole in hand.

    Attributes:
        centre: Of the hole, mm.
        need_mm: Least edge distance: radius of the disc that must be metal.
        edge_point: Nearest point of the cut edges.
        edge_figure: Distance to it, with unit.
        short: It is nearer than needed.
        lines: Edge distance, spans and overhang, each with its limit; and why no hole can be
            here, if so.
    """

    centre: tuple[float, float]
    need_mm: float
    edge_point: tuple[float, float]
    edge_figure: str
    short: bool
    lines: tuple[Line, ...]


class LiveItem(QGraphicsItem):
    """The disc of the needed edge distance, the leader to the nearest edge, the figures.

    Attributes:
        figures: What it shows.
        plate, edge: The labels beside the hole and at the edge, items of their own so that they
            lie above the holes.
    """

    def __init__(self, colours: Colours, font: QFont) -> None:
        super().__init__()
        self.figures: LiveFigures | None = None
        self._colours = colours
        self._px_per_mm = 1.0
        self.plate = LabelItem(colours, font)
        self.edge = LabelItem(colours, font)
        self.setAcceptedMouseButtons(Qt.MouseButton.NoButton)
        self.setZValue(-1)
        self.setVisible(False)

    def wear_colours(self, colours: Colours) -> None:
        """Paint with another colour set."""
        self._colours = colours
        self.plate.wear_colours(colours)
        self.edge.wear_colours(colours)
        self.update()

    def set_scale(self, px_per_mm: float) -> None:
        """The view shows so many pixels a millimetre from now on."""
        self.prepareGeometryChange()
        self._px_per_mm = px_per_mm

    def show_figures(self, figures: LiveFigures | None, room: QRectF) -> None:
        """Show other figures, or none.

        Args:
            figures: What to show.
            room: What the view shows, mm; the plate stays inside.
        """
        self.prepareGeometryChange()
        self.figures = figures
        self.setVisible(figures is not None)
        if figures is None:
            self.plate.say(())
            self.edge.say(())
            return
        self.plate.setPos(*figures.centre)
        self.plate.say(figures.lines)
        self.plate.offset_by(self._plate_offset(figures, room))
        self.edge.setPos(*figures.edge_point)
        self.edge.say((Line(figures.edge_figure, broken=figures.short),) if self._roomy else ())
        self.edge.offset_by(self._edge_offset(figures))
        self.update()

    def boundingRect(self) -> QRectF:
        if self.figures is None:
            return QRectF()
        (x, y), need = self.figures.centre, self.figures.need_mm
        margin = (_TARGET_PX + 2) / self._px_per_mm
        at_edge = QRectF(*self.figures.edge_point, 1e-9, 1e-9)
        box = QRectF(x - need, y - need, 2 * need, 2 * need).united(at_edge)
        return box.adjusted(-margin, -margin, margin, margin)

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        del option, widget
        if self.figures is None:
            return
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        ink = self._colours.colour("alert" if self.figures.short else "accent")
        pen = QPen(ink, 1)
        pen.setCosmetic(True)
        centre, edge = QPointF(*self.figures.centre), QPointF(*self.figures.edge_point)
        painter.setPen(pen)
        painter.setBrush(self._colours.colour("reach"))
        painter.drawEllipse(centre, self.figures.need_mm, self.figures.need_mm)
        painter.drawLine(centre, edge)
        half = _TARGET_PX / self._px_per_mm
        for dx, dy in ((half, half), (half, -half)):
            painter.drawLine(edge - QPointF(dx, dy), edge + QPointF(dx, dy))

    @property
    def _roomy(self) -> bool:
        """Whether a figure at the edge has room beside the disc; the plate says it anyway."""
        return self.figures is not None and self.figures.need_mm * self._px_per_mm >= _ROOMY_PX

    def _plate_offset(self, figures: LiveFigures, room: QRectF) -> QPointF:
        """Below and right of the hole, on another side where the view ends."""
        clear = max(figures.need_mm * self._px_per_mm, 12.0) + _CLEAR_PX
        size = self.plate.size_px
        x, y = figures.centre
        right = (room.right() - x) * self._px_per_mm > clear + size.width()
        below = (y - room.top()) * self._px_per_mm > clear + size.height()
        return QPointF(
            clear * 0.75 if right else -clear * 0.75 - size.width(),
            clear * 0.75 if below else -clear * 0.75 - size.height(),
        )

    def _edge_offset(self, figures: LiveFigures) -> QPointF:
        """Beyond the edge point, on the far side from the hole."""
        dx = figures.edge_point[0] - figures.centre[0]
        dy = figures.edge_point[1] - figures.centre[1]
        away = math.hypot(dx, dy) or 1.0
        size = self.edge.size_px
        across = 10 * dx / away - (size.width() if dx < 0 else 0)
        along = -10 * dy / away - (size.height() if dy > 0 else 0)
        return QPointF(across, along)
