"""The chart of spans by count can be chosen from by pointer and keys."""

import pytest
from PySide6.QtCore import QPoint, Qt

from holeplacer.gui.count_chart import CountChart
from holeplacer.units import LengthUnit

POINTS = ((20, 420.0), (21, 390.0), (22, 350.0), (23, 310.0), (24, 295.0))


@pytest.fixture
def chart(qtbot):
    made = CountChart()
    qtbot.addWidget(made)
    made.resize(280, 140)
    made.show_curve(POINTS, 300.0, LengthUnit.MM, 22)
    made.show()
    return made


def test_keys_walk_and_return_chooses(chart, qtbot):
    """Right goes to one more hole, Return proposes it."""
    qtbot.keyClick(chart, Qt.Key.Key_Right)
    with qtbot.waitSignal(chart.chosen) as told:
        qtbot.keyClick(chart, Qt.Key.Key_Return)
    assert told.args == [23]


def test_a_click_chooses_the_nearest(chart, qtbot):
    """The right end is the greatest count."""
    with qtbot.waitSignal(chart.chosen) as told:
        qtbot.mouseClick(chart, Qt.MouseButton.LeftButton, pos=QPoint(275, 60))
    assert told.args == [24]


def test_what_is_pointed_at_is_spoken(chart, qtbot):
    """Count and span are said with their unit."""
    qtbot.keyClick(chart, Qt.Key.Key_Left)
    assert "21 holes, largest span 390 mm" in chart.accessibleDescription()
    chart.show_curve(POINTS, 300.0, LengthUnit.INCH, 22)
    assert " in" in chart.accessibleDescription()


def test_paints_a_single_point(chart):
    """A curve of one point, or of none, is painted without fault."""
    chart.show_curve(((5, 100.0),), 300.0, LengthUnit.MM, 5)
    assert not chart.grab().isNull()
    chart.show_curve((), 300.0, LengthUnit.MM, 5)
    assert not chart.grab().isNull()


def test_a_second_curve_tells_the_deflection(chart):
    """Read out with the span, figures on the right, and drawn beside the first."""
    before = chart.grab().toImage()
    spans = ((24, 340.0), (25, 300.0), (26, 280.0))
    chart.show_curve(spans, 300.0, LengthUnit.MM, 25, ((24, 5.0), (25, 3.5), (26, 3.25)))
    assert "largest deflection 3.5 mm" in chart.accessibleDescription()
    assert chart.grab().toImage() != before
    narrow = chart._box().width()
    chart.show_curve(spans, 300.0, LengthUnit.MM, 25)
    assert chart._box().width() > narrow
    assert "deflection" not in chart.accessibleDescription()
