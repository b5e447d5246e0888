"""The help is there, names the stages and what keys do."""

from holeplacer.gui.frame import MENUS
from holeplacer.gui.help_text import HelpWindow


def test_help_covers_every_stage_and_the_caution(qtbot):
    """All stages, the canvas and what the figures are not."""
    window = HelpWindow()
    qtbot.addWidget(window)
    window.show()
    text = window.page.toPlainText()
    stages = ("Outline", "Sheet", "Standoffs", "Holes", "Strength", "Sections")
    for word in (*stages, "On the canvas", "Estimates", "Ctrl+K"):
        assert word in text
    assert not window.isModal()
    assert len(MENUS) == 6
