"""One hole on the canvas."""

from dataclasses import replace

import numpy as np
import pytest
from PySide6.QtCore import QRectF
from PySide6.QtGui import QColor, QFont, QImage, QPainter
from PySide6.QtWidgets import QGraphicsScene

from holeplacer.gui.canvas.hole_item import LEAST_RING_PX, HoleItem
from holeplacer.gui.canvas.hole_symbol import HoleMark, Trouble
from holeplacer.gui.theme import LIGHT

MARK = HoleMark(12, 50.0, 40.0, 7.0, 16.0)
SHORT = replace(MARK, trouble=Trouble.SHORT, short_rad=2.0, figure="9.8 of 12.7 mm")


@pytest.fixture
def made(qapp):
    """Makes items; the scene keeps them alive."""
    scene = QGraphicsScene()

    def make(mark, px_per_mm=1.0):
        item = HoleItem(mark, LIGHT, QFont())
        item.set_scale(px_per_mm)
        scene.addItem(item)
        return item

    yield make
    scene.clear()


def picture(item, half=150):
    image = QImage(2 * half, 2 * half, QImage.Format.Format_RGB32)
    image.fill(QColor("#808080"))
    painter = QPainter(image)
    painter.translate(half, half)
    item.paint(painter, None)
    painter.end()
    return image


@pytest.mark.parametrize(
    "mark",
    [MARK, SHORT, replace(MARK, fixed=True, selected=True), replace(SHORT, selected=True),
     replace(MARK, trouble=Trouble.BLOCKED), replace(SHORT, short_rad=-0.4, number=1234)],
)  # fmt: skip
@pytest.mark.parametrize("px_per_mm", [0.3, 1.0, 6.0])
def test_all_ink_lies_inside_its_extent(made, mark, px_per_mm):
    """Nothing is painted where Qt would not clean up."""
    item = made(mark, px_per_mm)
    image = picture(item)
    inked = np.array(
        [[image.pixel(x, y) & 0xFFFFFF != 0x808080 for x in range(300)] for y in range(300)]
    )
    rows, columns = np.nonzero(inked)
    bounds = item.boundingRect().translated(150, 150)
    extent = QRectF(columns.min(), rows.min(), np.ptp(columns) + 1.0, np.ptp(rows) + 1.0)
    assert bounds.contains(extent)


def test_hole_and_cap_have_their_true_size(made):
    """At 10 pixels a millimetre a 7 mm hole is 70 pixels wide, its 16 mm cap 160."""
    image = picture(made(MARK, 10.0))
    row = [image.pixelColor(x, 150).name() for x in range(300)]
    hole = [x for x, colour in enumerate(row) if colour == LIGHT.hole]
    cap = [x for x, colour in enumerate(row) if colour != "#808080"]
    assert max(hole) - min(hole) + 1 == pytest.approx(70, abs=3)
    assert max(cap) - min(cap) + 1 == pytest.approx(160, abs=3)


def test_far_away_the_ring_stays_readable(made):
    """Zoomed out, the ring keeps its least size; close up it is the hole's edge."""
    assert made(MARK, 0.05).ring_px == LEAST_RING_PX
    assert made(MARK, 10.0).ring_px == 35.0
    assert made(MARK, 10.0).halo_px == 80.0


def test_the_figure_shows_where_it_is_legible_or_looked_at(made):
    """Far away only if selected or pointed at, close up always; not while it is in hand."""
    item = made(SHORT, 0.3)
    assert not item.shows_figure
    item.set_hovered(True)
    assert item.shows_figure
    item.set_hovered(False)
    item.show_mark(replace(SHORT, selected=True))
    assert item.shows_figure
    item.set_held(True)
    assert not item.shows_figure
    assert made(SHORT, 6.0).shows_figure
    assert not made(MARK, 6.0).shows_figure


def test_another_mark_moves_it(made):
    """It follows the plan's coordinates, selected ones above the others."""
    item = made(MARK)
    item.show_mark(replace(MARK, x_mm=80.0, selected=True))
    assert (item.x(), item.y(), item.zValue()) == (80.0, 40.0, 1.0)
