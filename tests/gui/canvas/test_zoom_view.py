"""Zoom, pan, fit, rulers."""

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from PySide6.QtCore import QPoint, QPointF, QRectF, Qt
from PySide6.QtGui import QPixmapCache, QWheelEvent
from PySide6.QtWidgets import QApplication, QGraphicsScene, QGraphicsView

from holeplacer.gui.canvas.zoom_view import ZoomView
from holeplacer.units import LengthUnit

BOUNDS = QRectF(0, 0, 1200, 480)


@pytest.fixture
def view(qtbot, theme):
    scene = QGraphicsScene()
    made = ZoomView(scene, theme)
    scene.setParent(made)
    qtbot.addWidget(made)
    made.resize(900, 500)
    with qtbot.waitExposed(made):
        made.show()
    made.show_bounds(BOUNDS)
    return made


def wheel(view, at, turned):
    place = QPointF(at)
    event = QWheelEvent(
        place, view.viewport().mapToGlobal(place), QPoint(), QPoint(0, turned),
        Qt.MouseButton.NoButton, Qt.KeyboardModifier.NoModifier,
        Qt.ScrollPhase.NoScrollPhase, False,
    )  # fmt: skip
    QApplication.sendEvent(view.viewport(), event)


def test_up_is_up(view):
    """A place higher on the sign is higher on the screen."""
    assert view.mapFromScene(100, 200).y() < view.mapFromScene(100, 100).y()


def test_all_of_the_sign_fits_with_a_margin(view):
    """Every corner inside, and it stays so while the window grows."""
    for size in ((900, 500), (1500, 700), (400, 900)):
        view.resize(*size)
        port = view.viewport().rect()
        corners = [view.mapFromScene(p) for p in (BOUNDS.topLeft(), BOUNDS.bottomRight())]
        assert all(port.adjusted(20, 20, -20, -20).contains(corner) for corner in corners)


@settings(
    max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(st.integers(0, 870), st.integers(0, 470), st.lists(st.sampled_from([120, -120, 15, 360]),
                                                        min_size=1, max_size=12))  # fmt: skip
def test_the_wheel_zooms_at_the_pointer(view, x, y, turns):
    """The place under the pointer stays under it within a pixel, however often one turns."""
    view.fit()
    at = QPoint(x, y)
    place = view.to_sign(at)
    for turned in turns:
        wheel(view, at, turned)
    where = view.viewportTransform().map(place)
    assert abs(where.x() - x) <= 1.0
    assert abs(where.y() - y) <= 1.0


def test_zoom_has_ends(view):
    """Neither a speck nor a sea of blur."""
    for _ in range(200):
        view.zoom_in()
    assert view.px_per_mm == 200.0
    for _ in range(300):
        view.zoom_out()
    assert 0.01 < view.px_per_mm < 0.1


def test_one_step_in_and_out_is_as_before(view):
    """Keys and menus share the step."""
    before = view.px_per_mm
    view.zoom_in()
    assert view.px_per_mm == pytest.approx(1.25 * before)
    view.zoom_out()
    assert view.px_per_mm == pytest.approx(before)


def test_panning_carries_the_sign_along(view):
    """By exactly the pixels the pointer went."""
    before = view.mapFromScene(600, 240)
    view.pan(QPoint(37, -21))
    assert view.mapFromScene(600, 240) - before == QPoint(37, -21)


def test_a_chosen_part_is_kept_while_the_window_grows(view):
    """No fit behind the person's back."""
    view.fit_rect(QRectF(500, 200, 100, 50))
    before = view.px_per_mm
    view.resize(1200, 700)
    assert view.px_per_mm == before
    view.fit()
    assert view.px_per_mm < before


def test_a_sign_made_elsewhere_is_shown_whole(view):
    """Scaled or moved out of the part in sight, it is fitted; a small change is not."""
    view.fit_rect(QRectF(500, 200, 100, 50))
    before = view.px_per_mm
    view.show_bounds(BOUNDS.adjusted(-1, -1, 1, 1))
    assert view.px_per_mm == before
    view.show_bounds(QRectF(5000, 5000, 300, 100))
    assert view.viewport().rect().contains(view.mapFromScene(5150, 5050))


def test_a_place_is_brought_into_view_only_if_it_is_not(view):
    """Small jumps do not shake the picture."""
    view.fit_rect(QRectF(500, 200, 100, 50))
    centre = view.to_sign(view.viewport().rect().center())
    view.bring_into_view(550, 225)
    assert view.to_sign(view.viewport().rect().center()) == centre
    view.bring_into_view(20, 20)
    assert view.viewport().rect().contains(view.mapFromScene(20, 20))


def test_rulers_agree_with_the_view(view):
    """Zero and scale are those of the transform, after zoom and pan, in both units."""
    view.zoom_by(3.0, QPoint(100, 100))
    view.pan(QPoint(11, 5))
    level, upright = view.rulers
    zero = view.viewportTransform().map(QPointF(0, 0))
    assert (level._zero_px, level._px_per_mm) == (zero.x(), view.px_per_mm)
    assert (upright._zero_px, upright._px_per_mm) == (zero.y(), -view.px_per_mm)
    view.show_unit(LengthUnit.INCH)
    assert level._unit is upright._unit is LengthUnit.INCH


def test_the_grid_can_be_hidden(view):
    """Its lines go, the ground stays."""
    with_grid = view.viewport().grab().toImage()
    view.set_grid(False)
    assert not view.grid
    image = view.viewport().grab().toImage()
    assert image != with_grid
    assert len({image.pixel(x, 40) for x in range(image.width())}) == 1


def test_it_is_set_up_for_cheap_frames(view):
    """Minimal updates, and a cache that holds a large window's picture."""
    mode = QGraphicsView.ViewportUpdateMode.MinimalViewportUpdate
    assert view.viewportUpdateMode() is mode
    assert QPixmapCache.cacheLimit() >= 131072
