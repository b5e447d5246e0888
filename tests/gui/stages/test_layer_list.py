"""Layers are chosen by ticks."""

import pytest
from PySide6.QtCore import Qt

from holeplacer.gui.stages.layer_list import LayerList

LAYERS = (("Letters", 226, True), ("Notes", 1, True), ("Old", 40, False), ("", 2, True))


@pytest.fixture
def layers(qtbot):
    made = LayerList()
    qtbot.addWidget(made)
    made.show()
    made.show_layers(LAYERS, None)
    return made


def ticked(layers):
    return [layers.item(row).checkState() is Qt.CheckState.Checked for row in range(layers.count())]


def test_visible_layers_are_ticked(layers):
    """Hidden ones are not, and are said to be hidden."""
    assert ticked(layers) == [True, True, False, True]
    texts = [layers.item(row).text() for row in range(4)]
    assert texts == [
        "Letters: 226 entities",
        "Notes: 1 entity",
        "Old: 40 entities, hidden in the drawing",
        "without a layer: 2 entities",
    ]


def test_ticks_tell_what_is_read(layers, qtbot):
    """Taking a tick away tells the names that stay."""
    with qtbot.waitSignal(layers.chosen) as told:
        layers.item(1).setCheckState(Qt.CheckState.Unchecked)
    assert told.args == [("Letters", "")]


def test_showing_is_no_choice(layers, qtbot):
    """The plan's own choice is shown without telling it back."""
    with qtbot.assertNotEmitted(layers.chosen):
        layers.show_layers(LAYERS, ("Old",))
    assert ticked(layers) == [False, False, True, False]
