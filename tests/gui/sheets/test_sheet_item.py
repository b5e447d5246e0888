"""One sheet."""

import pytest
from PySide6.QtCore import QRectF
from PySide6.QtGui import QFont, QImage, QPainter

from holeplacer.gui.canvas.plate import Line
from holeplacer.gui.sheets.sheet_item import SheetItem
from holeplacer.gui.theme import DARK, LIGHT


@pytest.fixture
def item(qapp):
    made = SheetItem((300.0, 200.0), LIGHT, QFont())
    made.setPos(50.0, 0.0)
    return made


def test_it_lies_where_it_is_put(item):
    """Its area in the scene, its name above its upper left corner."""
    item.say((Line("sheet 1"),))
    assert item.area == QRectF(50, 0, 300, 200)
    assert (item.label.x(), item.label.y()) == (50.0, 200.0)
    assert item.label.offset_px.y() < 0


def test_what_may_be_cut_is_marked_off(item):
    """A dashed line within the margin; in the other theme, too."""

    def painted():
        image = QImage(320, 220, QImage.Format.Format_ARGB32)
        image.fill(0)
        painter = QPainter(image)
        item.paint(painter, None)
        painter.end()
        return image

    plain = painted()
    item.show_usable(20.0, 260.0, 160.0)
    marked = painted()
    assert plain != marked
    item.wear_colours(DARK)
    assert painted() != marked
