"""What a hole in hand costs, drawn."""

import pytest
from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QFont

from holeplacer.gui.canvas.live_item import LiveFigures, LiveItem
from holeplacer.gui.canvas.plate import Line
from holeplacer.gui.theme import LIGHT

FIGURES = LiveFigures(
    centre=(100.0, 50.0),
    need_mm=12.0,
    edge_point=(100.0, 58.0),
    edge_figure="8 mm",
    short=True,
    lines=(Line("edge distance", "8 mm", "≥ 12 mm", broken=True),),
)
ROOM = QRectF(0, 0, 400, 200)


@pytest.fixture
def live(qapp):
    item = LiveItem(LIGHT, QFont())
    item.set_scale(4.0)
    return item


def test_it_shows_disc_leader_and_figures(live):
    """The extent holds the disc that must be metal and the edge point; both labels speak."""
    live.show_figures(FIGURES, ROOM)
    assert live.isVisible()
    assert live.boundingRect().contains(QRectF(88, 38, 24, 24))
    assert live.plate.lines == FIGURES.lines
    assert live.edge.lines == (Line("8 mm", broken=True),)
    assert live.edge.pos() == QPointF(100, 58)


def test_letting_go_hides_everything(live):
    """No figures, no labels."""
    live.show_figures(FIGURES, ROOM)
    live.show_figures(None, ROOM)
    assert not live.isVisible()
    assert not live.plate.isVisible()
    assert not live.edge.isVisible()


@pytest.mark.parametrize("centre", [(5.0, 5.0), (395.0, 5.0), (5.0, 195.0), (395.0, 195.0)])
def test_the_plate_stays_inside_the_view(live, centre):
    """In every corner it turns to the side where there is room."""
    moved = LiveFigures(centre, 12.0, centre, "0 mm", False, FIGURES.lines)
    live.show_figures(moved, ROOM)
    left = centre[0] * 4 + live.plate.offset_px.x()
    top = (200 - centre[1]) * 4 + live.plate.offset_px.y()
    size = live.plate.size_px
    assert left >= 0
    assert left + size.width() <= 1600
    assert top >= 0
    assert top + size.height() <= 800


def test_far_away_the_edge_figure_is_left_to_the_plate(live):
    """Where the disc is a few pixels, a second label would only cover it."""
    live.set_scale(0.3)
    live.show_figures(FIGURES, ROOM)
    assert not live.edge.isVisible()
    assert live.plate.isVisible()
