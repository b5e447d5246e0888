"""Where the wind comes from, and what each way asks for."""

import pytest
from PySide6.QtCore import Qt

from holeplacer.gui.stages.loading_rows import changed
from holeplacer.gui.stages.strength import StrengthStage
from holeplacer.gui.stages.wind_group import HOW_TO_BEGIN, METHOD_NAMES
from holeplacer.loads.loading import METHODS


@pytest.fixture
def stage(qtbot, session):
    made = StrengthStage(session)
    qtbot.addWidget(made)
    made.resize(340, 700)
    with qtbot.waitExposed(made):
        made.show()
    made._refresh()
    return made


def seen(stage):
    return {
        bound.row.label.text() for bound in stage._rows._bound if not bound.row.entry.isHidden()
    }


def of(stage, method):
    stage.session.push(changed(stage.session.committed, "method", method), "Method")
    stage._refresh()
    return seen(stage)


def test_without_wind_two_lines_say_how_to_begin(stage):
    """And one act; no figures."""
    assert not stage.wind.begin.isHidden()
    assert HOW_TO_BEGIN.count("\n") == 1
    assert "Off the wall" not in seen(stage)
    assert stage.result._caution.isHidden()


def test_begin_enters_a_pressure(stage, qtbot):
    """A click, a figure, a result."""
    qtbot.mouseClick(stage.wind.begin, Qt.MouseButton.LeftButton)
    assert stage.session.plan.loading.method == "entered"
    qtbot.keyClicks(stage.wind.off, "1 kPa")
    qtbot.keyClick(stage.wind.off, Qt.Key.Key_Return)
    assert stage.session.plan.loading.pressure_out_pa == 1000.0
    assert stage.session.evaluation.strength is not None
    assert stage.session.undo_stack.undoText() == "Set off the wall to 1 kPa"


def test_every_method_can_be_chosen():
    """By a name of its own."""
    assert set(METHOD_NAMES) == set(METHODS)
    assert len(set(METHOD_NAMES.values())) == len(METHODS)


def test_each_method_asks_for_its_own(stage):
    """Nothing of another's."""
    entered, asce7, en1991 = (of(stage, name) for name in ("entered", "asce7-22", "en1991-1-4"))
    assert {"Off the wall", "On to the wall"} <= entered
    assert not {"Basic wind speed", "Terrain", "Effective area"} & entered
    assert {"Basic wind speed", "Exposure", "Mean roof height", "Zone of the wall"} <= asce7
    assert not {"Off the wall", "Terrain", "Raw exposure B", "Sign to corner"} & asce7
    assert {"Basic wind velocity", "Terrain", "Reference height", "Zone under suction"} <= en1991
    assert not {"Exposure", "Off the wall"} & en1991


def test_what_depends_on_a_choice_appears_with_it(stage):
    """Exposure B's raw formula; the corner's distance by place."""
    of(stage, "asce7-16")
    for path, value in (("asce7.exposure", "B"), ("asce7.zone", "by place")):
        stage.session.push(changed(stage.session.committed, path, value), "Choose")
    stage._refresh()
    assert {"Raw exposure B", "Sign to corner", "Least width"} <= seen(stage)
