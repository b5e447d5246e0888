"""What the drawing carries is chosen here; the buttons ask for the files."""

import pytest
from PySide6.QtCore import Qt

from holeplacer.gui.exporter import Wanted
from holeplacer.plan import edit


@pytest.fixture
def group(opened):
    opened.rail.setCurrentRow(3)
    return opened.hole_stage.export


def test_choices_reach_the_exporter(group, opened):
    """Version, units, numbers and marks are taken over."""
    group._version.chosen.emit("R12")
    group._units.chosen.emit("in")
    group._numbers.setChecked(False)
    group._marks.setChecked(False)
    assert opened.exporter.wanted == Wanted("R12", "in", numbers=False, centre_marks=False)


def test_enabled_once_there_are_holes(group, opened, qtbot):
    """Without holes there is nothing to cut."""
    group.refresh()
    assert not group._drawing.isEnabled()
    opened.session.push(edit.with_hole_added(opened.session.committed, 300, 100), "Add hole 1")
    qtbot.waitUntil(group._drawing.isEnabled)
    assert group._schedule.isEnabled()


def test_buttons_ask(group, opened, qtbot):
    """Each button asks for its file."""
    opened.session.push(edit.with_hole_added(opened.session.committed, 300, 100), "Add hole 1")
    group.refresh()
    group.drawing_wanted.disconnect()
    group.schedule_wanted.disconnect()
    with qtbot.waitSignal(group.drawing_wanted):
        qtbot.mouseClick(group._drawing, Qt.MouseButton.LeftButton)
    with qtbot.waitSignal(group.schedule_wanted):
        qtbot.mouseClick(group._schedule, Qt.MouseButton.LeftButton)
