"""While nothing is open the page says how to begin."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QPushButton

from holeplacer.gui.start_page import StartPage


@pytest.fixture
def page(qtbot):
    made = StartPage()
    qtbot.addWidget(made)
    made.show()
    return made


def button(page, text):
    (found,) = [one for one in page.findChildren(QPushButton) if text in one.text()]
    return found


def test_two_lines_say_how_to_begin(page):
    """One line for one's own lettering, one for the demo."""
    texts = [label.text() for label in page.findChildren(QLabel)]
    assert len(texts) == 2
    assert "DXF or SVG" in texts[0]
    assert "demo" in texts[1]


def test_buttons_ask_for_file_and_demo(page, qtbot):
    """Each button says what is wanted."""
    with qtbot.waitSignal(page.open_wanted):
        qtbot.mouseClick(button(page, "Open artwork"), Qt.MouseButton.LeftButton)
    with qtbot.waitSignal(page.demo_wanted):
        qtbot.mouseClick(button(page, "demo"), Qt.MouseButton.LeftButton)


def test_recent_files_are_offered(page, qtbot, tmp_path):
    """A recent file is a button of its own; showing others replaces it."""
    page.show_recent((tmp_path / "harbour.svg",))
    with qtbot.waitSignal(page.file_wanted) as told:
        qtbot.mouseClick(button(page, "harbour.svg"), Qt.MouseButton.LeftButton)
    assert told.args == [tmp_path / "harbour.svg"]
    page.show_recent((tmp_path / "bakery.dxf",))
    qtbot.waitUntil(
        lambda: not [one for one in page.findChildren(QPushButton) if "harbour" in one.text()]
    )
    assert button(page, "bakery.dxf")
