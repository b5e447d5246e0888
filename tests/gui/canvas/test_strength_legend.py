"""The scale with its figures beside the drawing."""

import pytest
from PySide6.QtWidgets import QWidget

from holeplacer.documents import caution
from holeplacer.gui.canvas import colour_scale
from holeplacer.gui.canvas.strength_legend import LegendContent, StrengthLegend

WHOLE = LegendContent(
    "Deflection, pressure out", ("0", "1", "2", "3", "4"), "mm", "20 N", "deflected × 20"
)


@pytest.fixture
def legend(qtbot, theme):
    window = QWidget()
    qtbot.addWidget(window)
    window.resize(400, 400)
    made = StrengthLegend(theme, window)
    made.show_content(WHOLE)
    made.show()
    with qtbot.waitExposed(window):
        window.show()
    yield made
    assert made.parentWidget() is window  # kept as long as the legend


def test_it_holds_what_it_explains(legend):
    """Less to say, less room."""
    whole = legend.height()
    legend.show_content(LegendContent("Reactions, pressure out", longest="20 N"))
    assert legend.height() < whole
    legend.show_content(WHOLE)
    assert legend.height() == whole


def test_all_classes_are_seen_in_order(legend):
    """The least figures left, the greatest right."""
    image = legend.grab().toImage()
    names = colour_scale.colours(dark=False)
    lines = [
        [image.pixelColor(x, y).name() for x in range(image.width())] for y in range(image.height())
    ]
    seen = next(line for line in lines if names[3] in line)
    firsts = [seen.index(name) for name in names]
    assert firsts == sorted(firsts)


def test_it_speaks(legend):
    """Screen readers hear title, ticks and unit; the caution is one of the documents'."""
    said = legend.accessibleDescription()
    for part in (WHOLE.title, "0, 1, 2, 3, 4 mm", WHOLE.factor):
        assert part in said
    assert caution.SHORT


def test_clicks_go_through(legend):
    """It never takes a hole from under the pointer."""
    assert legend.parentWidget().childAt(legend.geometry().center()) is None
