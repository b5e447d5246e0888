"""A stretch drawn on its stroke."""

import pytest
from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QColor, QFont, QImage, QPainter
from PySide6.QtWidgets import QGraphicsScene

from holeplacer.gui.canvas.coarse_axis import CoarseAxis
from holeplacer.gui.canvas.stretch_item import StretchItem
from holeplacer.gui.canvas.stretches import Stretch, StretchKind
from holeplacer.gui.theme import LIGHT


@pytest.fixture
def span(part):
    """400 mm of the stroke, from x 693 to x 1093."""
    parts = (part((693.0, 100.0), (1093.0, 100.0)),)
    return Stretch(StretchKind.LONG, parts, (895.0, 100.0), "400 of 300 mm")


@pytest.fixture
def item(qapp, strokes, span):
    scene = QGraphicsScene()
    made = StretchItem(LIGHT, QFont())
    scene.addItem(made)
    scene.addItem(made.label)
    made.set_scale(2.0)
    made.show_stretch(span, CoarseAxis(strokes.axis))
    yield made
    scene.clear()


def columns(item, stretch, strokes):
    """Which columns of the stroke's middle line are inked, one a millimetre."""
    item.show_stretch(stretch, CoarseAxis(strokes.axis))
    image = QImage(600, 40, QImage.Format.Format_RGB32)
    image.fill(QColor("white"))
    painter = QPainter(image)
    painter.translate(-650, -80)
    item.paint(painter, None)
    painter.end()
    return [image.pixel(x, 20) & 0xFFFFFF != 0xFFFFFF for x in range(600)]


def test_its_extent_holds_line_and_bars(item):
    """The stretch and room for the bars at its ends."""
    assert item.boundingRect().contains(QRectF(693.5, 97.0, 399.0, 6.0))


def test_figure_and_mark_speak(item):
    """The label says value and limit, marked as broken."""
    item.show_label(True)
    (line,) = item.label.lines
    assert (line.what, line.broken, item.label.isVisible()) == ("400 of 300 mm", True, True)
    item.show_label(False)
    assert not item.label.isVisible()


def test_kinds_differ_in_shape(item, strokes, span):
    """A long span is one line, uncovered metal is dashed."""
    solid = columns(item, span, strokes)
    bare = Stretch(StretchKind.UNCOVERED, span.parts, span.figure_at, "")
    dashed = columns(item, bare, strokes)
    inside = slice(80, 400)
    assert all(solid[inside])
    assert 0.3 < sum(dashed[inside]) / 320 < 0.8


def test_none_hides_it(item):
    """Line and figure go."""
    item.show_label(True)
    item.show_stretch(None)
    assert not item.isVisible()
    assert not item.label.isVisible()
    assert item.label_px().isEmpty()


def test_the_labels_place_is_in_pixels(item):
    """What decluttering compares: place times scale, y down."""
    assert item.label_px().topLeft() == QPointF(1790.0, -200.0) + item.label.offset_px
