"""The parts work together: stages, messages, recovery, layout of the window."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QPushButton

from holeplacer.gui.workbench import FORM_WIDTH
from holeplacer.plan import edit, plan_file
from holeplacer.units import LengthUnit
from tests.gui.conftest import UNITLESS


def press(widget, text, qtbot):
    (button,) = [b for b in widget.findChildren(QPushButton) if text in b.text() and b.isVisible()]
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)


def test_empty_window_says_how_to_begin(bench):
    """Without a plan the start page is seen, the form is not."""
    assert bench.window.start.isVisible()
    assert not bench.canvas.isVisible()
    assert not bench.forms.isVisible()


def test_start_page_opens_the_demo(bench, qtbot):
    """One click shows the demo on the canvas."""
    with qtbot.waitSignal(bench.session.layout_changed, timeout=30_000):
        press(bench.window.start, "demo", qtbot)
    qtbot.waitUntil(lambda: bench.session.layout is not None, timeout=30_000)
    assert bench.canvas.isVisible()
    assert bench.forms.isVisible()


def test_rail_says_each_stages_figure(opened, qtbot):
    """Size, gauge, hole and count with their units."""
    qtbot.waitUntil(lambda: "600 mm" in opened.stages[0].state().figure)
    figures = [stage.state().figure for stage in opened.stages]
    assert figures[1].startswith("16 ga steel, 1.52 mm")
    assert figures[2] == "hole 7.14 mm"
    assert figures[3] == "no holes yet"


def test_title_marks_what_is_unsaved(opened, tmp_path):
    """The mark comes with a change and goes with saving."""
    assert not opened.window.isWindowModified()
    opened.session.push(edit.with_hole_added(opened.session.committed, 300, 100), "Add hole 1")
    assert opened.window.isWindowModified()
    assert opened.window.windowTitle().startswith("sign.svg[*]")
    opened.document.save(tmp_path / "shop.holeplan")
    assert not opened.window.isWindowModified()
    assert opened.window.windowTitle().startswith("shop.holeplan")


def test_missing_units_are_asked_in_place(bench, qtbot, tmp_path):
    """A drawing without units asks, each answer with its size; one click answers."""
    path = tmp_path / "unitless.svg"
    path.write_text(UNITLESS, encoding="utf-8")
    with qtbot.waitSignal(bench.session.problem_changed, timeout=20_000):
        bench.files.open_file(path)
    assert "units" in bench.message.text
    outline = bench.stages[0]
    qtbot.waitUntil(
        lambda: [b for b in outline.findChildren(QPushButton) if "600 mm wide" in b.text()] != [],
        timeout=20_000,
    )
    press(outline, "in:", qtbot)
    qtbot.waitUntil(lambda: bench.session.layout is not None, timeout=20_000)
    left, _, right, _ = bench.session.layout.outline.bounds_mm
    assert right - left == pytest.approx(600 * 25.4)
    assert bench.message.text == ""


def test_a_problem_offers_undo(opened, qtbot):
    """An offset that leaves no metal is told above the canvas, with Undo."""
    opened.session.push(edit.with_offset(opened.session.committed, -30), "Offset")
    qtbot.waitUntil(lambda: bool(opened.message.text), timeout=20_000)
    press(opened.message, "Undo", qtbot)
    qtbot.waitUntil(lambda: opened.session.problem is None, timeout=20_000)
    assert opened.session.plan.offset_mm == 0
    assert opened.message.text == ""


def test_a_file_that_cannot_be_read_is_told(bench, qtbot, tmp_path):
    """One sentence above the start page, no dialog."""
    path = tmp_path / "photo.svg"
    path.write_bytes(b"\x89PNG\r\n")
    with qtbot.waitSignal(bench.document.failed, timeout=20_000):
        bench.files.open_file(path)
    assert "photo.svg" in bench.message.text
    assert bench.window.start.isVisible()


def left_over(window, plan, name="harbour.svg"):
    folder = window.workbench.recovery.folder.parent / name
    folder.mkdir(parents=True)
    (folder / "plan.holeplan").write_bytes(plan_file.plan_bytes(plan))
    (folder / "note.json").write_text(f'{{"name": "{name}", "path": ""}}')


def test_leftovers_are_offered_in_place(window, opened, qtbot):
    """After a crash the plan is offered; recovering shows it as unsaved."""
    plan = edit.with_hole_added(opened.session.committed, 300, 100)
    left_over(window, plan)
    opened.offer_leftovers()
    assert "harbour.svg" in opened.message.text
    press(opened.message, "Recover", qtbot)
    assert opened.session.plan == plan
    assert opened.document.modified


def test_leftovers_can_be_thrown_away(window, opened, qtbot):
    """One after the other is offered until none is left."""
    left_over(window, opened.session.committed, "one.svg")
    left_over(window, opened.session.committed, "two.svg")
    opened.offer_leftovers()
    press(opened.message, "Throw", qtbot)
    assert opened.message.text
    press(opened.message, "Throw", qtbot)
    assert opened.message.text == ""
    assert opened.recovery.leftovers() == ()


def test_propose_goes_to_its_stage(opened, qtbot):
    """The act shows the Holes stage, where its result stands."""
    opened.propose()
    assert opened.rail.currentRow() == 3
    qtbot.waitUntil(lambda: bool(opened.session.plan.holes), timeout=30_000)
    qtbot.waitUntil(lambda: "proven fewest" in opened.hole_stage.proposal._result.text())


def test_room_at_1280_by_800(opened, qtbot):
    """Rail 200, form 320; the canvas has at least half of width and height."""
    window = opened.window
    window.resize(1280, 800)
    qtbot.waitUntil(lambda: window.width() == 1280)
    qtbot.wait(50)
    assert opened.rail.width() == 200
    assert abs(opened.form_dock.width() - FORM_WIDTH) <= 2
    assert opened.canvas.width() >= 640
    assert opened.canvas.height() >= 400


def test_unit_of_last_time(window, bench, settings, qtbot, theme, tmp_path):
    """Inches are inches again at the next start."""
    from holeplacer.gui.main_window import MainWindow

    bench.session.set_unit(LengthUnit.INCH)
    window.close()
    again = MainWindow(theme, settings, tmp_path / "other")
    qtbot.addWidget(again)
    assert again.furnish().session.unit is LengthUnit.INCH
    again.close()


def test_every_entry_is_named_for_screen_readers(opened):
    """Whatever can take the focus says what it is."""
    from PySide6.QtGui import QAccessible
    from PySide6.QtWidgets import QAbstractButton, QAbstractItemView, QAbstractSpinBox, QComboBox

    nameless = []
    for kind in (QAbstractButton, QAbstractSpinBox, QComboBox, QAbstractItemView):
        for widget in opened.window.findChildren(kind):
            own = widget.objectName().startswith("qt_") or "Corner" in type(widget).__name__
            shown = (
                widget.isVisibleTo(opened.window) and widget.focusPolicy() != Qt.FocusPolicy.NoFocus
            )
            if own or not shown:
                continue
            spoken = QAccessible.queryAccessibleInterface(widget)
            if not spoken.text(QAccessible.Text.Name):
                nameless.append(widget)
    assert nameless == []


def test_the_sign_is_divided_in_the_window(divided, qtbot):
    """Seams on canvas and ribbon, sections on sheets; one button goes there and back."""
    count = len(divided.session.committed.seams)
    assert len(divided.seam_layer.seams) == len(divided.seam_ticks.ticks) == count
    qtbot.waitUntil(lambda: "weld" in divided.rail.item(5).toolTip(), timeout=10_000)
    look = divided.sections_stage.sheets.look
    qtbot.waitUntil(look.isEnabled, timeout=10_000)
    look.click()
    assert divided.window.middle.currentWidget() is divided.sheets
    assert divided.seen is divided.sheets
    assert divided.sheets.sections
    divided.rail.setCurrentRow(3)
    assert divided.window.middle.currentWidget() is divided.canvas
    divided.rail.setCurrentRow(5)
    assert divided.window.middle.currentWidget() is divided.sheets
    look.click()
    assert divided.seen is divided.canvas


def test_delete_takes_what_is_selected(divided):
    """Seams while seams are selected, else holes."""
    divided.session.select_seams({0})
    before = len(divided.session.committed.seams)
    (delete,) = [act for act in divided.menus.seam.actions() if act.text() == "&Delete"]
    assert delete in divided.menus.hole.actions()
    delete.trigger()
    assert len(divided.session.committed.seams) == before - 1
    assert not delete.isEnabled()


def test_context_menus_are_those_of_what_is_selected(divided, monkeypatch):
    """Seams have their own."""
    shown = []
    for menu in (divided.menus.hole, divided.menus.seam):
        monkeypatch.setattr(menu, "popup", lambda _place, menu=menu: shown.append(menu))
    divided.session.select_seams({0})
    divided.canvas.menu_wanted.emit(divided.canvas.rect().center())
    divided.session.select_seams(())
    divided.canvas.menu_wanted.emit(divided.canvas.rect().center())
    assert shown == [divided.menus.seam, divided.menus.hole]
