"""How a seam's state is told by shape: line with feet, pin, wedges, halo, everywhere the same."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF

from holeplacer.gui.theme import Colours

PAST_PX = 6.0
"""A seam is drawn so far past both cut edges, so that it is seen on a thin stroke."""

PIN_PX = 9.0
WEDGE_PX = 8.0
_FOOT_PX = 4.0
_HALO_PX = 5.0
_PIN_HEAD_PX = 3.0
_LINE_PX = 2.0


@dataclass(frozen=True)
class SeamMark:
    """All that is seen of a seam.

    Attributes:
        index: Its place in the plan's order.
        x_mm, y_mm: Its middle.
        across_mm: From the middle to one end, along x and y.
        fixed: Stays where it is when seams are proposed anew.
        selected: It is selected.
        trouble: What is wrong with its place, with the figure; empty if nothing is.
    """

    index: int
    x_mm: float
    y_mm: float
    across_mm: tuple[float, float]
    fixed: bool = False
    selected: bool = False
    trouble: str = ""

    @property
    def words(self) -> str:
        """Its name, as findings call it."""
        return f"seam {self.index + 1}"


def ink(mark: SeamMark, colours: Colours) -> QColor:
    """Colour of a seam's lines and words."""
    return colours.colour("alert" if mark.trouble else "ring")


def paint_line(
    painter: QPainter,
    mark: SeamMark,
    end: QPointF,
    colours: Colours,
    *,
    lit: bool,
) -> None:
    """Paint the seam about the painter's origin, in pixels.

    Args:
        painter: At the seam's middle.
        mark: What is painted.
        end: One end, from the middle; the other is opposite.
        colours: In use.
        lit: The pointer is over it.
    """
    half = QLineF(QPointF(), end)
    half.setLength(half.length() + PAST_PX)
    tip, normal = half.p2(), _normal(half)
    if mark.selected or lit:
        halo = QPen(colours.colour("reach"), 2 * _HALO_PX + _LINE_PX)
        halo.setCapStyle(Qt.PenCapStyle.RoundCap)
        painter.setPen(halo)
        painter.drawLine(-tip, tip)
    if mark.trouble:
        _paint_wedges(painter, tip, normal, colours)
    pen = QPen(colours.colour("accent") if mark.selected else ink(mark, colours), _LINE_PX)
    painter.setPen(pen)
    painter.drawLine(-tip, tip)
    foot = normal * _FOOT_PX
    for at in (tip, -tip):
        painter.drawLine(at - foot, at + foot)
    if mark.fixed:
        _paint_pin(painter, tip, half, pen.color())


def reach_px(half_px: float) -> float:
    """How far from its middle anything of a seam is painted, words apart."""
    return half_px + PAST_PX + PIN_PX + _PIN_HEAD_PX + 2.0


def _normal(half: QLineF) -> QPointF:
    length = half.length() or 1.0
    return QPointF(-half.dy() / length, half.dx() / length)


def _paint_pin(painter: QPainter, tip: QPointF, half: QLineF, colour: QColor) -> None:
    """A stalk with a head, going on past one end."""
    length = half.length() or 1.0
    head = tip + QPointF(half.dx(), half.dy()) * (PIN_PX / length)
    painter.drawLine(tip, head)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(colour)
    painter.drawEllipse(head, _PIN_HEAD_PX, _PIN_HEAD_PX)


def _paint_wedges(painter: QPainter, tip: QPointF, normal: QPointF, colours: Colours) -> None:
    """Two wedges that point at the line from either side, at both ends."""
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(colours.colour("alert"))
    length = QLineF(QPointF(), tip).length() or 1.0
    along = tip / length
    for at in (tip, -tip):
        for side in (1.0, -1.0):
            near = at + normal * (side * 2.5)
            far = at + normal * (side * (2.5 + WEDGE_PX))
            half = along * (WEDGE_PX / 2)
            painter.drawPolygon(QPolygonF([near, far - half, far + half]))


def paint_tick(
    painter: QPainter, mark: SeamMark, at: QRectF, colours: Colours, *, lit: bool
) -> None:
    """Paint the seam on the ribbon: a square where a hole has a ring, over a double line.

    Args:
        painter: In pixels.
        mark: What is painted.
        at: The square; the line goes down from it to the bottom of `at`.
        colours: In use.
        lit: The pointer is over it.
    """
    square = QRectF(at.left(), at.top(), at.width(), at.width())
    colour = colours.colour("accent") if mark.selected or lit else ink(mark, colours)
    if mark.selected or lit:
        painter.fillRect(square.adjusted(-4, -4, 4, 4), colours.colour("reach"))
    painter.setPen(QPen(colour, 1.5))
    middle = at.center().x()
    for side in (-1.5, 1.5):
        x = middle + side
        painter.drawLine(QPointF(x, square.bottom()), QPointF(x, at.bottom()))
    painter.setBrush(colours.colour("alert" if mark.trouble else "ground"))
    painter.drawRect(square)
    if mark.fixed:
        head = square.topLeft() - QPointF(4, 4)
        painter.drawLine(square.topLeft(), head)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colour)
        painter.drawEllipse(head, 2.5, 2.5)
