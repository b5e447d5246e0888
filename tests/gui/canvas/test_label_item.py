"""A plate on the canvas."""

import pytest
from PySide6.QtCore import QPointF
from PySide6.QtGui import QFont
from PySide6.QtWidgets import QGraphicsItem

from holeplacer.gui.canvas.label_item import LabelItem
from holeplacer.gui.canvas.plate import Line
from holeplacer.gui.theme import LIGHT


@pytest.fixture
def label(qapp):
    return LabelItem(LIGHT, QFont())


def test_it_hides_when_it_has_nothing_to_say(label):
    """Lines show it, none hide it."""
    assert not label.isVisible()
    label.say((Line("span", "1 mm"),))
    assert label.isVisible()
    assert label.lines[0].figure == "1 mm"
    label.say(())
    assert not label.isVisible()


def test_it_stays_upright_and_of_one_size_at_any_zoom(label):
    """It ignores the view's scale."""
    assert label.flags() & QGraphicsItem.GraphicsItemFlag.ItemIgnoresTransformations


def test_its_extent_follows_offset_and_words(label):
    """The plate's corner is where it was put."""
    label.say((Line("span", "1 mm"),))
    label.offset_by(QPointF(-40, 12))
    assert label.offset_px == QPointF(-40, 12)
    assert label.boundingRect().topLeft() == QPointF(-41, 11)
    before = label.boundingRect().width()
    label.say((Line("a much longer name for it", "1 mm"),))
    assert label.boundingRect().width() > before
