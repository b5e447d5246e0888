"""Forms by themselves, on a small sign that is laid out already."""

import pytest

from holeplacer.gui.own_stock import OwnStock
from holeplacer.gui.stages.sheet import SheetStage
from holeplacer.gui.stages.standoffs import StandoffsStage


@pytest.fixture
def stock(settings):
    """Metals and sizes of this test's own."""
    return OwnStock(settings)


def _shown(qtbot, stage):
    qtbot.addWidget(stage)
    stage.resize(320, 700)
    stage.show()
    refreshed(qtbot, stage)
    return stage


@pytest.fixture
def sheet_stage(qtbot, session, stock):
    """The Sheet form alone, filled."""
    return _shown(qtbot, SheetStage(session, stock))


@pytest.fixture
def standoffs_stage(qtbot, session, stock):
    """The Standoffs form alone, filled."""
    return _shown(qtbot, StandoffsStage(session, stock))


def refreshed(qtbot, stage):
    """Wait until the form has followed the plan."""
    with qtbot.waitSignal(stage.state_changed, timeout=10_000):
        stage.refresh_soon()


@pytest.fixture
def refresh(qtbot):
    """Wait until a form has followed the plan."""
    return lambda stage: refreshed(qtbot, stage)


@pytest.fixture
def type_in(qtbot):
    """Types a text into a field and leaves it."""

    def typed(field, text):
        field.setFocus()
        field.selectAll()
        qtbot.keyClicks(field, text)
        field.editingFinished.emit()

    return typed
