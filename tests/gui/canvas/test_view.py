"""The canvas under real mouse and key events."""

import gc
import math
import subprocess
import sys

import pytest
from PySide6.QtCore import QEvent, QPoint, Qt, QTimer
from PySide6.QtGui import QContextMenuEvent
from PySide6.QtWidgets import QApplication, QWidget

from holeplacer.gui.canvas.drag import HoleDrag
from holeplacer.gui.canvas.stretches import Stretch
from holeplacer.plan import edit

ALT, CTRL = Qt.KeyboardModifier.AltModifier, Qt.KeyboardModifier.ControlModifier


def test_a_dragged_hole_slides_along_the_axis(canvas, hand, holes, session):
    """Pulled 60 mm along and 25 mm off, it stays on the axis; one step, undone by one undo."""
    before = session.committed
    hand.drag(hand.px((100, 100)), hand.px((160, 125)))
    x, y = holes()[1]
    assert x == pytest.approx(160.0, abs=1.5)
    assert y == pytest.approx(100.0, abs=1e-9)
    assert session.undo_stack.count() == 1
    assert session.undo_stack.undoText() == "Move hole 1"
    session.undo_stack.undo()
    assert session.committed is before


@pytest.mark.parametrize("key", [ALT, CTRL])
def test_a_modifier_frees_it_and_it_stays_where_it_is_let_go(canvas, hand, holes, session, key):
    """Even off the metal: a finding then, nothing is silently moved."""
    hand.press(hand.px((100, 100)))
    hand.move(hand.px((130, 140)), keys=key)
    hand.move(hand.px((160, 170)), keys=key)
    hand.release(hand.px((160, 170)), keys=key)
    assert holes()[1] == pytest.approx((160.0, 170.0), abs=1.5)
    broken = [f for f in session.evaluation.findings if f.rule == "edge_distance"]
    assert [finding.place.index for finding in broken] == [1]


def test_figures_live_while_it_moves_and_go_when_it_is_let_go(canvas, hand):
    """Disc, leader, spans, overhang; over forbidden metal it says why."""
    start = hand.px((100, 100))
    hand.press(start, keys=ALT)
    hand.move(hand.px((160, 170)), keys=ALT)
    live = canvas.sign.live
    assert live.isVisible()
    assert live.plate.lines[0].what == "outside the metal"
    assert canvas.sign.axis.isVisible()
    hand.move(hand.px((160, 101)))
    said = [line.what for line in live.plate.lines]
    assert said == ["edge distance", "span to 2", "overhang to tip"]
    hand.release(hand.px((160, 101)))
    assert not live.isVisible()
    assert not canvas.sign.axis.isVisible()


def test_escape_takes_the_drag_back(canvas, hand, session, qtbot):
    """Plan and stack as before; the release after it does nothing."""
    before = session.plan
    hand.press(hand.px((100, 100)))
    hand.move(hand.px((200, 100)))
    assert session.plan is not before
    qtbot.keyClick(canvas, Qt.Key.Key_Escape)
    assert session.plan is before
    assert not canvas.sign.live.isVisible()
    hand.release(hand.px((200, 100)))
    assert session.undo_stack.count() == 0
    assert canvas.gesture is None


def test_the_outline_is_not_painted_during_a_drag(canvas, hand):
    """Counted: 0 paintings of outline and axis over 40 moves."""
    hand.press(hand.px((100, 100)))
    hand.move(hand.px((120, 100)))
    before = canvas.sign.outline.paints, canvas.sign.axis.paints
    for x in range(120, 200, 2):
        hand.move(hand.px((x, 100)))
    assert (canvas.sign.outline.paints, canvas.sign.axis.paints) == before
    hand.release(hand.px((200, 100)))


def test_a_long_drag_leaves_nothing_behind(canvas, hand, session):
    """120 moves and back: as many items and marks as before, no gesture, no timer."""
    hand.press(hand.px((100, 100)))
    hand.move(hand.px((120, 100)))
    before = len(canvas.sign.items())
    for move in range(120):
        hand.move(hand.px((120 + 500 * abs(math.sin(move / 40)), 100)))
    hand.move(hand.px((120, 100)))
    assert len(canvas.sign.items()) <= before + 8
    hand.release(hand.px((100, 100)))
    gc.collect()
    stretches = [found for found in gc.get_objects() if isinstance(found, Stretch)]
    assert len(stretches) <= 2 * len(canvas.sign.stretches) + 4
    assert not any(timer.isActive() for timer in canvas.findChildren(QTimer))


def test_a_click_selects_a_click_beside_selects_nothing(canvas, hand, session):
    """Ctrl adds."""
    hand.click(hand.px((100, 100)))
    assert session.selected_holes == {1}
    hand.click(hand.px((380, 100)), keys=CTRL)
    assert session.selected_holes == {1, 2}
    hand.click(QPoint(5, 5))
    assert session.selected_holes == frozenset()


def test_a_band_selects_and_the_group_moves(canvas, hand, session, holes):
    """Holes 1 and 2, dragged by hole 2, each sliding along the axis; one step."""
    hand.drag(hand.px((60, 150)), hand.px((420, 60)))
    assert session.selected_holes == {1, 2}
    hand.drag(hand.px((380, 100)), hand.px((350, 100)))
    moved = holes()
    assert moved[1] == pytest.approx((70.0, 100.0), abs=1.5)
    assert moved[2] == pytest.approx((350.0, 100.0), abs=1.5)
    assert session.undo_stack.undoText() == "Move 2 holes"


def test_a_double_click_adds_a_hole_on_the_axis(canvas, hand, session, holes):
    """Beside the pointer, selected; on a hole it adds nothing."""
    px = hand.px((250, 108))
    hand.send(QEvent.Type.MouseButtonDblClick, px, button=Qt.MouseButton.LeftButton)
    assert holes()[6] == pytest.approx((250.0, 100.0), abs=1.5)
    assert holes()[6][1] == pytest.approx(100.0)
    assert session.selected_holes == {6}
    hand.send(QEvent.Type.MouseButtonDblClick, hand.px((100, 100)),
              button=Qt.MouseButton.LeftButton)  # fmt: skip
    assert len(holes()) == 6


def test_a_hole_is_added_where_the_pointer_is(canvas, hand, holes):
    """By key or menu; without a pointer in the middle of the view."""
    hand.move(hand.px((250, 95)), held=Qt.MouseButton.NoButton)
    canvas.add_at_pointer()
    assert holes()[6] == pytest.approx((250.0, 100.0), abs=1.5)


@pytest.mark.parametrize(
    ("key", "way"),
    [
        (Qt.Key.Key_Left, (-1, 0)), (Qt.Key.Key_Right, (1, 0)),
        (Qt.Key.Key_Up, (0, 1)), (Qt.Key.Key_Down, (0, -1)),
    ],
)  # fmt: skip
def test_arrows_nudge_and_do_not_scroll(canvas, session, holes, qtbot, key, way):
    """1 mm a press, 0.1 mm with Shift; the view stays."""
    session.select_holes({1})
    centre = canvas.to_sign(QPoint(100, 100))
    qtbot.keyClick(canvas, key)
    qtbot.keyClick(canvas, key, Qt.KeyboardModifier.ShiftModifier)
    assert holes()[1] == pytest.approx((100 + 1.1 * way[0], 100 + 1.1 * way[1]))
    assert canvas.to_sign(QPoint(100, 100)) == centre
    assert session.undo_stack.count() == 1


def test_tab_steps_through_the_holes_and_leaves(canvas, session, qtbot):
    """After the last hole the focus goes on, so the keyboard is not trapped."""
    home = QWidget()
    qtbot.addWidget(home)
    canvas.setParent(home)
    beside = QWidget(home)
    beside.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
    with qtbot.waitExposed(home):
        home.show()
    home.activateWindow()
    canvas.setFocus()
    for number in (1, 2, 3, 4, 5):
        qtbot.keyClick(canvas, Qt.Key.Key_Tab)
        assert session.selected_holes == {number}
    qtbot.keyClick(canvas, Qt.Key.Key_Tab)
    assert not canvas.hasFocus()
    qtbot.keyClick(canvas, Qt.Key.Key_Backtab)
    assert session.selected_holes == {4}
    canvas.setParent(None)


def test_middle_button_and_space_pan(canvas, hand, session, qtbot):
    """The sign goes with the pointer; the plan is not touched."""
    before = hand.px((600, 240))
    hand.drag(QPoint(300, 200), QPoint(340, 230), button=Qt.MouseButton.MiddleButton)
    assert hand.px((600, 240)) - before == QPoint(40, 30)
    qtbot.keyPress(canvas, Qt.Key.Key_Space)
    assert canvas.viewport().cursor().shape() is Qt.CursorShape.OpenHandCursor
    start = hand.px((100, 100))
    hand.drag(start, start - QPoint(40, 30))
    qtbot.keyRelease(canvas, Qt.Key.Key_Space)
    assert hand.px((600, 240)) == before
    assert session.undo_stack.count() == 0
    assert canvas.viewport().cursor().shape() is not Qt.CursorShape.OpenHandCursor


def test_fit_selection_shows_the_chosen_holes_close_up(canvas, session, hand):
    """Both in sight, larger than before; with none chosen, all of the sign."""
    fitted = canvas.px_per_mm
    session.select_holes({1, 2})
    canvas.fit_selection()
    assert canvas.px_per_mm > 1.5 * fitted
    port = canvas.viewport().rect()
    assert port.contains(hand.px((100, 100)))
    assert port.contains(hand.px((380, 100)))
    session.select_holes({})
    canvas.fit_selection()
    assert canvas.px_per_mm == pytest.approx(fitted)


def test_measuring_snaps_and_can_be_put_down(canvas, hand, session, qtbot):
    """From hole 1 to hole 2: 280 mm exactly; Escape takes the line, then the tool."""
    changes = []
    canvas.measuring_changed.connect(changes.append)
    canvas.set_measuring(True)
    hand.drag(hand.px((100, 100)) + QPoint(3, 2), hand.px((380, 100)) + QPoint(-2, 3))
    measured = canvas.sign.measured
    assert measured.distance_mm == pytest.approx(280.0)
    assert session.undo_stack.count() == 0
    qtbot.keyClick(canvas, Qt.Key.Key_Escape)
    assert measured.distance_mm is None
    qtbot.keyClick(canvas, Qt.Key.Key_Escape)
    assert not canvas.measuring
    assert changes == [True, False]


def test_points_asked_for_are_picked_with_snapping(canvas, hand, session, qtbot):
    """Two clicks on edges; the points are exactly on them; then holes can be dragged again."""
    given = []
    session.ask_points("Two points", 2, given.append)
    assert canvas.viewport().cursor().shape() is Qt.CursorShape.CrossCursor
    hand.move(hand.px((200, 118)), held=Qt.MouseButton.NoButton)
    assert canvas.sign._place.isVisible()
    hand.click(hand.px((200, 119)))
    hand.move(hand.px((500, 119)), held=Qt.MouseButton.NoButton)
    assert canvas.sign._points.path().boundingRect().width() > 295
    hand.click(hand.px((700, 119)))
    ((one, two),) = given
    assert one[1] == pytest.approx(120.0)
    assert two[1] == pytest.approx(120.0)
    assert canvas.sign._points.path().isEmpty()
    session.ask_points("Two points", 2, given.append)
    qtbot.keyClick(canvas, Qt.Key.Key_Escape)
    assert session.pick is None
    hand.drag(hand.px((100, 100)), hand.px((160, 100)))
    assert session.undo_stack.count() == 1


def test_coordinates_of_the_pointer_are_told(canvas, hand, qtbot):
    """In sign coordinates; leaving is told too."""
    with qtbot.waitSignal(canvas.pointer_moved) as told:
        hand.move(hand.px((600, 240)), held=Qt.MouseButton.NoButton)
    assert told.args == pytest.approx([600.0, 240.0], abs=1.5)
    with qtbot.waitSignal(canvas.pointer_left):
        QApplication.sendEvent(canvas, QEvent(QEvent.Type.Leave))


def test_hovering_tells_the_hole(canvas, hand):
    """Its number, 0 beside it; the same mark comes from the ribbon."""
    told = []
    canvas.hole_hovered.connect(told.append)
    hand.move(hand.px((100, 100)), held=Qt.MouseButton.NoButton)
    hand.move(QPoint(5, 5), held=Qt.MouseButton.NoButton)
    assert told == [1, 0]
    canvas.hover_hole(3)
    assert canvas.sign.holes[3]._hovered


def test_what_the_ribbon_points_at_and_holds_is_shown(canvas):
    """A place of the axis; the cost of a hole dragged there."""
    canvas.show_place(200.0, 100.0)
    assert canvas.sign._place.isVisible()
    canvas.hide_place()
    assert not canvas.sign._place.isVisible()
    canvas.hold_hole(2)
    assert canvas.sign.live.figures.centre == (380.0, 100.0)
    canvas.hold_hole(0)
    assert canvas.sign.live.figures is None


def test_a_context_menu_is_asked_for_with_the_hole_selected(canvas, hand, session):
    """The window shows it; what is under the pointer is what it acts on."""
    wanted = []
    canvas.menu_wanted.connect(wanted.append)
    px = hand.px((380, 100))
    where = canvas.viewport().mapToGlobal(px)
    QApplication.sendEvent(
        canvas.viewport(), QContextMenuEvent(QContextMenuEvent.Reason.Mouse, px, where)
    )
    assert wanted == [where]
    assert session.selected_holes == {2}


def test_another_axis_can_be_kept_in_sight(canvas):
    """The switch of the menu."""
    canvas.set_axis_shown(True)
    assert canvas.sign.axis.isVisible()
    canvas.set_axis_shown(False)
    assert not canvas.sign.axis.isVisible()


def test_a_hole_that_vanishes_during_a_drag_does_no_harm(canvas, hand, session):
    """Deleted elsewhere between two moves: the gesture ends in a plan with the hole moved."""
    hand.press(hand.px((100, 100)))
    hand.move(hand.px((150, 100)))
    assert isinstance(canvas.gesture, HoleDrag)
    session.show_plan(edit.without_hole(session.committed, 1))
    hand.move(hand.px((160, 100)))
    hand.release(hand.px((160, 100)))
    assert canvas.gesture is None


def test_the_core_is_imported_with_the_first_sign_not_with_the_window():
    """Importing both views loads neither numpy nor shapely nor scipy."""
    found = subprocess.run(
        [sys.executable, "-c",
         ("import sys, holeplacer.gui.canvas.view, holeplacer.gui.ribbon.view;"
          "print(sorted({'numpy', 'scipy', 'shapely'} & set(sys.modules)))")],
        capture_output=True, text=True, check=True,
    )  # fmt: skip
    assert found.stdout.strip() == "[]"


@pytest.mark.xserver
def test_a_drag_on_a_real_screen(canvas, hand, session, holes):
    """Same model state and no painting of the outline, through the X server."""
    hand.press(hand.px((100, 100)))
    hand.move(hand.px((120, 100)))
    before = canvas.sign.outline.paints
    for x in range(120, 180, 2):
        hand.move(hand.px((x, 110)))
    assert canvas.sign.outline.paints == before
    hand.release(hand.px((178, 110)))
    assert holes()[1] == pytest.approx((178.0, 100.0), abs=1.5)
    assert session.undo_stack.count() == 1
