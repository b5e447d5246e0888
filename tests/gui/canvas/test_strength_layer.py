"""What the canvas draws of strength, and when."""

from dataclasses import replace

import numpy as np
import pytest
from PySide6.QtCore import QPoint, QRect, QRectF, Qt
from PySide6.QtWidgets import QApplication

from holeplacer.gui.strength_shown import Colouring, StrengthShown
from holeplacer.plan import edit
from holeplacer.units import LengthUnit


@pytest.fixture
def layer(blown):
    return blown.strength_layer


@pytest.fixture
def shown(blown):
    return StrengthShown.of(blown.session)


def test_drawn_while_the_stage_is_open(blown, layer):
    """Colours, arrows and legend; gone with another stage, back from the View menu."""
    assert layer.strokes.isVisible()
    assert set(layer.arrows) == {1, 2, 3}
    blown.rail.setCurrentRow(0)
    assert not layer.strokes.isVisible()
    assert not layer.arrows
    assert not layer.legend.isVisible()
    StrengthShown.of(blown.session).set_pinned(True)
    assert layer.strokes.isVisible()
    assert layer.legend.isVisible()


def test_without_wind_nothing_stays(blown, layer):
    """Undo takes the drawing with the wind."""
    blown.session.undo_stack.undo()
    assert blown.session.evaluation.strength is None
    assert not layer.strokes.isVisible()
    assert not layer.arrows
    assert not layer.legend.isVisible()


def test_arrows_stand_at_their_holes_and_bear_their_force(blown, layer):
    """In the plan's order, in the unit chosen."""
    response = StrengthShown.of(blown.session).response
    for hole, force in zip(blown.session.plan.holes, response.reactions_n, strict=True):
        arrow = layer.arrows[hole.number]
        assert (arrow.x(), arrow.y()) == (hole.x_mm, hole.y_mm)
        assert arrow.force_n == force
        assert arrow.figure.endswith(" N")
    blown.session.set_unit(LengthUnit.INCH)
    assert all(arrow.figure.endswith(" lb") for arrow in layer.arrows.values())


def test_a_drag_is_followed_at_once(blown, layer, qtbot):
    """Every move of the mouse: forces of the moved hole's plan, arrow at its hole."""
    canvas = blown.canvas
    before = [arrow.force_n for arrow in layer.arrows.values()]
    start = canvas.mapFromScene(300.0, 100.0)
    qtbot.mousePress(canvas.viewport(), Qt.MouseButton.LeftButton, pos=start)
    for step in range(1, 9):
        qtbot.mouseMove(canvas.viewport(), start + QPoint(5 * step, 0))
    moved = edit.hole_numbered(blown.session.plan, 2)
    assert moved.x_mm > 310.0
    assert layer.arrows[2].x() == pytest.approx(moved.x_mm)
    found = blown.session.evaluation.strength.effects.wind[0]
    assert [layer.arrows[number].force_n for number in (1, 2, 3)] == list(found.reactions_n)
    assert [arrow.force_n for arrow in layer.arrows.values()] != before
    qtbot.mouseRelease(canvas.viewport(), Qt.MouseButton.LeftButton, pos=start + QPoint(40, 0))


def test_what_is_chosen_is_drawn(blown, layer, shown):
    """Stress, nothing, the deflected shape, no arrows; the legend says which."""
    assert "Deflection" in layer.legend.content.title
    assert layer.legend.content.unit == "mm"
    shown.set_colouring(Colouring.STRESS)
    assert layer.legend.content.unit == "MPa"
    shown.set_colouring(Colouring.NOTHING)
    assert not layer.strokes.isVisible()
    assert layer.legend.content.ticks == ()
    shown.set_deflected(True)
    assert layer.shape.isVisible()
    assert f"× {layer.factor:g}" in layer.legend.content.factor
    shown.set_reactions(False)
    assert not layer.arrows
    assert layer.legend.content.longest == ""


def test_a_case_in_the_plane_shows_what_pushes_the_studs(blown, layer, shown):
    """Arrows in the force's own direction: weight downwards; nothing is coloured."""
    case = blown.session.evaluation.strength.effects.in_plane[0]
    shown.set_case(case.name)
    assert not layer.strokes.isVisible()
    assert layer.legend.content.in_plane
    assert case.name in layer.legend.content.title
    for index, arrow in enumerate(layer.arrows.values()):
        assert arrow.force_n == pytest.approx(case.shear_n(index))
        across, up = case.result.forces_n[index]
        if case.shear_n(index) > 0.1:
            assert arrow._turned == pytest.approx(np.degrees(np.arctan2(across, up)), abs=0.51)
    assert sum(case.result.forces_n[:, 1]) < 0
    shown.set_case("")
    assert layer.strokes.isVisible()


def test_the_shape_is_exaggerated_to_be_seen_not_to_scatter(blown, layer, shown):
    """The scale's top is drawn a few per cent of the sign off."""
    shown.set_deflected(True)
    off = layer.factor * shown.top("deflection")
    assert 0.02 < off / np.hypot(600.0, 80.0) < 0.09


def test_figures_never_cover_one_another(blown, layer):
    """The greater force keeps its figure."""
    plan = blown.session.committed
    for x in (304.0, 308.0, 312.0, 316.0, 320.0, 324.0):
        plan = edit.with_hole_added(plan, x, 100.0)
    blown.session.push(plan, "Crowd")
    boxes = [
        arrow.number_box.translated(
            arrow.x() * blown.canvas.px_per_mm, -arrow.y() * blown.canvas.px_per_mm
        )
        for arrow in layer.arrows.values()
        if arrow._numbered
    ]
    assert 0 < len(boxes) < len(layer.arrows)
    for index, box in enumerate(boxes):
        assert not any(box.intersects(other) for other in boxes[index + 1 :])


def test_the_legend_keeps_to_a_corner(blown, layer):
    """Whatever the window's size: the lower left where nothing is covered anyway."""
    for size in ((1100, 700), (1400, 900)):
        blown.window.resize(*size)
        QApplication.processEvents()
        port = blown.canvas.viewport().geometry()
        corner = layer.legend.geometry().bottomLeft()
        assert 0 < corner.x() - port.left() < 20
        assert 0 < port.bottom() - corner.y() < 20


def test_the_legend_makes_room_for_the_sign(blown, layer, qtbot):
    """Zoomed so that strokes fill the lower half, it goes up."""
    canvas = blown.canvas
    port = canvas.viewport()
    canvas.fit_rect(QRectF(250.0, 100.0, 100.0, 100.0))
    qtbot.waitUntil(lambda: layer.legend.geometry().top() < port.height() / 2)
    low = QRect(layer.legend.geometry())
    low.moveBottom(port.geometry().bottom() - 12)
    assert layer._covered(layer.legend.geometry()) < layer._covered(low)


def test_less_wind_is_drawn_on_a_scale_of_its_own(blown, layer):
    """The ticks end in a round figure above the largest deflection."""
    before = layer.legend.content.ticks
    plan = blown.session.committed
    less = replace(plan.loading, pressure_out_pa=50.0)
    blown.session.push(edit.with_loading(plan, less), "Less")
    assert layer.legend.content.ticks != before


def difference(one, two):
    """Greatest difference of any pixel's channel."""
    first, second = (np.frombuffer(image.constBits(), np.uint8).astype(int) for image in (one, two))
    return np.abs(first - second).max()


@pytest.mark.xserver
def test_what_a_drag_leaves_is_what_a_whole_painting_shows(blown, shown, qtbot):
    """Colours, shape, arrows and the ribbon's lane, repainted only where they changed.

    What moved by a part of a pixel may differ in its smoothing.
    """
    shown.set_deflected(True)
    canvas, ribbon = blown.canvas, blown.ribbon
    start = canvas.mapFromScene(300.0, 100.0)
    qtbot.mousePress(canvas.viewport(), Qt.MouseButton.LeftButton, pos=start)
    for step in range(1, 25):
        qtbot.mouseMove(canvas.viewport(), start + QPoint(3 * step, 0))
        qtbot.wait(2)
    for part in (canvas.viewport(), ribbon.viewport()):
        kept = part.screen().grabWindow(part.winId()).toImage()
        part.repaint()
        whole = part.screen().grabWindow(part.winId()).toImage()
        assert difference(kept, whole) < 128
    qtbot.mouseRelease(canvas.viewport(), Qt.MouseButton.LeftButton, pos=start + QPoint(72, 0))
