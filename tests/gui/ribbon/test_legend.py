"""Legend beside the ribbon."""

import pytest
from PySide6.QtGui import QColor
from PySide6.QtWidgets import QWidget

from holeplacer.gui.ribbon.legend import Legend
from holeplacer.gui.ribbon.picture import lanes
from holeplacer.gui.ribbon.trace import clear_width
from holeplacer.gui.theme import DARK, LIGHT
from holeplacer.units import LengthUnit


@pytest.fixture
def legend(qtbot, strokes):
    home = QWidget()
    qtbot.addWidget(home)
    made = Legend(LIGHT, home)
    made.resize(76, 140)
    made.show_lanes(lanes((clear_width(strokes.axis, 19.05),), 140), LengthUnit.MM)
    home.show()
    yield made
    home.close()


def test_each_lane_is_named_with_its_limit(legend):
    """In the unit shown."""
    assert legend.words == (("clear width", "≥ 19.1 mm"),)
    legend.show_lanes(legend._lanes, LengthUnit.INCH)
    assert legend.words == (("clear width", "≥ 3/4 in"),)


def test_the_limit_is_written_at_its_height(legend):
    """In the colour of its line."""
    image = legend.grab().toImage()
    lane = legend._lanes[0]
    wanted = QColor(LIGHT.limit)
    rows = [
        y for y in range(140) for x in range(76)
        if (c := image.pixelColor(x, y)).lightness() < 140 and abs(c.hue() - wanted.hue()) < 25
    ]  # fmt: skip
    assert rows
    assert abs(sum(rows) / len(rows) - float(lane.y_px(19.05))) < 10


def test_it_wears_another_theme(legend):
    """Ground of the dark set."""
    legend.wear_colours(DARK)
    assert legend.grab().toImage().pixelColor(1, 1) == QColor(DARK.ruler)
