"""The selected hole's number, place, diameter and fixing are typed."""

import pytest
from PySide6.QtCore import Qt

from holeplacer.plan import edit
from holeplacer.units import format_length


@pytest.fixture
def editor(opened, qtbot):
    """Two holes on the bar, the first selected."""
    left, bottom, _, top = opened.session.layout.outline.pieces[0].bounds_mm
    plan = opened.session.committed
    for x in (100, 350):
        plan = edit.with_hole_added(plan, left + x, (bottom + top) / 2)
    opened.session.push(plan, "Add holes")
    opened.session.select_holes({1})
    opened.rail.setCurrentRow(3)
    made = opened.hole_stage.editor
    qtbot.waitUntil(lambda: made._title.text() == "Hole 1")
    return made


def type_in(qtbot, field, text):
    field.setFocus()
    field.selectAll()
    qtbot.keyClicks(field, text)
    qtbot.keyClick(field, Qt.Key.Key_Return)


def test_figures_with_their_limit(editor):
    """Edge distance beside its limit, ligament, spans with the neighbour's number."""
    text = editor._figures.text()
    assert f"edge distance 20 mm (at least {format_length(9.525)})" in text
    assert "ligament 16.4 mm" in text
    assert "span to hole 2: 250 mm" in text


def test_typed_coordinates_move_it(editor, opened, qtbot):
    """x is taken as a length; undo brings it back."""
    before = opened.session.plan.holes[0]
    type_in(qtbot, editor._x, "5 in")
    assert opened.session.plan.holes[0].x_mm == pytest.approx(127)
    assert opened.session.plan.holes[0].y_mm == before.y_mm
    assert opened.session.undo_stack.undoText() == "Move hole 1"


def test_own_diameter_and_back(editor, opened, qtbot):
    """An empty diameter is the plan's again."""
    type_in(qtbot, editor._diameter, "1/4")
    assert opened.session.plan.holes[0].diameter_mm == pytest.approx(6.35)
    editor._diameter.selectAll()
    qtbot.keyClick(editor._diameter, Qt.Key.Key_Delete)
    qtbot.keyClick(editor._diameter, Qt.Key.Key_Return)
    assert opened.session.plan.holes[0].diameter_mm is None


def test_a_number_is_swapped_and_stays_selected(editor, opened):
    """Renumbering keeps the hole selected under its new number."""
    x = opened.session.plan.holes[0].x_mm
    editor._number.setValue(2)
    assert edit.hole_numbered(opened.session.plan, 2).x_mm == x
    assert opened.session.selected_holes == {2}


def test_fixing_one_or_many(editor, opened):
    """The tick fixes all that are selected."""
    opened.session.select_holes({1, 2})
    editor.show_plan(opened.session.plan)
    assert editor._title.text() == "2 holes selected"
    editor._fixed.setChecked(True)
    assert all(hole.fixed for hole in opened.session.plan.holes)
    assert opened.session.undo_stack.undoText() == "Fix 2 holes"


def test_boss_round_the_hole_and_away(editor, opened, qtbot):
    """A boss swells the stroke where it is needed; the same button takes it away."""
    _, _, _, top = opened.session.layout.outline.pieces[0].bounds_mm
    hole = opened.session.plan.holes[0]
    opened.session.push(edit.with_hole_moved(opened.session.plan, 1, hole.x_mm, top - 6), "Move")
    area = opened.session.layout.outline.area_mm2
    qtbot.mouseClick(editor._boss, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: opened.session.layout.outline.area_mm2 > area, timeout=20_000)
    qtbot.waitUntil(lambda: editor._boss.text() == "Take the boss away")
    qtbot.mouseClick(editor._boss, Qt.MouseButton.LeftButton)
    assert opened.session.plan.bosses == ()


def test_nothing_selected_says_how(editor, opened, qtbot):
    """Without a selection the rows go and a hint stands there; all can be numbered anew."""
    opened.session.select_holes(())
    qtbot.waitUntil(lambda: editor._hint.text() != "")
    assert not editor._x.isVisible()
    with qtbot.waitSignal(editor.renumber_wanted):
        qtbot.mouseClick(editor._renumber, Qt.MouseButton.LeftButton)
