"""States of holes, told by shape."""

import itertools
import math
from dataclasses import replace

import numpy as np
import pytest
from PySide6.QtGui import QColor, QImage, QPainter

from holeplacer.gui.canvas import hole_symbol
from holeplacer.gui.canvas.hole_symbol import HoleMark, Trouble
from holeplacer.gui.theme import DARK, LIGHT

PLAIN = HoleMark(7, 0.0, 0.0, 7.0, 16.0)
STATES = {
    "plain": PLAIN,
    "fixed": replace(PLAIN, fixed=True),
    "short": replace(PLAIN, trouble=Trouble.SHORT, short_rad=0.7),
    "blocked": replace(PLAIN, trouble=Trouble.BLOCKED),
}


def ink(mark, colours=LIGHT):
    """Which pixels differ from the ground."""
    image = QImage(64, 64, QImage.Format.Format_RGB32)
    image.fill(QColor(colours.ground))
    painter = QPainter(image)
    painter.translate(32, 32)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    hole_symbol.paint_state(painter, mark, 10.0, colours)
    painter.end()
    ground = QColor(colours.ground).rgb()
    return np.array([[image.pixel(x, y) != ground for x in range(64)] for y in range(64)])


@pytest.mark.parametrize("colours", [LIGHT, DARK])
def test_states_differ_in_shape_not_only_in_colour(colours):
    """Any two states differ in which pixels are inked, so they differ in grey and for anyone."""
    shapes = {name: ink(mark, colours) for name, mark in STATES.items()}
    for one, two in itertools.combinations(STATES, 2):
        assert np.count_nonzero(shapes[one] ^ shapes[two]) > 20, (one, two)


def test_selection_is_a_halo():
    """A selected hole has ink outside its ring all round."""
    image = QImage(64, 64, QImage.Format.Format_RGB32)
    image.fill(QColor(LIGHT.ground))
    painter = QPainter(image)
    painter.translate(32, 32)
    hole_symbol.paint_halo(painter, 12.0, LIGHT, firm=True)
    painter.end()
    for angle in np.linspace(0, 6, 12):
        at = hole_symbol.polar(12.0 + hole_symbol.HALO_GAP_PX, float(angle))
        colour = image.pixelColor(round(32 + at.x()), round(32 + at.y()))
        assert colour != QColor(LIGHT.ground)


@pytest.mark.parametrize("towards", [0.0, math.pi / 2, math.pi, -math.pi / 2])
def test_the_wedge_points_to_the_short_side(towards):
    """Its ink lies on that side, y up."""
    extra = ink(replace(PLAIN, trouble=Trouble.SHORT, short_rad=towards)) & ~ink(PLAIN)
    rows, columns = np.nonzero(extra)
    centre = complex(columns.mean() - 31.5, 31.5 - rows.mean())
    off = math.remainder(math.atan2(centre.imag, centre.real) - towards, math.tau)
    assert abs(off) < 0.1
    assert abs(centre) > 10.0


def test_trouble_is_alert_ink():
    """Colour joins the shape."""
    assert hole_symbol.ink(PLAIN, LIGHT) == QColor(LIGHT.ring)
    assert hole_symbol.ink(STATES["short"], LIGHT) == QColor(LIGHT.alert)
