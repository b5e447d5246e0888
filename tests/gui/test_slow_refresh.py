"""Tables follow the session without holding up a drag."""

import pytest
from PySide6.QtWidgets import QWidget

from holeplacer.gui.slow_refresh import SlowRefresh
from holeplacer.plan import edit


class Table(QWidget):
    def __init__(self, session):
        super().__init__()
        self.count = 0
        self.slow = SlowRefresh(session, self.refresh)

    def refresh(self):
        self.count += 1


def test_unseen_until_shown(qtbot, session):
    """What nobody sees is filled when it is shown, once."""
    table = Table(session)
    qtbot.addWidget(table)
    session.show_plan(edit.with_hole_moved(session.plan, 1, 110.0, 100.0))
    assert table.count == 0
    with qtbot.waitExposed(table):
        table.show()
    assert table.count == 1
    table.hide()
    table.show()
    assert table.count == 1


def test_a_burst_is_one_refresh(qtbot, session):
    """Many changes of one moment are shown once."""
    table = Table(session)
    qtbot.addWidget(table)
    with qtbot.waitExposed(table):
        table.show()
    for x in range(110, 120):
        session.preview(edit.with_hole_moved(session.committed, 1, float(x), 100.0))
    assert table.count == 1
    qtbot.waitUntil(lambda: table.count == 2)


def test_only_a_widgets_method_can_be_refreshed(session):
    """Its visibility is what decides."""
    with pytest.raises(TypeError):
        SlowRefresh(session, lambda: None)
