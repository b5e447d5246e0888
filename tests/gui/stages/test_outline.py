"""Size, level, units, layers and strokes change the outline; holes stay on the lettering."""

import math

import pytest
from PySide6.QtCore import Qt

from holeplacer.plan import edit
from holeplacer.units import LengthUnit


@pytest.fixture
def stage(opened, qtbot):
    opened.rail.setCurrentRow(0)
    made = opened.stages[0]
    qtbot.waitUntil(lambda: "pieces" in made._facts.text())
    return made


def size(opened):
    left, bottom, right, top = opened.session.layout.outline.bounds_mm
    return right - left, top - bottom


def type_in(qtbot, field, text):
    field.setFocus()
    field.selectAll()
    qtbot.keyClicks(field, text)
    qtbot.keyClick(field, Qt.Key.Key_Return)


def test_facts_of_the_file(stage):
    """Name, pieces, counters, cut length and area, with units."""
    text = stage._facts.text()
    assert text.startswith("sign.svg\n2 pieces, 0 counters, ")
    assert "cut edge 1.82 m" in text
    assert "metal 0.027 m²" in text


def test_a_typed_width_scales(stage, opened, qtbot):
    """Overall width in inches; the height follows; back to drawn undoes it."""
    type_in(qtbot, stage._width.entry, "48 in")
    qtbot.waitUntil(lambda: size(opened)[0] == pytest.approx(1219.2), timeout=20_000)
    qtbot.waitUntil(lambda: stage._width.note.text() == "is 1219.2 mm")
    assert stage._as_drawn.isEnabled()
    qtbot.mouseClick(stage._as_drawn, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: size(opened)[0] == pytest.approx(600), timeout=20_000)


def test_holes_stay_on_the_lettering(stage, opened, qtbot):
    """Made larger, a hole keeps its place on the bar, in one step with the size."""
    left, bottom, right, top = opened.session.layout.outline.pieces[0].bounds_mm
    place = left + 0.25 * (right - left), (bottom + top) / 2
    opened.session.push(edit.with_hole_added(opened.session.committed, *place), "Add hole 1")
    type_in(qtbot, stage._width.entry, "1200")
    qtbot.waitUntil(lambda: size(opened)[0] == pytest.approx(1200), timeout=20_000)
    left, bottom, right, top = opened.session.layout.outline.pieces[0].bounds_mm
    (hole,) = opened.session.plan.holes
    assert hole.x_mm == pytest.approx(left + 0.25 * (right - left))
    assert hole.y_mm == pytest.approx((bottom + top) / 2)
    opened.session.undo_stack.undo()
    assert opened.session.plan.holes[0].x_mm == pytest.approx(place[0])


def test_level_by_two_points(stage, opened, qtbot):
    """Two points on a slope become level, by the shorter way round."""
    stage._pick_level()
    opened.session.give_point(0.0, 0.0)
    opened.session.give_point(-100.0, -10.0)
    turned = -math.atan2(10, 100)
    qtbot.waitUntil(
        lambda: opened.session.plan.reading.rotation_rad == pytest.approx(turned), timeout=20_000
    )
    qtbot.waitUntil(lambda: stage._angle.value() == pytest.approx(math.degrees(turned), abs=0.01))


def test_a_typed_angle_and_mirror(stage, opened, qtbot):
    """Degrees in the form; mirroring is a tick."""
    stage._angle.setValue(90.0)
    qtbot.waitUntil(lambda: size(opened)[1] == pytest.approx(600), timeout=20_000)
    stage._mirror.setChecked(True)
    qtbot.waitUntil(lambda: opened.session.plan.reading.mirror, timeout=20_000)


def test_offset_of_all_strokes(stage, opened, qtbot):
    """Two millimetres a side make the sign four wider."""
    type_in(qtbot, stage._offset.entry, "2 mm")
    qtbot.waitUntil(lambda: size(opened)[0] == pytest.approx(604, abs=0.01), timeout=20_000)


def test_units_can_be_corrected(stage, opened, qtbot):
    """A file that states the wrong unit is read in another."""
    stage._units.chosen.emit("cm")
    qtbot.waitUntil(lambda: opened.session.layout.artwork.units == "cm", timeout=20_000)
    assert opened.session.undo_stack.undoText() == "Read 1 unit as 1 cm"


def test_state_for_the_rail(stage, opened):
    """The overall size in the unit chosen."""
    assert stage.state().figure == "600 mm × 80 mm"
    opened.session.set_unit(LengthUnit.INCH)
    assert stage.state().figure == "23.622 in × 3.15 in"


def test_entries_of_the_account_jump(stage, opened, qtbot):
    """A place chosen in the account is shown on the canvas."""
    with qtbot.waitSignal(opened.session.place_shown) as told:
        stage._account.place_wanted.emit(12.0, 34.0)
    assert told.args == [12.0, 34.0]
