"""A ribbon on the screen, and the strokes it shows."""

import pytest
from PySide6.QtWidgets import QApplication

from holeplacer.gui.ribbon.unrolled import unrolled
from holeplacer.gui.ribbon.view import RibbonView


@pytest.fixture(scope="session")
def ribbon(strokes):
    """The sign's axis unrolled."""
    return unrolled(strokes.axis)


@pytest.fixture(scope="session")
def run_at(ribbon, foot):
    """The run whose branch is nearest to a place of the sign."""

    def found(x, y):
        point = foot(x, y)
        return ribbon.run_of[(point.branch, point.node)]

    return found


@pytest.fixture
def view(qtbot, session, theme):
    """The ribbon, 1000 x 140 pixels, all of it in sight."""
    made = RibbonView(session, theme)
    qtbot.addWidget(made)
    made.resize(1000, 140)
    with qtbot.waitExposed(made):
        made.show()
    QApplication.processEvents()
    return made
