"""Strokes in colour, and what of them is painted anew."""

import numpy as np
import pytest
from PySide6.QtWidgets import QGraphicsScene, QGraphicsView

from holeplacer.gui.canvas import colour_scale
from holeplacer.gui.canvas.strength_item import StrengthItem
from holeplacer.gui.canvas.stroke_bands import StrokeBands


@pytest.fixture
def bands(strokes, strength):
    return StrokeBands(strokes.axis, strength.effects.grillage.ways)


@pytest.fixture
def item(qapp):
    made = StrengthItem()
    made.wear_scale(dark=False)
    return made


def test_only_changed_branches_are_outlined_anew(item, bands):
    """A drag that changes one branch touches that one."""
    figures = np.zeros(len(bands.xy))
    item.show_figures(bands, figures, 1.0)
    assert item.isVisible()
    assert item.rebuilt == bands.branches
    item.show_figures(bands, figures.copy(), 1.0)
    assert item.rebuilt == bands.branches
    figures[bands.first[1] : bands.first[2]] = 0.7
    item.show_figures(bands, figures, 1.0)
    assert item.rebuilt == bands.branches + 1


def test_it_is_painted_in_the_class_of_its_figure(item, bands, strokes, qtbot):
    """In the middle of the stroke, the colour of the highest class."""
    scene = QGraphicsScene()
    scene.addItem(item)
    view = QGraphicsView(scene)
    qtbot.addWidget(view)
    view.resize(700, 300)
    view.scale(0.4, -0.4)
    item.show_figures(bands, np.full(len(bands.xy), 0.99), 1.0)
    with qtbot.waitExposed(view):
        view.show()
    view.centerOn(200.0, 100.0)
    at = view.mapFromScene(200.0, 100.0)
    seen = view.viewport().grab().toImage().pixelColor(at)
    assert seen.name() == colour_scale.colours(dark=False)[-1]


def test_nothing_to_show_hides_it(item, bands):
    """And it takes no clicks."""
    item.show_figures(bands, np.zeros(len(bands.xy)), 1.0)
    item.show_figures(None, np.empty(0), 1.0)
    assert not item.isVisible()
    assert item.shape().isEmpty()
