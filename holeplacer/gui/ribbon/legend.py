"""Legend beside the ribbon: what each lane shows, and the limit it is held to."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QWidget

from holeplacer.gui.theme import Colours, with_even_figures
from holeplacer.units import LengthUnit

if TYPE_CHECKING:
    from holeplacer.gui.ribbon.picture import Lane

WIDTH_PX = 76
_LINE_PX = 14.0
_PAD_PX = 6.0


class Legend(QWidget):
    """Names the lanes at the height of their limits; does not scroll with them."""

    def __init__(self, colours: Colours, parent: QWidget) -> None:
        super().__init__(parent)
        self._colours = colours
        self._lanes: tuple[Lane, ...] = ()
        self._unit = LengthUnit.MM
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        font = with_even_figures(self.font())
        font.setPixelSize(11)
        self.setFont(font)

    def wear_colours(self, colours: Colours) -> None:
        """Paint with another colour set."""
        self._colours = colours
        self.update()

    def show_lanes(self, lanes: tuple[Lane, ...], unit: LengthUnit) -> None:
        """Name other lanes."""
        self._lanes, self._unit = lanes, unit
        self.update()

    @property
    def words(self) -> tuple[tuple[str, str], ...]:
        """Name and limit of each lane."""
        return tuple((lane.trace.name, lane.trace.limit_words(self._unit)) for lane in self._lanes)

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.fillRect(event.rect(), self._colours.colour("ruler"))
        for lane, (name, limit) in zip(self._lanes, self.words, strict=True):
            at = lane.base_px if lane.trace.limit is None else float(lane.y_px(lane.trace.limit))
            low = min(max(at - _LINE_PX / 2, lane.top_px + _LINE_PX), self.height() - _LINE_PX)
            for top, text, colour in (
                (low - _LINE_PX, name, "ruler_text"),
                (low, limit, "limit"),
            ):
                painter.setPen(self._colours.colour(colour))
                box = QRectF(0, top, self.width() - _PAD_PX, _LINE_PX)
                right = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
                painter.drawText(box, right, text)
        painter.end()
