"""Grid behind the sign: fine and strong lines at the rulers' round lengths."""

from PySide6.QtCore import QLineF, QRectF
from PySide6.QtGui import QPainter, QPen

from holeplacer.gui.canvas.steps import steps
from holeplacer.gui.theme import Colours
from holeplacer.units import LengthUnit

_FINE_PX = 16.0
_STRONG_PX = 64.0


def paint_grid(
    painter: QPainter, exposed: QRectF, px_per_mm: float, unit: LengthUnit, colours: Colours
) -> None:
    """Paint the lines that cross an exposed part, sign coordinates, mm."""
    marks = steps(px_per_mm, unit, fine_px=_FINE_PX, strong_px=_STRONG_PX)
    fine, strong = list[QLineF](), list[QLineF]()
    left, right = exposed.left(), exposed.right()
    low, high = exposed.top(), exposed.bottom()
    for mark in marks.marks(left, right):
        x = mark * marks.fine_mm
        (strong if marks.is_strong(mark) else fine).append(QLineF(x, low, x, high))
    for mark in marks.marks(low, high):
        y = mark * marks.fine_mm
        (strong if marks.is_strong(mark) else fine).append(QLineF(left, y, right, y))
    for lines, name in ((fine, "grid"), (strong, "grid_strong")):
        pen = QPen(colours.colour(name), 1)
        pen.setCosmetic(True)
        painter.setPen(pen)
        painter.drawLines(lines)
