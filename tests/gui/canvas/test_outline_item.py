"""The sheet on the canvas."""

import numpy as np
from PySide6.QtCore import QRectF
from PySide6.QtGui import QColor, QImage, QPainter
from PySide6.QtWidgets import QGraphicsItem, QGraphicsScene

from holeplacer.gui.canvas.outline_item import OutlineItem
from holeplacer.gui.theme import LIGHT
from holeplacer.outline.outline import Outline


def shown(outline):
    item = OutlineItem()
    item.show_outline(outline)
    item.wear_colours(LIGHT)
    return item


def painted(item, rect, size):
    """The scene with this item only, one pixel for each millimetre times size/rect."""
    scene = QGraphicsScene()
    scene.addItem(item)
    image = QImage(*size, QImage.Format.Format_RGB32)
    image.fill(QColor("white"))
    painter = QPainter(image)
    scene.render(painter, QRectF(0, 0, *size), rect)
    painter.end()
    scene.removeItem(item)
    return image


def test_metal_is_filled_and_counters_are_open(strokes):
    """The ring's metal has the sheet's colour, its counter and the dot's outside the ground's."""
    bounds = QRectF(0, 0, 1200, 480)
    image = painted(shown(strokes.outline), bounds, (1200, 480))

    def colour(x, y):
        return image.pixelColor(round(x), round(y)).name()

    assert colour(200, 100) == LIGHT.metal
    assert colour(796, 320) == LIGHT.metal
    assert colour(900, 320) == "#ffffff"
    assert colour(600, 440) == "#ffffff"


def test_it_is_cached_at_the_screens_pixels_and_cannot_be_touched(strokes):
    """Device cache, empty shape, no buttons: what keeps a drag above it cheap."""
    item = shown(strokes.outline)
    assert item.cacheMode() is QGraphicsItem.CacheMode.DeviceCoordinateCache
    assert item.shape().isEmpty()
    assert item.acceptedMouseButtons().value == 0


def test_its_extent_encloses_the_line(strokes):
    """Bounds and a margin for the pen."""
    left, bottom, right, top = strokes.outline.bounds_mm
    assert (
        shown(strokes.outline)
        .boundingRect()
        .contains(QRectF(left - 2, bottom - 2, right - left + 4, top - bottom + 4))
    )


def test_the_pen_is_one_pixel_at_any_zoom(strokes):
    """Zoomed 20 times, the cut edge is still about one pixel wide."""
    image = painted(shown(strokes.outline), QRectF(195, 70, 20, 20), (400, 400))
    column = np.array([image.pixelColor(200, y).lightness() for y in range(400)])
    dark = np.count_nonzero(column < QColor(LIGHT.metal).lightness() - 40)
    assert 1 <= dark <= 3


def test_an_outline_without_pieces_is_nothing():
    """It can be shown, and there is nothing to see."""
    item = shown(Outline(()))
    assert item.boundingRect().isEmpty()
    item.show_outline(None)
    assert item.boundingRect().isEmpty()


def test_paintings_are_counted(strokes):
    """The count by which a test proves that a drag repaints nothing."""
    item = shown(strokes.outline)
    painted(item, QRectF(0, 0, 1200, 480), (300, 120))
    assert item.paints == 1
