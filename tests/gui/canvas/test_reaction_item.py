"""Arrows at the standoffs."""

import pytest
from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QFont, QImage, QPainter

from holeplacer.gui.canvas.reaction_item import LONGEST_PX, ReactionItem, paint_arrow
from holeplacer.gui.theme import LIGHT


@pytest.fixture
def item(qapp):
    return ReactionItem(LIGHT, QFont())


def painted(push):
    image = QImage(40, 60, QImage.Format.Format_RGB32)
    image.fill(Qt.GlobalColor.white)
    painter = QPainter(image)
    paint_arrow(painter, QPointF(20.0, 55.0), 44.0, LIGHT, push=push)
    painter.end()
    return image


def ink(image, y):
    return sum(image.pixelColor(x, y).lightness() < 128 for x in range(image.width()))


def test_the_length_goes_with_the_force(item):
    """The scale's top is the longest arrow, a small force still seen."""
    item.show_force(20.0, "20 N", 20.0)
    long = item.boundingRect().height()
    item.show_force(10.0, "10 N", 20.0)
    half = item.boundingRect().height()
    assert long - half == pytest.approx(LONGEST_PX / 2)
    item.show_force(0.01, "0.01 N", 20.0)
    assert item.boundingRect().height() > 9


def test_push_and_pull_differ_in_shape():
    """Pull: a filled head on top. Push: a bar on top and an open head below."""
    pull, push = painted(push=False), painted(push=True)
    assert ink(pull, 17) > 2
    assert ink(push, 11) > 6 > ink(pull, 11)
    assert 1 < ink(push, 50) < 5
    assert ink(pull, 50) in (1, 2, 3)


def test_a_force_in_the_plane_has_its_direction(item):
    """To the right, the arrow lies to the right, its figure beyond its tip."""
    item.show_force(10.0, "10 N", 10.0, turned_deg=90.0)
    box = item.boundingRect()
    assert box.right() > LONGEST_PX
    assert item.number_box.left() > LONGEST_PX
    assert box.top() > -12
    item.show_force(10.0, "10 N", 10.0, turned_deg=180.0)
    assert item.number_box.top() > LONGEST_PX
    assert item.boundingRect().bottom() > LONGEST_PX


def test_the_figure_can_be_left_out(item):
    """Where it would cover others; the arrow stays."""
    item.show_force(-5.0, "5 N", 10.0)
    whole = item.boundingRect()
    assert whole.contains(item.number_box)
    item.show_number(False)
    assert item.boundingRect().height() < whole.height()


def test_the_same_again_changes_nothing(item, monkeypatch):
    """A drag updates only arrows that differ."""
    item.show_force(5.0, "5 N", 10.0)
    told = []
    monkeypatch.setattr(item, "update", lambda *_args: told.append(1))
    item.show_force(5.001, "5 N", 10.0)
    assert told == []
    item.show_force(-5.0, "5 N", 10.0)
    assert told == [1]
