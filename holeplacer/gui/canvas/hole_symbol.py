"""How a hole's state is told by shape: the same ring, pin, wedge, cross and halo everywhere."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPainterPath, QPen

from holeplacer.gui.theme import Colours

HALO_GAP_PX = 4.0
WEDGE_PX = 9.0
PIN_PX = 9.0
_HALO_PX = 6.0
_WEDGE_HALF_RAD = math.radians(32)
_CROSS_OVER_PX = 3.0
_PIN_RAD = math.radians(125)
_PIN_HEAD_PX = 3.0
_LINE_PX = 1.5


class Trouble(Enum):
    """What is wrong with a hole's place."""

    NONE = "none"
    SHORT = "short of metal on one side"
    BLOCKED = "no hole can be here"


@dataclass(frozen=True)
class HoleMark:
    """All that is seen of a hole.

    Attributes:
        number: Its number.
        x_mm, y_mm: Its centre.
        hole_mm: Its diameter.
        cap_mm: Diameter of the visible cap, 0 without one.
        fixed: Stays where it is when holes are proposed anew.
        selected: It is selected.
        trouble: What is wrong with its place.
        short_rad: Direction of the side that is short of metal, anticlockwise from x.
        figure: What is short and its limit, such as `9.8 of 12.7 mm`.
    """

    number: int
    x_mm: float
    y_mm: float
    hole_mm: float
    cap_mm: float
    fixed: bool = False
    selected: bool = False
    trouble: Trouble = Trouble.NONE
    short_rad: float = 0.0
    figure: str = ""


def ink(mark: HoleMark, colours: Colours) -> QColor:
    """Colour of a hole's lines and number."""
    return colours.colour("ring" if mark.trouble is Trouble.NONE else "alert")


def paint_state(painter: QPainter, mark: HoleMark, ring_px: float, colours: Colours) -> None:
    """Paint ring, wedge, cross and pin about the painter's origin, in pixels."""
    line = QPen(ink(mark, colours), _LINE_PX)
    if mark.trouble is Trouble.SHORT:
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colours.colour("alert"))
        painter.drawPath(_wedge(ring_px, mark.short_rad))
    painter.setPen(line)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawEllipse(QPointF(), ring_px, ring_px)
    if mark.trouble is Trouble.BLOCKED:
        reach = (ring_px + _CROSS_OVER_PX) / math.sqrt(2)
        painter.drawLine(QPointF(-reach, -reach), QPointF(reach, reach))
        painter.drawLine(QPointF(-reach, reach), QPointF(reach, -reach))
    if mark.fixed:
        head = polar(ring_px + PIN_PX, _PIN_RAD)
        painter.drawLine(polar(ring_px, _PIN_RAD), head)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(line.color())
        painter.drawEllipse(head, _PIN_HEAD_PX, _PIN_HEAD_PX)


def paint_halo(painter: QPainter, radius_px: float, colours: Colours, *, firm: bool) -> None:
    """Paint the halo of a hole that is selected (firm) or under the pointer.

    It is a disc, painted before the hole: a wide ring would take many times as long.
    """
    radius = radius_px + HALO_GAP_PX
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(colours.colour("reach"))
    painter.drawEllipse(QPointF(), radius + _HALO_PX / 2, radius + _HALO_PX / 2)
    if firm:
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(colours.colour("accent"), _LINE_PX))
        painter.drawEllipse(QPointF(), radius, radius)


def polar(radius: float, angle_rad: float) -> QPointF:
    """A place on the screen; angles as on the sign, anticlockwise with y up."""
    return QPointF(radius * math.cos(angle_rad), -radius * math.sin(angle_rad))


def _wedge(ring_px: float, towards_rad: float) -> QPainterPath:
    """A pointed sector outside the ring, towards the side that is short."""
    inner, outer = ring_px + 1.5, ring_px + 1.5 + WEDGE_PX
    path = QPainterPath(polar(outer, towards_rad))
    path.lineTo(polar(inner, towards_rad + _WEDGE_HALF_RAD))
    box = QRectF(-inner, -inner, 2 * inner, 2 * inner)
    start = math.degrees(towards_rad + _WEDGE_HALF_RAD)
    path.arcTo(box, start, -2 * math.degrees(_WEDGE_HALF_RAD))
    path.closeSubpath()
    return path
