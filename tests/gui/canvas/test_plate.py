"""A plate of figures."""

from PySide6.QtCore import QPointF
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QImage, QPainter

from holeplacer.gui.canvas.plate import Line, Plate
from holeplacer.gui.theme import LIGHT

LINES = (
    Line("edge distance", "8.2 mm", "≥ 9.5 mm", broken=True),
    Line("span to 3", "287 mm", "≤ 300 mm"),
)


def test_its_size_holds_all_columns(qapp):
    """Widest name, figure and limit side by side, and the mark of what is broken."""
    font = QFont()
    metrics = QFontMetricsF(font)
    least = sum(map(metrics.horizontalAdvance, ("edge distance", "287 mm", "≥ 9.5 mm")))
    plate = Plate(LINES, font)
    assert plate.size.width() > least
    assert plate.size.height() >= 2 * metrics.height()
    assert Plate(LINES[1:], font).size.width() < plate.size.width()


def test_a_broken_limit_has_a_mark_before_its_line(qapp):
    """Shape, not only colour: ink left of the names in the broken line alone."""
    plate = Plate(LINES, QFont())
    image = QImage(300, 60, QImage.Format.Format_RGB32)
    image.fill(QColor(LIGHT.base))
    painter = QPainter(image)
    plate.paint(painter, QPointF(0, 0), LIGHT)
    painter.end()
    middle = int(plate.size.height() / 2)
    ground = QColor(LIGHT.base).rgb()

    def marked(rows):
        return any(image.pixel(x, y) != ground for x in range(5, 16) for y in rows)

    assert marked(range(4, middle - 2))
    assert not marked(range(middle + 2, int(plate.size.height()) - 4))


def test_no_lines_are_a_plate_of_no_rows(qapp):
    """Saying nothing is allowed."""
    assert Plate((), QFont()).lines == ()
