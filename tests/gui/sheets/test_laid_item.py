"""One section on its sheet."""

import math
from dataclasses import replace

import pytest
from PySide6.QtGui import QFont, QImage, QPainter
from shapely.geometry import box

from holeplacer.gui.sheets.laid_item import LaidItem, LaidMark
from holeplacer.gui.theme import LIGHT

AREA = box(1000, 1000, 1100, 1040) - box(1010, 1010, 1030, 1030)
MARK = LaidMark(3, 200.0, 100.0, 0.0, 0)


@pytest.fixture
def item(qapp):
    return LaidItem(AREA, ((1060.0, 1020.0, 8.0),), MARK, LIGHT, QFont())


def painted(item):
    image = QImage(400, 220, QImage.Format.Format_ARGB32)
    image.fill(0)
    painter = QPainter(image)
    painter.translate(item.pos())
    painter.rotate(item.rotation())
    item.paint(painter, None)
    painter.end()
    return image


def test_it_lies_about_its_centre_as_turned(item):
    """Moved and turned as the mark has it; counter and all."""
    assert item.lying.centroid.coords[0] == pytest.approx((200.0, 100.0))
    item.show_mark(replace(MARK, angle_rad=math.pi / 2))
    left, bottom, right, top = item.lying.bounds
    assert (right - left, top - bottom) == pytest.approx((40.0, 100.0))
    assert item.lying.area == pytest.approx(AREA.area)


def test_every_state_looks_another_without_colour(item):
    """By hand, selected, colliding: each another picture in grey."""
    marks = (
        MARK,
        replace(MARK, by_hand=True),
        replace(MARK, selected=True),
        replace(MARK, trouble=("overlaps section 1",)),
    )
    pictures = []
    for mark in marks:
        item.show_mark(mark)
        pictures.append(painted(item).convertToFormat(QImage.Format.Format_Grayscale8))
    assert all(pictures[i] != pictures[j] for i in range(4) for j in range(i))


def test_its_label_says_name_and_trouble(item):
    """One line each, what is wrong marked as such."""
    item.show_mark(replace(MARK, trouble=("overlaps section 1",)))
    lines = item.label.lines
    assert [line.what for line in lines] == ["section 3", "overlaps section 1"]
    assert [line.broken for line in lines] == [False, True]


def test_the_grip_is_above_it_however_it_is_turned(item):
    """And within what the item covers."""
    for angle in (0.0, 1.0, 2.5):
        item.show_mark(replace(MARK, angle_rad=angle, selected=True))
        x, y = item.grip_mm
        assert x == pytest.approx(200.0)
        assert y > item.lying.bounds[3]
        assert item.boundingRect().width() / 2 > y - 100.0
