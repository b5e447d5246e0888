"""The sheets on the screen: looked at, sections moved and turned by a real pointer."""

import math

import pytest
from PySide6.QtCore import QEvent, QPoint, Qt
from PySide6.QtWidgets import QApplication

from holeplacer.cutting import division
from holeplacer.gui.divider import Divider
from holeplacer.gui.sections_shown import SectionsShown
from holeplacer.gui.sheets.view import SheetsView
from holeplacer.plan import edit
from holeplacer.plan.seam import Seam
from holeplacer.plan.sections import SectionsChoice
from holeplacer.sheet.stock import Stock
from holeplacer.units import LengthUnit
from tests.gui.canvas.conftest import Hand

SEAMS = (Seam(500.0, 80.0, 500.0, 120.0), Seam(880.0, 80.0, 880.0, 120.0))
SHEETS = SectionsChoice(stock=(Stock(560.0, 420.0, True),))


@pytest.fixture
def divider(session, strokes):
    made = Divider(session)
    plan = edit.with_sections(edit.with_seams(session.committed, SEAMS), SHEETS)
    session.push(plan, "Divide")
    made._keep(plan, division.division(plan, strokes.outline))
    return made


@pytest.fixture
def sheets(qtbot, session, divider, theme):
    """The sheets, 900 x 500 pixels, all of them in sight."""
    view = SheetsView(session, divider, theme)
    qtbot.addWidget(view)
    view.resize(900, 500)
    with qtbot.waitExposed(view):
        view.show()
    shown = SectionsShown.of(session)
    shown.set_open(True)
    shown.set_on_sheets(True)
    view.fit()
    QApplication.processEvents()
    return view


@pytest.fixture
def pointer(sheets):
    return Hand(sheets)


def centre(sheets, number):
    inside = sheets.sections[number].lying.representative_point()
    return sheets.mapFromScene(inside.x, inside.y)


def test_every_section_lies_on_its_sheet(sheets, divider):
    """As the layout has it, sheets side by side, each with its name and scrap."""
    layout = divider.division.layout
    assert len(sheets.sheets) == len(layout.sheets)
    for placed in layout.placed:
        wanted = placed.of(layout.section(placed.section).polygon).centroid
        left = sheets.sheets[placed.sheet].x()
        lying = sheets.sections[placed.section].lying.centroid
        assert (lying.x - left, lying.y) == pytest.approx((wanted.x, wanted.y), abs=1e-6)
    (line,) = sheets.sheets[0].label.lines
    assert line.what == "sheet 1, 560 × 420 mm"
    assert line.figure.endswith("% scrap")


def test_a_drag_moves_a_section_and_is_one_step(sheets, pointer, session, divider):
    """Kept in the plan at the end, undone at once, figures follow."""
    number = max(sheets.sections, key=lambda n: sheets.sections[n].lying.area)
    start = centre(sheets, number)
    before = sheets.sections[number].mark
    pointer.drag(start, start + QPoint(12, -9))
    after = sheets.sections[number].mark
    px = sheets.px_per_mm
    assert (after.x_mm - before.x_mm, after.y_mm - before.y_mm) == pytest.approx(
        (12 / px, 9 / px), abs=0.01
    )
    assert sheets.chosen == number
    assert after.by_hand
    assert session.undo_stack.undoText() == f"Move section {number} on its sheet"
    session.undo_stack.undo()
    assert session.committed.laid == ()
    assert divider.division is not None
    sheets.refresh()
    assert sheets.sections[number].mark.x_mm == pytest.approx(before.x_mm)


def test_what_collides_is_shown_while_it_is_dragged(sheets, pointer, session, divider):
    """Past the sheet's edge: said beside it, and a finding at the end."""
    number = max(sheets.sections, key=lambda n: sheets.sections[n].lying.area)
    start = centre(sheets, number)
    pointer.press(start)
    pointer.move(start + QPoint(0, -150))
    assert any("past what may be cut" in words for words in sheets.sections[number].mark.trouble)
    pointer.release(start + QPoint(0, -150))
    assert any("past the edge" in item.message for item in divider.division.findings)
    assert sheets.sections[number].mark.trouble


def test_escape_puts_it_back(sheets, pointer, session, qtbot):
    """No step, no trouble left."""
    number = max(sheets.sections, key=lambda n: sheets.sections[n].lying.area)
    before, plan = sheets.sections[number].mark, session.committed
    start = centre(sheets, number)
    pointer.press(start)
    pointer.move(start + QPoint(0, -150))
    qtbot.keyClick(sheets, Qt.Key.Key_Escape)
    assert session.committed is plan
    mark = sheets.sections[number].mark
    assert (mark.x_mm, mark.y_mm, mark.trouble) == (before.x_mm, before.y_mm, ())


def test_the_grip_turns_it(sheets, pointer, session):
    """In steps of 15 degrees about its own centre."""
    number = min(sheets.sections, key=lambda n: sheets.sections[n].lying.area)
    sheets.choose(number)
    item = sheets.sections[number]
    before = item.mark
    grip = sheets.mapFromScene(*item.grip_mm)
    middle = sheets.mapFromScene(before.x_mm, before.y_mm)
    reach = middle.y() - grip.y()
    pointer.drag(grip, middle + QPoint(reach, 0))
    turned = sheets.sections[number].mark.angle_rad
    step = math.radians(15)
    assert abs(turned - before.angle_rad) > 1.0
    assert math.remainder(turned, step) == pytest.approx(0.0, abs=1e-6)
    assert session.undo_stack.undoText() == f"Turn section {number} on its sheet"


def test_keys_choose_nudge_and_turn(sheets, session, qtbot):
    """Tab, arrows, R; a run of nudges is one step."""
    qtbot.keyClick(sheets, Qt.Key.Key_Tab)
    assert sheets.chosen == 1
    before, steps = sheets.sections[1].mark, session.undo_stack.count()
    for _ in range(3):
        qtbot.keyClick(sheets, Qt.Key.Key_Right)
    assert sheets.sections[1].mark.x_mm - before.x_mm == pytest.approx(3.0)
    assert session.undo_stack.count() == steps + 1
    qtbot.keyClick(sheets, Qt.Key.Key_R)
    turned = sheets.sections[1].mark.angle_rad - before.angle_rad
    assert math.remainder(turned - math.radians(15), 2 * math.pi) == pytest.approx(0.0)
    qtbot.keyClick(sheets, Qt.Key.Key_Escape)
    assert sheets.chosen is None


def test_one_sheet_at_a_time(sheets, qtbot):
    """Page Down sees the first sheet alone, then the next."""
    qtbot.keyClick(sheets, Qt.Key.Key_PageDown)
    first = sheets.sheets[0].area
    assert sheets.in_sight.contains(first.center())
    assert sheets.in_sight.width() < 3.5 * first.width()


def test_figures_in_the_windows_unit(sheets, session):
    """Sheet sizes in inches."""
    session.set_unit(LengthUnit.INCH)
    assert sheets.sheets[0].label.lines[0].what.endswith(" in")


def test_an_empty_plan_leaves_no_sheet(sheets, session, strokes):
    """Another document: nothing of the last one stays."""
    session.start(strokes.plan)
    assert (sheets.sheets, sheets.sections, sheets.chosen) == ([], {}, None)


def test_the_place_under_the_pointer_is_that_on_its_sheet(sheets, pointer, qtbot):
    """Counted from the sheet's own corner; forgotten when the pointer leaves."""
    places, left = [], []
    sheets.pointer_moved.connect(lambda x, y: places.append((x, y)))
    sheets.pointer_left.connect(lambda: left.append(1))
    area = sheets.sheets[-1].area
    pointer.move(sheets.mapFromScene(area.left() + 100, 200), held=Qt.MouseButton.NoButton)
    assert places[-1] == pytest.approx((100.0, 200.0), abs=2.0)
    QApplication.sendEvent(sheets, QEvent(QEvent.Type.Leave))
    assert left == [1]
