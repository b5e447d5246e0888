"""Forms by themselves, on a small sign that is laid out already."""

import pytest

from holeplacer.gui.divider import Divider
from holeplacer.gui.document import Document
from holeplacer.gui.exporter import Exporter
from holeplacer.gui.own_stock import OwnStock
from holeplacer.gui.sections_shown import SectionsShown
from holeplacer.gui.stages.sections import SectionsStage
from holeplacer.gui.stages.sheet import SheetStage
from holeplacer.gui.stages.standoffs import StandoffsStage
from holeplacer.plan import edit
from holeplacer.plan.seam import Seam
from holeplacer.plan.sections import SectionsChoice
from holeplacer.sheet.stock import Stock


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


@pytest.fixture
def divider(session):
    """Proposes and lays, by a worker."""
    return Divider(session)


@pytest.fixture
def sections_stage(qtbot, session, divider):
    """The Sections form alone, filled, with one sheet at hand and a seam on the stroke."""
    choice = SectionsChoice(stock=(Stock(700.0, 500.0, True, count=3),))
    plan = edit.with_sections(session.committed, choice)
    seam = Seam(500.0, 80.0, 500.0, 120.0)
    session.push(edit.with_seams(plan, (seam,)), "Divide")
    exporter = Exporter(session, Document(session))
    SectionsShown.of(session).set_open(True)
    return _shown(qtbot, SectionsStage(session, divider, exporter))


@pytest.fixture
def laid(sections_stage, divider, qtbot, refresh):
    """The same once the sections are on their sheets and the other ways are weighed."""
    qtbot.waitUntil(lambda: len(divider.compared) == 2, timeout=40_000)
    qtbot.waitUntil(lambda: not divider.working, timeout=10_000)
    refresh(sections_stage)
    return sections_stage
