"""The ribbon under real mouse and key events."""

import numpy as np
import pytest
from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QContextMenuEvent, QMouseEvent
from PySide6.QtWidgets import QApplication

from holeplacer.gui.ribbon.trace import Trace
from holeplacer.plan import edit
from holeplacer.units import LengthUnit

LEFT, NONE = Qt.MouseButton.LeftButton, Qt.MouseButton.NoButton


def send(view, kind, x, button=NONE, held=NONE, keys=Qt.KeyboardModifier.NoModifier):
    at = QPointF(x, 60)
    where = view.viewport().mapToGlobal(at)
    QApplication.sendEvent(view.viewport(), QMouseEvent(kind, at, where, button, held, keys))
    QApplication.processEvents()


def press(view, x, **more):
    send(view, QEvent.Type.MouseButtonPress, x, LEFT, LEFT, **more)


def move(view, x, held=LEFT):
    send(view, QEvent.Type.MouseMove, x, held=held)


def release(view, x):
    send(view, QEvent.Type.MouseButtonRelease, x, LEFT)


def tick_px(view, number):
    tick = next(tick for tick in view.ticks if tick.mark.number == number)
    return view.scale.x_px(tick.run, tick.x_mm)


def place(session, number):
    return next((h.x_mm, h.y_mm) for h in session.plan.holes if h.number == number)


def test_a_tick_drags_like_its_hole(view, session):
    """Along the axis, one step, undone by one undo."""
    before = session.committed
    start = round(tick_px(view, 1))
    press(view, start)
    for step in range(1, 21):
        move(view, start + step)
    assert session.undo_stack.count() == 0
    release(view, start + 20)
    x, y = place(session, 1)
    assert x == pytest.approx(100.0 + 20 / view.scale.px_per_mm, abs=2.0)
    assert y == pytest.approx(100.0)
    assert session.undo_stack.undoText() == "Move hole 1"
    assert tick_px(view, 1) == pytest.approx(start + 20, abs=1.0)
    session.undo_stack.undo()
    assert session.committed is before


def test_a_tick_goes_over_to_another_stroke(view, session):
    """From the long stroke to the middle of its branch."""
    sliding = view.sliding
    goal = round(sliding.x_px((395.0, 200.0)))
    start = round(tick_px(view, 1))
    press(view, start)
    move(view, (start + goal) / 2)
    move(view, goal)
    release(view, goal)
    assert place(session, 1) == pytest.approx((395.0, 200.0), abs=3.0)


def test_escape_takes_the_drag_back(view, session, qtbot):
    """No step, and the hole is told to be let go."""
    held = []
    view.hole_held.connect(held.append)
    before = session.plan
    start = round(tick_px(view, 1))
    press(view, start)
    move(view, start + 15)
    qtbot.keyClick(view, Qt.Key.Key_Escape)
    assert session.plan is before
    assert session.undo_stack.count() == 0
    assert held == [1, 0]
    assert view.gesture is None


def test_the_still_part_is_not_painted_during_a_drag(view):
    """Ticks and bars are painted over its picture."""
    start = round(tick_px(view, 1))
    press(view, start)
    move(view, start + 5)
    before = view.pictures
    for step in range(6, 40):
        move(view, start + step)
    assert view.pictures == before
    release(view, start + 40)


@pytest.mark.xserver
def test_a_repainted_part_looks_like_a_whole_repaint(view):
    """What a drag leaves on the screen is what a full painting shows."""
    start = round(tick_px(view, 1))
    press(view, start)
    for step in range(1, 30):
        move(view, start + step)
    release(view, start + 29)
    send(view, QEvent.Type.MouseMove, 400)
    QApplication.sendEvent(view, QEvent(QEvent.Type.Leave))
    QApplication.processEvents()
    kept = view.screen().grabWindow(view.viewport().winId()).toImage()
    view.viewport().repaint()
    whole = view.screen().grabWindow(view.viewport().winId()).toImage()
    assert kept == whole


def test_selection_is_the_same_on_both(view, session):
    """A click selects the hole; a hole selected elsewhere is selected here."""
    start = round(tick_px(view, 2))
    press(view, start)
    release(view, start)
    assert session.selected_holes == {2}
    session.select_holes({4})
    assert [tick.mark.number for tick in view.ticks if tick.mark.selected] == [4]
    end = round(view.sliding.scale.total_px(view.ribbon)) - 2
    press(view, end)
    release(view, end)
    assert session.selected_holes == frozenset()


def test_selected_holes_slide_together(view, session):
    """Each along its own stroke by the same way."""
    session.select_holes({1, 3})
    start = round(tick_px(view, 3))
    press(view, start)
    move(view, start - 10)
    release(view, start - 10)
    way = 10 / view.scale.px_per_mm
    assert place(session, 3)[0] == pytest.approx(640.0 - way, abs=2.0)
    assert place(session, 1)[0] == pytest.approx(100.0 - way, abs=2.0)


def test_arrows_slide_along_the_axis(view, session, qtbot):
    """1 mm a press; on the branch that is upwards; a run is one step."""
    session.select_holes({4})
    qtbot.keyClick(view, Qt.Key.Key_Right)
    qtbot.keyClick(view, Qt.Key.Key_Right, Qt.KeyboardModifier.ShiftModifier)
    assert place(session, 4) == pytest.approx((395.0, 291.1), abs=1e-6)
    qtbot.keyClick(view, Qt.Key.Key_Left)
    assert place(session, 4) == pytest.approx((395.0, 290.1), abs=1e-6)
    assert session.undo_stack.count() == 1


def test_pointing_tells_the_place_and_the_width(view):
    """On the axis of the thin part; its clear width beside its limit, marked."""
    places = []
    view.place_hovered.connect(lambda x, y: places.append((x, y)))
    move(view, round(view.sliding.x_px((1050.0, 100.0))), held=NONE)
    assert places[-1] == pytest.approx((1050.0, 100.0), abs=3.0)
    (line,) = view._words()
    assert (line.what, line.figure, line.broken) == ("clear width", "14 mm", True)


def test_leaving_forgets_the_pointer(view, qtbot):
    """No line, no words; told to the canvas."""
    move(view, 300, held=NONE)
    with qtbot.waitSignals([view.pointer_left, view.hole_hovered]):
        QApplication.sendEvent(view, QEvent(QEvent.Type.Leave))
    assert view._words() == ()


def test_hovering_a_tick_tells_its_hole(view):
    """The canvas marks it."""
    told = []
    view.hole_hovered.connect(told.append)
    move(view, round(tick_px(view, 3)), held=NONE)
    assert told[-1] == 3
    view.hover_hole(2)
    assert view._hovered == 2


def test_a_double_click_adds_a_hole_on_the_axis(view, session):
    """Exactly at the axis point under the pointer."""
    x = round(view.sliding.x_px((250.0, 100.0)))
    send(view, QEvent.Type.MouseButtonDblClick, x, LEFT)
    assert place(session, 6) == pytest.approx((250.0, 100.0), abs=3.0)
    assert place(session, 6)[1] == pytest.approx(100.0)


def test_a_held_tick_shows_what_it_costs(view):
    """Edge distance, spans and overhang beside their limits."""
    start = round(tick_px(view, 2))
    press(view, start)
    move(view, start + 6)
    said = [line.what for line in view._words()]
    assert said[0] == "edge distance"
    assert any(what.startswith("span to ") for what in said)
    release(view, start + 6)


def test_it_follows_limits_unit_and_layout(view, session):
    """Another limit moves the line; another unit its words; no layout empties it."""
    before = view._lanes[0].trace.limit
    limits = session.plan.limits
    wider = type(limits)(**{**limits.__dict__, "edge_distance_mm": 15.0})
    session.push(edit.with_limits(session.plan, wider), "x")
    assert view._lanes[0].trace.limit == 30.0 != before
    session.set_unit(LengthUnit.INCH)
    assert view._legend.words[0][1].endswith(" in")
    session.evaluator.forget()
    assert view.ribbon is None
    assert view.ticks == ()


def test_further_traces_have_lanes_of_their_own(view, strokes):
    """Such as a deflection under the clear width."""
    flat = tuple(np.zeros(len(branch.s)) for branch in strokes.axis.branches)
    view.show_more(
        (
            Trace(
                "deflection",
                flat,
                dict.fromkeys(range(len(strokes.axis.node_xy)), 0.0),
                limit=3.0,
                at_least=False,
            ),
        )
    )
    assert [lane.trace.name for lane in view._lanes] == ["clear width", "deflection"]
    view.viewport().repaint()


def test_a_place_elsewhere_is_scrolled_to(view):
    """Zoomed in, a finding's place comes into sight."""
    view.zoom_by(10.0, 10.0)
    view.bring_into_view(1190.0, 100.0)
    x = view.sliding.x_px((1190.0, 100.0))
    assert 0 <= x <= view.viewport().width()


def test_a_hole_selected_elsewhere_is_scrolled_to(view, session):
    """One hole; of several none is preferred."""
    view.zoom_by(10.0, 10.0)
    before = view.scale.scroll_px
    session.select_holes({1, 2, 3})
    assert view.scale.scroll_px == before
    session.select_holes({5})
    assert 0 <= tick_px(view, 5) <= view.viewport().width()


def test_a_context_menu_is_asked_for_with_the_tick_selected(view, session):
    """The window shows it."""
    wanted = []
    view.menu_wanted.connect(wanted.append)
    px = QPoint(round(tick_px(view, 3)), 60)
    where = view.viewport().mapToGlobal(px)
    QApplication.sendEvent(
        view.viewport(), QContextMenuEvent(QContextMenuEvent.Reason.Mouse, px, where)
    )
    assert wanted == [where]
    assert session.selected_holes == {3}


def test_tab_steps_through_the_holes(view, session, qtbot):
    """As on the canvas."""
    qtbot.keyClick(view, Qt.Key.Key_Tab)
    assert session.selected_holes == {1}
    qtbot.keyClick(view, Qt.Key.Key_Tab)
    assert session.selected_holes == {2}
