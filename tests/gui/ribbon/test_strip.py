"""A strip zoomed and scrolled along."""

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QWheelEvent
from PySide6.QtWidgets import QApplication


def wheel(view, x, turned):
    place = QPointF(x, 60)
    event = QWheelEvent(
        place, view.viewport().mapToGlobal(place), QPoint(), turned,
        Qt.MouseButton.NoButton, Qt.KeyboardModifier.NoModifier,
        Qt.ScrollPhase.NoScrollPhase, False,
    )  # fmt: skip
    QApplication.sendEvent(view.viewport(), event)


def test_all_of_it_is_in_sight_at_first_and_while_it_grows(view):
    """No scroll bar until one zooms in."""
    for width in (1000, 1400):
        view.resize(width, 140)
        assert view.scale.total_px(view.ribbon) == pytest.approx(view.viewport().width(), abs=1)
        assert view.horizontalScrollBar().maximum() == 0


def test_the_wheel_zooms_at_the_pointer(view):
    """The place under it stays within a pixel."""
    run = view.scale.run_at(view.ribbon, 300.0)
    place = view.scale.x_mm(run, 300.0)
    for turned in (120, 240, 120, -120, 360):
        wheel(view, 300, QPoint(0, turned))
        assert view.scale.x_px(run, place) == pytest.approx(300.0, abs=1.0)
    assert view.horizontalScrollBar().maximum() > 0
    for _ in range(40):
        wheel(view, 300, QPoint(0, -120))
    assert view.horizontalScrollBar().maximum() == 0


def test_scroll_bar_side_wheel_and_pan_scroll(view):
    """All move the same strip."""
    view.zoom_by(8.0, 400.0)
    before = view.scale.scroll_px
    view.horizontalScrollBar().setValue(round(before) + 30)
    assert view.scale.scroll_px == before + 30
    view.pan(QPoint(12, 0))
    assert view.scale.scroll_px == before + 18
    wheel(view, 300, QPoint(-20, 0))
    assert view.scale.scroll_px == before + 38


def test_fit_shows_all_of_it_again(view):
    """After any zoom."""
    view.zoom_by(8.0, 400.0)
    view.fit()
    assert view.horizontalScrollBar().maximum() == 0


def test_what_stands_still_is_painted_once(view):
    """Repaints copy it; scrolling, zooming and another theme paint it anew."""
    view.viewport().repaint()
    before = view.pictures
    for _ in range(5):
        view.viewport().repaint()
    assert view.pictures == before
    view.zoom_by(2.0, 400.0)
    view.viewport().repaint()
    assert view.pictures == before + 1


def test_without_an_axis_it_is_an_empty_strip(view):
    """Nothing to zoom, nothing to break."""
    view.show_ribbon(None)
    view.zoom_by(2.0, 100.0)
    view.fit()
    view.viewport().repaint()
    assert view.ribbon is None
