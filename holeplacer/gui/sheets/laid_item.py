"""One section as it lies on its sheet: its metal, holes, name, and its state by shape."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QFont, QPainter, QPen
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget
from shapely import affinity

from holeplacer.gui.canvas.label_item import LabelItem
from holeplacer.gui.canvas.paths import Detail
from holeplacer.gui.canvas.plate import Line
from holeplacer.gui.canvas.section_tint import brush
from holeplacer.gui.theme import Colours

if TYPE_CHECKING:
    from shapely.geometry import Polygon

GRIP_PX = 6.0
_GRIP_AWAY_PX = 26.0
_PIN_PX = 16.0


@dataclass(frozen=True)
class LaidMark:
    """All that is seen of a section on its sheet.

    Attributes:
        number: Its number.
        x_mm, y_mm: Where its centre lies, in the scene.
        angle_rad: How far it is turned.
        tint: Which of the tints it has.
        by_hand: Somebody put it there.
        selected: It is selected.
        trouble: What it collides with, in words; empty if nothing.
    """

    number: int
    x_mm: float
    y_mm: float
    angle_rad: float
    tint: int
    by_hand: bool = False
    selected: bool = False
    trouble: tuple[str, ...] = field(default=())


class LaidItem(QGraphicsItem):
    """Painted about its own centre, in the scene's millimetres.

    Attributes:
        mark: What it shows.
        label: Its name and what it collides with, upright.
        grip: Whether it can be turned by the grip at its edge.
    """

    def __init__(
        self,
        polygon: Polygon,
        holes: tuple[tuple[float, float, float], ...],
        mark: LaidMark,
        colours: Colours,
        font: QFont,
    ) -> None:
        """Make it.

        Args:
            polygon: Its metal in sign coordinates.
            holes: x, y and diameter of its holes, likewise.
            mark: Where it lies, and its state.
            colours: In use.
            font: Of its name.
        """
        super().__init__()
        centre = polygon.centroid
        self._polygon = affinity.translate(polygon, -centre.x, -centre.y)
        self._detail = Detail(self._polygon.boundary)
        self._holes = tuple((QPointF(x - centre.x, y - centre.y), d / 2) for x, y, d in holes)
        self._colours = colours
        self._px_per_mm = 1.0
        self.grip = True
        self.label = LabelItem(colours, font)
        self.setAcceptedMouseButtons(Qt.MouseButton.NoButton)
        self.mark = mark
        self._place()

    def show_mark(self, mark: LaidMark) -> None:
        """Show another place or state; does nothing where it is the same."""
        if mark != self.mark:
            self.prepareGeometryChange()
            self.mark = mark
            self._place()
            self.update()

    def set_scale(self, px_per_mm: float) -> None:
        """The view shows so many pixels a millimetre from now on."""
        self.prepareGeometryChange()
        self._px_per_mm = px_per_mm

    def wear_colours(self, colours: Colours) -> None:
        """Paint with another colour set."""
        self._colours = colours
        self.label.wear_colours(colours)
        self.update()

    @property
    def lying(self) -> Polygon:
        """Its metal as it lies in the scene."""
        turned = affinity.rotate(
            self._polygon, self.mark.angle_rad, origin=(0, 0), use_radians=True
        )
        return affinity.translate(turned, self.mark.x_mm, self.mark.y_mm)

    @property
    def grip_mm(self) -> tuple[float, float]:
        """Where the grip is by which it is turned, in the scene: above it."""
        top = self.lying.bounds[3] + _GRIP_AWAY_PX / self._px_per_mm
        return self.mark.x_mm, top

    def boundingRect(self) -> QRectF:
        left, bottom, right, top = self._polygon.bounds
        over = 2 * (_GRIP_AWAY_PX + 2 * GRIP_PX) / self._px_per_mm
        reach = math.hypot(max(-left, right), max(-bottom, top)) + over
        return QRectF(-reach, -reach, 2 * reach, 2 * reach)

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        del option, widget
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        path = self._detail.path(self._px_per_mm * painter.device().devicePixelRatio())
        colours, mark = self._colours, self.mark
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colours.colour("metal"))
        painter.drawPath(path)
        painter.setBrush(self._upright(brush(mark.tint, colours), painter))
        painter.drawPath(path)
        if mark.trouble:
            hatch = QBrush(colours.colour("alert"), Qt.BrushStyle.BDiagPattern)
            painter.setBrush(self._upright(hatch, painter))
            painter.drawPath(path)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(self._edge())
        painter.drawPath(path)
        self._paint_holes(painter)
        if mark.selected and self.grip:
            self._paint_grip(painter)
        if mark.by_hand:
            self._paint_pin(painter)

    def _edge(self) -> QPen:
        mark = self.mark
        name = "accent" if mark.selected else "alert" if mark.trouble else "cut_edge"
        pen = QPen(self._colours.colour(name), 2.5 if mark.selected else 1.2)
        pen.setCosmetic(True)
        return pen

    def _paint_holes(self, painter: QPainter) -> None:
        pen = QPen(self._colours.colour("ring"), 1)
        pen.setCosmetic(True)
        painter.setPen(pen)
        painter.setBrush(self._colours.colour("base"))
        for centre, radius in self._holes:
            painter.drawEllipse(centre, radius, radius)

    def _paint_grip(self, painter: QPainter) -> None:
        """A round grip on a stalk, above it on the screen however it is turned."""
        x, y = self.grip_mm
        painter.save()
        painter.rotate(-math.degrees(self.mark.angle_rad))
        at = QPointF(x - self.mark.x_mm, y - self.mark.y_mm)
        pen = QPen(self._colours.colour("accent"), 1.5)
        pen.setCosmetic(True)
        painter.setPen(pen)
        painter.drawLine(QPointF(0, 0), at)
        painter.setBrush(self._colours.colour("base"))
        radius = GRIP_PX / self._px_per_mm
        painter.drawEllipse(at, radius, radius)
        painter.restore()

    def _paint_pin(self, painter: QPainter) -> None:
        """The pin of what was put by hand, at its centre, beside the name."""
        size = _PIN_PX / self._px_per_mm
        painter.save()
        painter.rotate(-math.degrees(self.mark.angle_rad))
        pen = QPen(self._colours.colour("ring"), 1.5)
        pen.setCosmetic(True)
        painter.setPen(pen)
        head = QPointF(-size / 2, size)
        painter.drawLine(QPointF(0, 0), head)
        painter.setBrush(self._colours.colour("ring"))
        painter.drawEllipse(head, size / 5, size / 5)
        painter.restore()

    def _place(self) -> None:
        mark = self.mark
        self.setPos(mark.x_mm, mark.y_mm)
        self.setRotation(math.degrees(mark.angle_rad))
        self.setZValue(1 if mark.selected else 0)
        lines = [Line(f"section {mark.number}")]
        lines += [Line(words, broken=True) for words in mark.trouble]
        self.label.say(tuple(lines))
        self.label.setPos(mark.x_mm, mark.y_mm)
        self.label.setZValue(6 if mark.selected else 5)
        size = self.label.size_px
        self.label.offset_by(QPointF(-size.width() / 2, 4))

    @staticmethod
    def _upright(filling: QBrush, painter: QPainter) -> QBrush:
        filling.setTransform(painter.worldTransform().inverted()[0])
        return filling
