"""A field for a figure with its unit."""

import pytest
from PySide6.QtCore import Qt

from holeplacer.gui.quantity_field import QuantityField
from holeplacer.gui.quantity_kind import PRESSURE
from holeplacer.units import LengthUnit


@pytest.fixture
def field(qtbot):
    made = QuantityField("Off the wall", PRESSURE, empty="such as 20 psf")
    qtbot.addWidget(made)
    made.entered_values = []
    made.told = []
    made.entered.connect(made.entered_values.append)
    made.refused.connect(made.told.append)
    with qtbot.waitExposed(made):
        made.show()
    return made


def typed(field, qtbot, text):
    field.selectAll()
    qtbot.keyClick(field, Qt.Key.Key_Delete)
    qtbot.keyClicks(field, text)
    qtbot.keyClick(field, Qt.Key.Key_Return)


def test_what_is_typed_is_taken_once_whole(field, qtbot):
    """The value to the last bit, shown in the unit chosen."""
    typed(field, qtbot, "20 psf")
    assert field.entered_values == [pytest.approx(957.6052, abs=1e-3)]
    assert field.text() == "958 Pa"
    field.set_value(field.value, LengthUnit.INCH)
    assert field.text() == "20 psf"


def test_bad_input_stays_with_its_sentence(field, qtbot):
    """Nothing is entered; Escape brings the value back."""
    field.set_value(1000.0, LengthUnit.MM)
    typed(field, qtbot, "20")
    assert field.entered_values == []
    assert "has no unit" in field.told[-1]
    assert "has no unit" in field.accessibleDescription()
    assert field.text() == "20"
    field.set_value(1000.0, LengthUnit.MM)
    assert field.text() == "20"
    qtbot.keyClick(field, Qt.Key.Key_Escape)
    assert field.text() == "1 kPa"
    assert field.told[-1] == ""


def test_cleared_is_none_where_that_may_be(field, qtbot):
    """Empty means none, unless a figure has to be given."""
    field.set_value(1000.0, LengthUnit.MM)
    typed(field, qtbot, "")
    assert field.entered_values == [None]
    must = QuantityField("Factor", PRESSURE)
    qtbot.addWidget(must)
    must.set_value(1000.0, LengthUnit.MM)
    told = []
    must.refused.connect(told.append)
    typed(must, qtbot, "")
    assert must.value == 1000.0
    assert told
