"""Sections told apart on the sign: quiet tints of which no two neighbours share one, and names."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QPainter
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from holeplacer.gui.theme import Colours

if TYPE_CHECKING:
    from holeplacer.gui.canvas.paths import Detail
    from holeplacer.seams.sections import Section

TINTS = 4
_ALPHA = 0.20
_PATTERNS = (
    Qt.BrushStyle.SolidPattern,
    Qt.BrushStyle.SolidPattern,
    Qt.BrushStyle.BDiagPattern,
    Qt.BrushStyle.Dense6Pattern,
)


def tints(sections: tuple[Section, ...]) -> dict[int, int]:
    """Tint of each section by its number: the first one no neighbour across a seam has."""
    found: dict[int, int] = {}
    for section in sections:
        own = set(section.seams)
        beside = {
            found[other.number]
            for other in sections
            if other.number in found and own & set(other.seams)
        }
        free = [tint for tint in range(TINTS) if tint not in beside]
        found[section.number] = free[0] if free else section.number % TINTS
    return found


def brush(tint: int, colours: Colours) -> QBrush:
    """What a section of a tint is filled with: two plain tints, then two patterns."""
    name = ("accent", "limit", "accent", "limit")[tint]
    colour = QColor(colours.colour(name))
    colour.setAlphaF(_ALPHA if _PATTERNS[tint] is Qt.BrushStyle.SolidPattern else 2 * _ALPHA)
    return QBrush(colour, _PATTERNS[tint])


class SectionTintItem(QGraphicsItem):
    """All sections of the sign, painted once and then only copied."""

    def __init__(self, colours: Colours) -> None:
        super().__init__()
        self._colours = colours
        self._areas: tuple[tuple[Detail, int], ...] = ()
        self._bounds = QRectF()
        self.setAcceptedMouseButtons(Qt.MouseButton.NoButton)
        self.setCacheMode(QGraphicsItem.CacheMode.DeviceCoordinateCache)

    def show_sections(self, sections: tuple[Section, ...]) -> None:
        """Tint other sections, or none."""
        from holeplacer.gui.canvas.paths import Detail  # with the first sections

        self.prepareGeometryChange()
        tint = tints(sections)
        self._areas = tuple((Detail(part.polygon.boundary), tint[part.number]) for part in sections)
        self._bounds = QRectF()
        for part in sections:
            left, bottom, right, top = part.polygon.bounds
            self._bounds = self._bounds.united(QRectF(left, bottom, right - left, top - bottom))
        self.update()

    def wear_colours(self, colours: Colours) -> None:
        """Paint with another colour set."""
        self._colours = colours
        self.update()

    def boundingRect(self) -> QRectF:
        return self._bounds

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        del option, widget
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        px_per_mm = abs(painter.worldTransform().m11()) * painter.device().devicePixelRatio()
        painter.setPen(Qt.PenStyle.NoPen)
        for detail, tint in self._areas:
            painter.setBrush(_upright(brush(tint, self._colours), painter))
            painter.drawPath(detail.path(px_per_mm))


def _upright(filling: QBrush, painter: QPainter) -> QBrush:
    """A pattern of screen pixels, whatever the zoom."""
    filling.setTransform(painter.worldTransform().inverted()[0])
    return filling
