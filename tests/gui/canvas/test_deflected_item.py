"""The deflected shape beside the strokes."""

import numpy as np
import pytest
from PySide6.QtCore import QRectF

from holeplacer.gui.canvas.deflected_item import TOWARDS, DeflectedItem
from holeplacer.gui.canvas.stroke_bands import StrokeBands
from holeplacer.gui.theme import LIGHT


@pytest.fixture
def bands(strokes, strength):
    return StrokeBands(strokes.axis, strength.effects.grillage.ways)


@pytest.fixture
def item(qapp):
    made = DeflectedItem()
    made.wear_colours(LIGHT)
    return made


def drawn(item, bands):
    lines = [line for _box, line in item._lines]
    return np.array([(p.x(), p.y()) for line in lines for p in line])


def test_every_point_is_moved_by_the_factor(item, bands):
    """Off the wall is right and down, on to it left and up."""
    moved = np.linspace(-1.0, 1.0, len(bands.xy))
    item.show_shape(bands, moved, 20.0, 1.0)
    wanted = bands.xy + 20.0 * moved[:, None] * np.array(TOWARDS)
    assert drawn(item, bands) == pytest.approx(wanted)
    assert np.hypot(*TOWARDS) == pytest.approx(1.0)
    for box, _line in item._lines:
        assert item.boundingRect().contains(box)


def test_what_hardly_moves_is_left(item, bands):
    """Less than a part of a pixel is no reason to paint."""
    moved = np.zeros(len(bands.xy))
    item.show_shape(bands, moved, 1.0, 1.0)
    before = drawn(item, bands)
    moved[bands.first[1] : bands.first[2]] = 5.0
    moved[: bands.first[1]] = 0.1
    item.show_shape(bands, moved, 1.0, 1.0)
    after = drawn(item, bands)
    assert np.array_equal(after[: bands.first[1]], before[: bands.first[1]])
    part = slice(bands.first[1], bands.first[2])
    assert np.allclose(after[part] - before[part], 5.0 * np.array(TOWARDS))


def test_none_hides_it(item, bands):
    """Asked for in the form, and put away there."""
    item.show_shape(bands, np.zeros(len(bands.xy)), 1.0, 1.0)
    item.show_shape(None, np.empty(0), 1.0, 1.0)
    assert not item.isVisible()
    assert isinstance(item.boundingRect(), QRectF)
    assert item.shape().isEmpty()
