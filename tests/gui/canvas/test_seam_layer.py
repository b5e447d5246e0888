"""Seams on the canvas: drawn, taken hold of, added, with live figures."""

import pytest
from PySide6.QtCore import QEvent, Qt

from holeplacer.gui.canvas.seam_layer import SeamLayer
from holeplacer.gui.sections_shown import SectionsShown
from holeplacer.plan import edit
from holeplacer.plan.seam import Seam

SEAM = Seam(240.0, 80.0, 240.0, 120.0)


@pytest.fixture
def layer(canvas, session, theme):
    made = SeamLayer(session, canvas, theme)
    SectionsShown.of(session).set_open(True)
    return made


@pytest.fixture
def divided(layer, session, qtbot):
    session.push(edit.with_seams(session.committed, (SEAM,)), "Divide")
    qtbot.waitUntil(lambda: 0 in layer.seams)
    return layer


def test_seams_come_and_go_with_the_plan(divided, session, canvas, qtbot):
    """As many items as seams."""
    assert divided.seams[0].scene() is canvas.sign
    session.undo_stack.undo()
    qtbot.waitUntil(lambda: not divided.seams)


def test_a_seam_drags_along_its_stroke(divided, session, hand, canvas):
    """With live figures under way, one step at its end, undone at once."""
    start, end = hand.px((240.0, 108.0)), hand.px((300.0, 108.0))
    hand.press(start)
    hand.move((start + end) / 2)
    hand.move(end)
    words = [line.what for line in divided.plate.lines]
    assert words[:2] == ["weld length", "to hole 2"]
    assert divided.plate.isVisible()
    hand.release(end)
    assert session.committed.seams[0].middle_mm[0] == pytest.approx(300.0, abs=2.0)
    assert session.committed.seams[0].length_mm == pytest.approx(40.0, abs=0.1)
    assert session.undo_stack.undoText() == "Move seam 1"
    divided.refresh()
    assert not divided.plate.isVisible()
    session.undo_stack.undo()
    assert session.committed.seams[0] == SEAM


def test_escape_lets_go(divided, session, hand, canvas, qtbot):
    """The seam is back where it was, without a step."""
    before = session.committed
    hand.press(hand.px((240.0, 108.0)))
    hand.move(hand.px((300.0, 108.0)))
    qtbot.keyClick(canvas, Qt.Key.Key_Escape)
    assert session.plan is before


def test_while_another_stage_is_open_seams_are_only_seen(divided, session, hand, canvas):
    """A press on one selects nothing; its name is gone."""
    SectionsShown.of(session).set_open(False)
    hand.click(hand.px((240.0, 108.0)))
    assert session.selected_seams == frozenset()
    assert 0 in divided.seams
    assert divided.seams[0].words == ""


def test_a_double_click_puts_one_on_the_stroke(layer, session, hand):
    """Straight across, selected; it is no hole."""
    px = hand.px((500.0, 95.0))
    hand.press(px)
    hand.release(px)
    hand.send(
        QEvent.Type.MouseButtonDblClick,
        px,
        button=Qt.MouseButton.LeftButton,
        held=Qt.MouseButton.LeftButton,
    )
    assert len(session.committed.seams) == 1
    assert session.selected_seams == {0}
    assert len(session.committed.holes) == 5


def test_a_click_puts_one_while_placing(layer, session, hand):
    """Before the click it is shown where it would be."""
    shown = SectionsShown.of(session)
    shown.place_seam(layer.commands.add)
    hand.move(hand.px((500.0, 95.0)), held=Qt.MouseButton.NoButton)
    assert layer._other.isVisible()
    hand.click(hand.px((500.0, 95.0)))
    assert len(session.committed.seams) == 1
    assert not shown.placing


def test_keys_nudge_and_step(divided, session, canvas, qtbot):
    """Tab selects the seam, arrows slide it."""
    qtbot.keyClick(canvas, Qt.Key.Key_Tab)
    assert session.selected_seams == {0}
    qtbot.keyClick(canvas, Qt.Key.Key_Right)
    assert session.committed.seams[0].middle_mm[0] == pytest.approx(241.0, abs=0.05)


def test_sections_are_told_apart_while_the_stage_is_open(divided, session):
    """Tinted and named; not after another stage is opened."""
    divided.refresh()
    assert divided._tint.isVisible()
    names = [label.lines[0].what for label in divided._names]
    assert names == [f"section {number}" for number in range(1, len(names) + 1)]
    assert len(names) == 4  # the stroke in two, dot, ring
    SectionsShown.of(session).set_open(False)
    assert not divided._tint.isVisible()
    assert divided._names == []


def test_another_way_is_drawn_beside(divided, session):
    """While it is looked at only."""
    shown = SectionsShown.of(session)
    shown.look_at("straight split", (Seam(700.0, 80.0, 700.0, 120.0),))
    assert divided._other.isVisible()
    shown.look_at("", ())
    assert not divided._other.isVisible()


def test_selecting_is_shared(divided, session, hand):
    """A click selects the seam and no hole; a hole selected elsewhere ends that."""
    hand.click(hand.px((240.0, 112.0)))
    assert session.selected_seams == {0}
    assert divided.seams[0].mark.selected
    session.select_holes({1})
    assert session.selected_seams == frozenset()
    assert not divided.seams[0].mark.selected
