"""A length is taken as people write it, kept exactly and refused in place."""

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QWheelEvent
from PySide6.QtWidgets import QApplication

from holeplacer.gui.length_field import LengthField
from holeplacer.units import LengthUnit


@pytest.fixture
def field(qtbot):
    made = LengthField("Ligament", most_mm=1000.0, step_mm=0.5)
    qtbot.addWidget(made)
    made.set_mm(3.0)
    made.show()
    made.setFocus()
    return made


def type_in(qtbot, field, text, key=Qt.Key.Key_Return):
    field.selectAll()
    if text:
        qtbot.keyClicks(field, text)
    else:
        qtbot.keyClick(field, Qt.Key.Key_Delete)
    qtbot.keyClick(field, key)


@pytest.mark.parametrize(
    ("text", "mm"),
    [("3/8", 9.525), ('3/8"', 9.525), ("9.5 mm", 9.5), ("1 1/2 in", 38.1), ("12", 12.0)],
)
def test_takes_what_people_write(qtbot, field, text, mm):
    """Fractions, inches and millimetres are taken, exactly."""
    with qtbot.waitSignal(field.entered) as told:
        type_in(qtbot, field, text)
    assert told.args == [mm, False]
    assert field.mm == mm


def test_shows_the_unit(field):
    """The unit stands in the field, and follows the choice."""
    assert field.text() == "3 mm"
    field.set_mm(9.525)
    field.set_unit(LengthUnit.INCH)
    assert field.text() == "3/8 in"


def test_value_is_not_read_back_from_the_text(qtbot, field):
    """What is shown rounded stays exact when nothing is typed."""
    field.set_mm(9.5251)
    with qtbot.assertNotEmitted(field.entered):
        qtbot.keyClick(field, Qt.Key.Key_Return)
    assert field.mm == 9.5251


@pytest.mark.parametrize("text", ["abc", "3/0", "-1", "2000", ""])
def test_refuses_in_place(qtbot, field, text):
    """What is no length, or out of bounds, is told and does not change the value."""
    with qtbot.waitSignal(field.refused) as told, qtbot.assertNotEmitted(field.entered):
        type_in(qtbot, field, text)
    assert told.args[0].startswith("Ligament: ")
    assert field.mm == 3.0
    assert field.error == field.accessibleDescription() != ""


def test_escape_takes_back_what_was_typed(qtbot, field):
    """Escape shows the value again and the error goes."""
    type_in(qtbot, field, "abc")
    qtbot.keyClick(field, Qt.Key.Key_Escape)
    assert field.text() == "3 mm"
    assert field.error == ""


def test_arrow_steps_to_round_values(qtbot, field):
    """An arrow goes to the next whole step, in the unit shown."""
    field.set_mm(3.1)
    with qtbot.waitSignal(field.entered) as told:
        qtbot.keyClick(field, Qt.Key.Key_Up)
    assert told.args == [3.5, True]
    field.set_unit(LengthUnit.INCH)
    field.stepBy(1)
    assert field.mm == pytest.approx(25.4 * 3 / 16)


def test_steps_stop_at_the_bounds(field):
    """Neither below the least nor above the greatest value."""
    field.stepBy(-100)
    assert field.mm == 0.0
    field.stepBy(10_000)
    assert field.mm == 1000.0


def test_may_be_empty_where_that_means_something(qtbot):
    """An optional length gives None and shows what that means."""
    field = LengthField("Edge distance", empty="by the rule set")
    qtbot.addWidget(field)
    field.set_mm(10.0)
    field.show()
    with qtbot.waitSignal(field.entered) as told:
        type_in(qtbot, field, "")
    assert told.args == [None, False]
    assert field.lineEdit().placeholderText() == "by the rule set"


def test_refreshing_leaves_typing_alone(qtbot, field):
    """The same value shown again does not wipe out half-typed text."""
    field.selectAll()
    qtbot.keyClicks(field, "12")
    field.set_mm(3.0)
    assert field.text() == "12"


def test_wheel_scrolls_the_form_unless_focused(qtbot, field):
    """A wheel over an unfocused field does not change the plan."""
    field.clearFocus()
    wheel = QWheelEvent(
        QPointF(5, 5), field.mapToGlobal(QPointF(5, 5)), QPoint(), QPoint(0, 120),
        Qt.MouseButton.NoButton, Qt.KeyboardModifier.NoModifier,
        Qt.ScrollPhase.NoScrollPhase, False,
    )  # fmt: skip
    QApplication.sendEvent(field, wheel)
    assert field.mm == 3.0


def test_is_named_for_screen_readers(field):
    """The field says what it is the length of."""
    assert field.accessibleName() == "Ligament"
