"""Everything seen on the canvas, in step with the session."""

import gc
import weakref

import pytest
from PySide6.QtCore import QRectF
from PySide6.QtWidgets import QApplication

from holeplacer.gui.canvas.scene import SignScene
from holeplacer.gui.canvas.stretches import StretchKind
from holeplacer.gui.theme import Choice
from holeplacer.plan import edit

ROOM = QRectF(0, 0, 1200, 480)


@pytest.fixture
def scene(session, theme):
    made = SignScene(session, theme)
    made.refresh_layout()
    made.set_scale(0.7)
    made.refresh(None, ROOM)
    yield made
    made.deleteLater()


def test_each_hole_has_its_item(scene, session):
    """Added and removed with the plan, kept otherwise."""
    assert set(scene.holes) == {1, 2, 3, 4, 5}
    kept = scene.holes[1]
    session.push(edit.without_hole(session.plan, 2), "x")
    session.push(edit.with_hole_added(session.plan, 50.0, 100.0), "x")
    scene.refresh(None, ROOM)
    assert set(scene.holes) == {1, 3, 4, 5, 6}
    assert scene.holes[1] is kept


def test_broken_stretches_are_seen_with_figures(scene):
    """The thin end and the ring."""
    shown = [item.label.lines[0].what for item in scene.stretches.values() if item.label.lines]
    assert "560 of 100 mm" in shown
    assert "653.4 of 300 mm" in shown


def test_figures_never_cover_each_other(scene):
    """At any scale those that would are left out."""
    for scale in (0.05, 0.2, 0.7, 3.0):
        scene.set_scale(scale)
        boxes = [i.label_px() for i in scene.stretches.values() if i.label.isVisible()]
        assert boxes
        for n, one in enumerate(boxes):
            assert not any(one.intersects(two) for two in boxes[n + 1 :])


def test_a_hole_in_hand_shows_cost_axis_and_spans_and_quiets_the_rest(scene):
    """Figures of this hole, its spans, the axis; other figures hide until it is let go."""
    scene.refresh(2, ROOM)
    assert scene.live.figures.centre == (380.0, 100.0)
    assert scene.axis.isVisible()
    checked = [s.figure for s in scene.stretches if s.kind is StretchKind.CHECKED]
    assert "280 of 300 mm" in checked
    assert not any(item.label.isVisible() for item in scene.stretches.values())
    scene.refresh(None, ROOM)
    assert scene.live.figures is None
    assert not scene.axis.isVisible()
    assert any(item.label.isVisible() for item in scene.stretches.values())


def test_items_of_stretches_are_used_again(scene, session):
    """Eighty moves of a hole leave no trail of items."""
    before = len(scene.items())
    for step in range(80):
        session.preview(edit.with_hole_moved(session.plan, 2, 380.0 + step, 100.0))
        scene.refresh(2, ROOM)
    session.preview(None)
    scene.refresh(None, ROOM)
    assert len(scene.items()) <= before + 12


def test_hovering_marks_one_hole(scene):
    """The last one is left."""
    scene.hover(1)
    scene.hover(2)
    assert [n for n, item in scene.holes.items() if item._hovered] == [2]
    scene.hover(None)
    assert not any(item._hovered for item in scene.holes.values())


def test_picked_points_and_band_are_drawn_and_taken_away(scene):
    """What gestures show."""
    scene.show_points(((10.0, 10.0), (300.0, 10.0)))
    assert scene._points.path().boundingRect().width() > 290
    scene.show_points(())
    assert scene._points.path().isEmpty()
    scene.show_band((50.0, 60.0), (10.0, 20.0))
    assert scene._band.isVisible()
    assert scene._band.rect() == QRectF(10, 20, 40, 40)
    scene.show_band(None, (0.0, 0.0))
    assert not scene._band.isVisible()


def test_another_theme_reaches_every_item(scene, theme):
    """Nothing keeps a colour of the old set."""
    theme.choose(Choice.DARK)
    colours = theme.colours
    assert all(item._colours is colours for item in scene.holes.values())
    assert all(item._colours is colours for item in scene.stretches.values())
    assert scene._band.pen().color() == colours.colour("accent")


def test_it_goes_with_its_items(session, theme):
    """A scene that is dropped leaves no item behind."""
    made = SignScene(session, theme)
    made.refresh(None, ROOM)
    watched = [weakref.ref(item) for item in made.holes.values()]
    made.deleteLater()
    del made
    QApplication.sendPostedEvents(None, 52)
    gc.collect()
    assert [ref for ref in watched if ref() is not None] == []
