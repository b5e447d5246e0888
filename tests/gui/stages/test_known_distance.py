"""Two points and the distance between them scale the sign."""

import pytest
from PySide6.QtCore import Qt


@pytest.fixture
def form(opened, qtbot):
    made = opened.stages[0]._known
    made.show()
    opened.stages[0].refresh_soon()
    qtbot.waitUntil(lambda: made._layout is not None)
    return made


def corners(opened):
    left, bottom, right, _ = opened.session.layout.outline.pieces[0].bounds_mm
    return (left, bottom), (right, bottom)


def width(opened):
    left, _, right, _ = opened.session.layout.outline.bounds_mm
    return right - left


def type_in(qtbot, field, text):
    field.setFocus()
    field.selectAll()
    qtbot.keyClicks(field, text)
    qtbot.keyClick(field, Qt.Key.Key_Return)


def test_picked_points_and_a_typed_distance(form, opened, qtbot):
    """Both ends of the bar picked, 1200 mm typed: the sign is twice as wide."""
    qtbot.mouseClick(form.pick, Qt.MouseButton.LeftButton)
    assert opened.session.pick.count == 2
    for point in corners(opened):
        opened.session.give_point(*point)
    assert form._note.text().startswith("They are 600 mm apart now")
    type_in(qtbot, form.distance, "1200")
    qtbot.waitUntil(lambda: width(opened) == pytest.approx(1200), timeout=20_000)
    assert opened.session.undo_stack.undoText() == "Scale by a known distance"
    opened.session.undo_stack.undo()
    qtbot.waitUntil(lambda: width(opened) == pytest.approx(600), timeout=20_000)


def test_everything_typed(form, opened, qtbot):
    """It works without a pointer."""
    values = [value for point in corners(opened) for value in point]
    for field, value in zip(form.points, values, strict=True):
        type_in(qtbot, field, f"{value} mm")
    type_in(qtbot, form.distance, "3 ft")
    qtbot.waitUntil(lambda: width(opened) == pytest.approx(914.4), timeout=20_000)


def test_points_follow_the_sign(form, opened, qtbot):
    """After scaling, the points shown are where they are now."""
    for point in corners(opened):
        opened.session.ask_points("", 2, form._picked) if opened.session.pick is None else None
        opened.session.give_point(*point)
    type_in(qtbot, form.distance, "300")
    qtbot.waitUntil(lambda: width(opened) == pytest.approx(300), timeout=20_000)
    qtbot.waitUntil(lambda: form.points[2].mm - form.points[0].mm == pytest.approx(300))


def test_one_point_twice_is_told(form, opened, qtbot):
    """Two equal points can't scale anything; the form says so."""
    form._picked(((10.0, 10.0), (10.0, 10.0)))
    type_in(qtbot, form.distance, "100")
    assert "same" in form._error.text()
    assert opened.session.undo_stack.count() == 0
