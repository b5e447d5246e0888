"""Grid behind the sign."""

from PySide6.QtCore import QRectF
from PySide6.QtGui import QColor, QImage, QPainter

from holeplacer.gui.canvas.grid import paint_grid
from holeplacer.gui.theme import LIGHT
from holeplacer.units import LengthUnit


def row_of_grid(unit):
    """Colours along one row, a pixel for each millimetre."""
    image = QImage(200, 200, QImage.Format.Format_RGB32)
    image.fill(QColor(LIGHT.ground))
    painter = QPainter(image)
    paint_grid(painter, QRectF(0, 0, 200, 200), 1.0, unit, LIGHT)
    painter.end()
    return [image.pixelColor(x, 33).name() for x in range(200)]


def test_lines_stand_at_round_millimetres():
    """At a pixel for each millimetre: fine each 20, strong each 100."""
    row = row_of_grid(LengthUnit.MM)
    assert [x for x, colour in enumerate(row) if colour == LIGHT.grid_strong] == [0, 100]
    assert [x for x, c in enumerate(row) if c == LIGHT.grid] == [20, 40, 60, 80, 120, 140, 160, 180]


def test_lines_stand_at_inches():
    """Fine lines each inch where inches are shown."""
    row = row_of_grid(LengthUnit.INCH)
    lines = [x for x, colour in enumerate(row) if colour != LIGHT.ground]
    assert [round(x / 25.4) for x in lines] == [0, 1, 2, 3, 4, 5, 6, 7]
