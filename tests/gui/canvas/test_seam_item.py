"""One seam on the canvas."""

from dataclasses import replace

import pytest
from PySide6.QtCore import QPointF
from PySide6.QtGui import QFont

from holeplacer.gui.canvas.seam_item import SeamItem
from holeplacer.gui.canvas.seam_symbol import SeamMark
from holeplacer.gui.theme import LIGHT

MARK = SeamMark(0, 50.0, 60.0, (0.0, 20.0))


@pytest.fixture
def item(qapp):
    made = SeamItem(MARK, LIGHT, QFont())
    made.set_scale(2.0)
    return made


def test_it_is_as_long_as_the_stroke_is_wide(item):
    """True length at the view's scale, y downwards on the screen."""
    assert item.end_px == QPointF(0.0, -40.0)
    assert (item.x(), item.y()) == (50.0, 60.0)


def test_its_name_stands_there_when_asked_for_or_looked_at(item):
    """Named, hovered or selected; with what is wrong, if anything is."""
    assert item.words == ""
    item.set_named(True)
    assert item.words == "seam 1"
    item.set_scale(0.1)
    assert item.words == ""
    item.set_hovered(True)
    assert item.words == "seam 1"
    item.show_mark(replace(MARK, trouble="8 of 15 mm"))
    assert item.words == "seam 1  ▲ 8 of 15 mm"


def test_distance_to_the_line_not_to_its_middle(item):
    """Beside the line, and past its end."""
    assert item.away_px(QPointF(5, 30)) == pytest.approx(5)
    assert item.away_px(QPointF(0, 50)) == pytest.approx(10)


def test_what_it_covers_holds_its_words(item):
    """The box grows with the name, at either end."""
    before = item.boundingRect()
    item.set_named(True)
    assert item.boundingRect().united(before) == item.boundingRect()
    item.show_mark(replace(MARK, across_mm=(20.0, 0.0), fixed=True))
    assert item.boundingRect().contains(item._words_box)


def test_a_mere_move_paints_nothing_anew(item):
    """Another place is a copy of the same picture."""
    bounds = item.boundingRect()
    item.show_mark(replace(MARK, x_mm=70.0))
    assert item.x() == 70.0
    assert item.boundingRect() == bounds
