"""The question for units shows what each answer would give."""

import pytest
from PySide6.QtCore import Qt

from holeplacer.gui.stages.units_question import OFFERED, UnitsQuestion
from holeplacer.units import LengthUnit


@pytest.fixture
def question(qtbot):
    made = UnitsQuestion()
    qtbot.addWidget(made)
    made.show()
    return made


def test_each_answer_shows_its_size(question):
    """Two thousand units are 2 m, 20 m or 50.8 m wide."""
    question.show_sizes((2000.0, 640.0), LengthUnit.MM)
    texts = [question._buttons[name].text() for name in OFFERED]
    assert texts == [
        "mm:  2000 mm wide, 640 mm high",
        "cm:  20000 mm wide, 6400 mm high",
        "in:  50800 mm wide, 16256 mm high",
    ]


def test_sizes_in_inches(question):
    """They are shown in the unit chosen."""
    question.show_sizes((254.0, 25.4), LengthUnit.INCH)
    assert question._buttons["mm"].text() == "mm:  10 in wide, 1 in high"


def test_one_click_answers(question, qtbot):
    """Each button tells its unit."""
    for name in OFFERED:
        with qtbot.waitSignal(question.answered) as told:
            qtbot.mouseClick(question._buttons[name], Qt.MouseButton.LeftButton)
        assert told.args == [name]


def test_every_other_unit_is_there(question, qtbot):
    """Feet, metres and the rest are in the list; its first line is no answer."""
    others = question._others
    with qtbot.assertNotEmitted(question.answered):
        others.chosen.emit(None)
    names = [value for _text, value in others._entries]
    assert {"m", "ft", "px", "pt"} <= set(names)
    with qtbot.waitSignal(question.answered) as told:
        others.chosen.emit("ft")
    assert told.args == ["ft"]
