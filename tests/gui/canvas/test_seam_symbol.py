"""A seam's state is told by shape."""

import pytest
from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QImage, QPainter

from holeplacer.gui.canvas import seam_symbol
from holeplacer.gui.canvas.seam_symbol import SeamMark
from holeplacer.gui.theme import DARK, LIGHT

MARK = SeamMark(2, 0.0, 0.0, (0.0, 20.0))


def painted(mark, colours=LIGHT, *, lit=False, tick=False):
    image = QImage(120, 120, QImage.Format.Format_ARGB32)
    image.fill(colours.colour("ground"))
    painter = QPainter(image)
    if tick:
        seam_symbol.paint_tick(painter, mark, QRectF(55, 20, 9, 80), colours, lit=lit)
    else:
        painter.translate(60, 60)
        seam_symbol.paint_line(painter, mark, QPointF(0, -20), colours, lit=lit)
    painter.end()
    return image


STATES = {
    "plain": MARK,
    "fixed": SeamMark(2, 0.0, 0.0, (0.0, 20.0), fixed=True),
    "selected": SeamMark(2, 0.0, 0.0, (0.0, 20.0), selected=True),
    "broken": SeamMark(2, 0.0, 0.0, (0.0, 20.0), trouble="8 of 15 mm"),
}


@pytest.mark.parametrize("tick", [False, True])
@pytest.mark.parametrize("colours", [LIGHT, DARK])
def test_every_state_looks_another_without_colour(qapp, colours, tick):
    """In grey, too, no two states are the same picture."""
    grey = [
        painted(mark, colours, tick=tick).convertToFormat(QImage.Format.Format_Grayscale8)
        for mark in STATES.values()
    ]
    for one in range(len(grey)):
        for two in range(one):
            assert grey[one] != grey[two]


def test_nothing_is_painted_past_its_reach(qapp):
    """What is told to be covered covers pin, wedges and halo."""
    reach = seam_symbol.reach_px(20.0)
    image = painted(
        SeamMark(0, 0.0, 0.0, (0.0, 20.0), fixed=True, selected=True, trouble="x"), lit=True
    )
    ground = LIGHT.colour("ground").rgb()
    for x in range(120):
        for y in range(120):
            if max(abs(x - 60), abs(y - 60)) > reach + 1:
                assert image.pixel(x, y) == ground


def test_it_is_called_as_findings_call_it():
    """Counted from 1."""
    assert MARK.words == "seam 3"
