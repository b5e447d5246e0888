"""The rail says per stage its figure and whether something is open, by shape and word."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor
from PySide6.QtWidgets import QApplication

from holeplacer.gui.rail import WIDTH, Rail, StageState
from holeplacer.gui.theme import Choice


@pytest.fixture
def rail(qtbot, theme):
    made = Rail(("Outline", "Holes"))
    qtbot.addWidget(made)
    made.show()
    return made


@pytest.mark.parametrize(
    ("state", "word"),
    [
        (StageState("Holes"), ""),
        (StageState("Holes", ready=True), "nothing open"),
        (StageState("Holes", open_count=1, ready=True), "1 finding"),
        (StageState("Holes", open_count=3, ready=True), "3 findings"),
        (StageState("Outline", open_count=1, open_word="question"), "1 question"),
    ],
)
def test_state_in_words(state, word):
    """The word counts what is open."""
    assert state.word == word


def test_all_of_it_is_spoken(rail):
    """A screen reader gets name, figure and state."""
    rail.show_states((StageState("Outline"), StageState("Holes", "27 holes", 2, ready=True)))
    spoken = rail.item(1).data(Qt.ItemDataRole.AccessibleTextRole)
    assert spoken == "Holes, 27 holes, 2 findings"


def test_keys_choose_a_stage(rail, qtbot):
    """Down goes to the next stage and says so."""
    with qtbot.waitSignal(rail.chosen) as told:
        qtbot.keyClick(rail, Qt.Key.Key_Down)
    assert told.args == [1]


def painted(rail, row):
    box = rail.visualItemRect(rail.item(row))
    return rail.viewport().grab(box).toImage()


def colours_in(image):
    return {
        image.pixelColor(x, y).name() for x in range(image.width()) for y in range(image.height())
    }


@pytest.mark.parametrize("choice", [Choice.LIGHT, Choice.DARK])
def test_an_open_stage_looks_different(rail, theme, choice):
    """The mark is painted in the alert colour, and its shape differs from the tick."""
    theme.choose(choice)
    QApplication.processEvents()
    alert = QColor(theme.colours.alert).name()
    rail.show_states((StageState("Outline"), StageState("Holes", "27 holes", 2, ready=True)))
    opened = painted(rail, 1)
    rail.show_states((StageState("Outline"), StageState("Holes", "27 holes", 0, ready=True)))
    closed = painted(rail, 1)
    assert alert in colours_in(opened)
    assert alert not in colours_in(closed)
    assert opened != closed


def test_width_is_fixed(rail):
    """The rail keeps its two hundred pixels."""
    assert rail.width() == WIDTH == 200
