"""Messages stand in place, with the acts that answer them."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QPushButton, QToolButton

from holeplacer.gui.message_line import Kind, MessageLine


@pytest.fixture
def line(qtbot):
    made = MessageLine()
    qtbot.addWidget(made)
    return made


def test_says_and_clears(line):
    """It is there while there is something to say."""
    assert line.isHidden()
    assert line.text == ""
    line.say(Kind.ALERT, "The file is a folder.")
    assert line.isVisible()
    assert line.text == "The file is a folder."
    line.clear()
    assert line.isHidden()


def test_an_act_answers_it(line, qtbot):
    """Pressing an act does it once and puts the message away."""
    done = []
    line.say(Kind.QUESTION, "Recover?", (("Recover it", lambda: done.append("recovered")),))
    button = line.findChild(QPushButton)
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)
    assert done == ["recovered"]
    assert line.isHidden()


def test_a_new_message_takes_the_place_of_the_old(line):
    """Acts of an earlier message do not stay."""
    line.say(Kind.QUESTION, "Recover?", (("Recover it", lambda: None),))
    line.say(Kind.NOTE, "Saved.")
    assert [button for button in line.findChildren(QPushButton) if button.isVisible()] == []


def test_can_be_put_away(line, qtbot):
    """The cross dismisses it."""
    line.say(Kind.NOTE, "Saved.")
    with qtbot.waitSignal(line.dismissed):
        qtbot.mouseClick(line.findChild(QToolButton), Qt.MouseButton.LeftButton)
    assert line.isHidden()


def test_kinds_differ_by_sign():
    """Note, question and alert have signs of their own."""
    assert len({kind.value for kind in Kind}) == 3
