"""Seams on the ribbon."""

import pytest
from PySide6.QtCore import QPoint, Qt

from holeplacer.gui.ribbon.seam_ticks import SeamTicks
from holeplacer.gui.sections_shown import SectionsShown
from holeplacer.plan import edit
from holeplacer.plan.seam import Seam

SEAM = Seam(240.0, 80.0, 240.0, 120.0)


@pytest.fixture
def ticks(view, session):
    made = SeamTicks(session, view)
    SectionsShown.of(session).set_open(True)
    session.push(edit.with_seams(session.committed, (SEAM,)), "Divide")
    assert len(made.ticks) == 1
    return made


def px(ticks):
    (tick,) = ticks.ticks
    return QPoint(round(ticks._view.scale.x_px(tick.run, tick.x_mm)), 60)


def test_a_tick_stands_at_the_seams_foot(ticks, view):
    """On the run of its stroke, where its place is."""
    (tick,) = ticks.ticks
    x, y = view.sliding.place(tick.run, tick.x_mm)
    assert (x, y) == pytest.approx((240.0, 100.0), abs=0.1)


def test_a_tick_drags_like_a_holes(ticks, view, session, qtbot):
    """The seam follows along the stroke; one step, undone at once."""
    port, start = view.viewport(), px(ticks)
    held = []
    ticks.held_changed.connect(held.append)
    qtbot.mousePress(port, Qt.MouseButton.LeftButton, pos=start)
    assert session.selected_seams == {0}
    for step in range(1, 5):
        qtbot.mouseMove(port, start + QPoint(6 * step, 0))
    at = start + QPoint(24, 0)
    view.mouseMoveEvent(_moved(view, at))
    qtbot.mouseRelease(port, Qt.MouseButton.LeftButton, pos=at)
    moved = session.committed.seams[0].middle_mm[0] - 240.0
    assert abs(moved) == pytest.approx(24 / view.scale.px_per_mm, abs=2.0)
    assert session.undo_stack.undoText() == "Move seam 1"
    assert held[-1] == -1
    assert 0 in held
    session.undo_stack.undo()
    assert session.committed.seams[0] == SEAM


def test_arrows_slide_the_selected_seam(ticks, view, session, qtbot):
    """Right on the ribbon is right on the ribbon, whichever way the branch runs."""
    session.select_seams({0})
    (before,) = ticks.ticks
    qtbot.keyClick(view, Qt.Key.Key_Right)
    (after,) = ticks.ticks
    assert after.x_mm - before.x_mm == pytest.approx(1.0, abs=0.05)


def test_hovering_tells_which_seam(ticks, view):
    """Once when it is met, once when it is left."""
    told = []
    ticks.hovered_changed.connect(told.append)
    assert ticks.hover_at(px(ticks))
    assert not ticks.hover_at(None)
    assert told == [0, -1]


def test_while_another_stage_is_open_a_tick_is_only_seen(ticks, session):
    """It can't be grabbed then."""
    SectionsShown.of(session).set_open(False)
    assert ticks.tick_at(px(ticks)) is None
    assert len(ticks.ticks) == 1


def test_a_double_click_puts_one_there(ticks, view, session):
    """Beside the tick of another; on one nothing is added."""
    assert ticks.add_at(px(ticks))
    assert len(session.committed.seams) == 1
    assert ticks.add_at(px(ticks) + QPoint(60, 0))
    assert len(session.committed.seams) == 2


def test_it_is_painted_and_tab_steps_through(ticks, view, session, qtbot):
    """The selected one bears its name; Tab selects it."""
    plain = view.viewport().grab().toImage()
    qtbot.keyClick(view, Qt.Key.Key_Tab)
    assert session.selected_seams == {0}
    assert view.viewport().grab().toImage() != plain


def _moved(view, at):
    from PySide6.QtCore import QEvent, QPointF
    from PySide6.QtGui import QMouseEvent

    left = Qt.MouseButton.LeftButton
    return QMouseEvent(
        QEvent.Type.MouseMove,
        QPointF(at),
        view.viewport().mapToGlobal(QPointF(at)),
        Qt.MouseButton.NoButton,
        left,
        Qt.KeyboardModifier.NoModifier,
    )
