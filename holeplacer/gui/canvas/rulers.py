"""Rulers along two edges of the canvas, in millimetres or inches with fractions."""

import math

from PySide6.QtCore import QPointF, QRect, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QPixmap, QPolygonF, QResizeEvent
from PySide6.QtWidgets import QWidget

from holeplacer.gui.canvas.steps import Steps, steps
from holeplacer.gui.theme import Colours, with_even_figures
from holeplacer.units import LengthUnit

Ends = tuple[float, float]

THICKNESS_PX = 24
_FINE_PX = 5.0
_STRONG_PX = 64.0
_POINTER_PX = 4.0


class Ruler(QWidget):
    """One ruler: marks at round lengths, and where the pointer is."""

    def __init__(
        self,
        orientation: Qt.Orientation,
        colours: Colours,
        parent: QWidget,
        *,
        strong_px: float = _STRONG_PX,
    ) -> None:
        """Make it.

        Args:
            orientation: Level or upright.
            colours: Colour set.
            parent: The view it belongs to.
            strong_px: Figures are at least so far apart.
        """
        super().__init__(parent)
        self._strong_px = strong_px
        self._level = orientation is Qt.Orientation.Horizontal
        self._colours = colours
        self._zero_px = 0.0
        self._px_per_mm = 1.0
        self._unit = LengthUnit.MM
        self._ends_px: Ends | None = None
        self._pointer_px: float | None = None
        self._still: QPixmap | None = None
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        font = with_even_figures(self.font())
        font.setPixelSize(10)
        self.setFont(font)

    def sizeHint(self) -> QSize:
        return QSize(THICKNESS_PX, THICKNESS_PX)

    def wear_colours(self, colours: Colours) -> None:
        """Paint with another colour set."""
        self._colours = colours
        self._renew()

    def show_range(
        self, zero_px: float, px_per_mm: float, unit: LengthUnit, *, ends_px: Ends | None = None
    ) -> None:
        """Show the coordinates that are at this place and scale.

        Args:
            zero_px: Where coordinate zero is, along the ruler.
            px_per_mm: Negative where coordinates grow against the ruler's pixels (upwards).
            unit: What the figures are in.
            ends_px: Marks lie between these pixels only; None takes the whole ruler.
        """
        shown = (zero_px, px_per_mm, unit, ends_px)
        if shown != (self._zero_px, self._px_per_mm, self._unit, self._ends_px):
            self._zero_px, self._px_per_mm, self._unit, self._ends_px = shown
            self._renew()

    def show_pointer(self, at_px: float | None) -> None:
        """Mark where the pointer is; repaints no more than both marks."""
        for place in (self._pointer_px, at_px):
            if place is not None:
                low = int(place - _POINTER_PX - 1)
                width = int(2 * _POINTER_PX + 3)
                self.update(*((low, 0, width, self.height()) if self._level
                              else (0, low, self.width(), width)))  # fmt: skip
        self._pointer_px = at_px

    @property
    def steps(self) -> Steps:
        """The marks it shows."""
        return steps(abs(self._px_per_mm), self._unit, fine_px=_FINE_PX, strong_px=self._strong_px)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._renew()

    def paintEvent(self, event: QPaintEvent) -> None:
        del event
        # The pointer moves with every frame of a drag, the marks only with the view.
        if self._still is None or self._still.devicePixelRatio() != self.devicePixelRatioF():
            self._still = self._drawn_still()
        painter = QPainter(self)
        painter.drawPixmap(0, 0, self._still)
        self._paint_pointer(painter)
        painter.end()

    def _renew(self) -> None:
        self._still = None
        self.update()

    def _drawn_still(self) -> QPixmap:
        """All but the pointer."""
        ratio = self.devicePixelRatioF()
        still = QPixmap(self.size() * ratio)
        still.setDevicePixelRatio(ratio)
        still.fill(self._colours.colour("ruler"))
        painter = QPainter(still)
        painter.setFont(self.font())
        self._paint_marks(painter, self.rect())
        painter.setPen(self._colours.colour("line"))
        edge = THICKNESS_PX - 1
        if self._level:
            painter.drawLine(0, edge, self.width(), edge)
        else:
            painter.drawLine(edge, 0, edge, self.height())
        painter.end()
        return still

    def _paint_marks(self, painter: QPainter, exposed: QRect) -> None:
        low, high = (
            (exposed.left(), exposed.right()) if self._level else (exposed.top(), exposed.bottom())
        )
        least, most = (-math.inf, math.inf) if self._ends_px is None else self._ends_px
        marks = self.steps
        reach = marks.strong_mm
        ends = sorted((place - self._zero_px) / self._px_per_mm for place in (low, high))
        ink = self._colours.colour("ruler_text")
        faint = self._colours.colour("ruler_text")
        faint.setAlphaF(0.55)
        for mark in marks.marks(ends[0] - reach, ends[1] + reach):
            place = round(self._zero_px + mark * marks.fine_mm * self._px_per_mm)
            if not least <= place <= most:
                continue
            strong = marks.is_strong(mark)
            painter.setPen(ink if strong else faint)
            self._paint_mark(painter, place, 9 if strong else 4)
            if strong:
                self._paint_figure(painter, place, marks.figure(mark))

    def _paint_mark(self, painter: QPainter, place: int, length: int) -> None:
        edge = THICKNESS_PX - 2
        if self._level:
            painter.drawLine(place, edge - length, place, edge)
        else:
            painter.drawLine(edge - length, place, edge, place)

    def _paint_figure(self, painter: QPainter, place: int, text: str) -> None:
        painter.save()
        if self._level:
            painter.translate(place + 3, 0)
        else:
            painter.translate(0, place - 3)
            painter.rotate(-90)
        painter.drawText(QPointF(0, 11), text)
        painter.restore()

    def _paint_pointer(self, painter: QPainter) -> None:
        if self._pointer_px is None:
            return
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(Qt.PenStyle.NoPen))
        painter.setBrush(self._colours.colour("accent"))
        tip, back, at = THICKNESS_PX - 1, THICKNESS_PX - 1 - 1.4 * _POINTER_PX, self._pointer_px
        corners = [(at, tip), (at - _POINTER_PX, back), (at + _POINTER_PX, back)]
        painter.drawPolygon(
            QPolygonF([QPointF(x, y) if self._level else QPointF(y, x) for x, y in corners])
        )


class RulerCorner(QWidget):
    """The corner where the rulers meet; names their unit."""

    def __init__(self, colours: Colours, parent: QWidget) -> None:
        super().__init__(parent)
        self._colours = colours
        self._unit = LengthUnit.MM
        font = self.font()
        font.setPixelSize(10)
        self.setFont(font)

    def wear_colours(self, colours: Colours) -> None:
        """Paint with another colour set."""
        self._colours = colours
        self.update()

    def show_unit(self, unit: LengthUnit) -> None:
        """Name another unit."""
        self._unit = unit
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        del event
        painter = QPainter(self)
        painter.fillRect(self.rect(), self._colours.colour("ruler"))
        painter.setPen(self._colours.colour("line"))
        painter.drawLine(0, self.height() - 1, self.width(), self.height() - 1)
        painter.drawLine(self.width() - 1, 0, self.width() - 1, self.height())
        painter.setPen(self._colours.colour("ruler_text"))
        painter.drawText(self.rect(), Qt.AlignmentFlag.AlignCenter, self._unit.value)
        painter.end()
