"""Marks and stretches, made once for all views."""

from holeplacer.gui.canvas.overlay import Overlay
from holeplacer.plan import edit
from holeplacer.units import LengthUnit


def test_there_is_one_for_each_session(session):
    """Canvas and ribbon get the same."""
    assert Overlay.of(session) is Overlay.of(session)


def test_it_follows_the_plan_and_tells_once(session, qtbot):
    """One change of the plan, one signal with the new marks."""
    overlay = Overlay.of(session)
    told = []
    overlay.changed.connect(lambda: told.append(overlay.marks[0].x_mm))
    session.preview(edit.with_hole_moved(session.plan, 1, 140.0, 100.0))
    assert told == [140.0]
    qtbot.wait(5)
    assert told == [140.0]


def test_selecting_remakes_marks_only(session):
    """The stretches stay the same objects."""
    overlay = Overlay.of(session)
    before = overlay.stretches
    session.select_holes({2})
    assert [mark.number for mark in overlay.marks if mark.selected] == [2]
    assert overlay.stretches is before


def test_figures_follow_the_unit(session):
    """Inches once inches are shown."""
    overlay = Overlay.of(session)
    session.set_unit(LengthUnit.INCH)
    assert all(s.figure.endswith(" in") for s in overlay.stretches if s.figure)


def test_holes_are_seen_before_there_is_an_evaluation(qapp, strokes, qtbot):
    """A plan without an outline yet still shows its holes, once the event loop runs."""
    from holeplacer.gui.session import Session

    session = Session()
    overlay = Overlay.of(session)
    assert overlay.marks == ()
    session._plan = strokes.plan
    session.plan_changed.emit()
    qtbot.waitUntil(lambda: len(overlay.marks) == 5)
    assert overlay.stretches == ()
