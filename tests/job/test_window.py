"""The whole job in the window: open, propose, drag, undo, save, open again, export.

Run on a real X server with a window manager; the last test drives the mouse and the keys from
outside, as a person does.
"""

import shutil
import subprocess
import time

import ezdxf
import numpy as np
import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QApplication, QFileDialog, QPushButton

from holeplacer.gui.canvas.view import CanvasView
from tests.gui.conftest import answers, bench, settings, theme, window  # noqa: F401 (fixtures)

pytestmark = pytest.mark.xserver


@pytest.fixture
def demo(bench, qtbot):  # noqa: F811 (the fixture)
    """The demo, opened from the start page by a click, with holes proposed by a click."""
    click(bench.window.start, "Open the demo", qtbot)
    qtbot.waitUntil(lambda: bench.session.evaluation is not None, timeout=60_000)
    bench.rail.setCurrentRow(3)
    qtbot.wait(50)
    click(bench.hole_stage, "Propose holes", qtbot)
    qtbot.waitUntil(lambda: bool(bench.session.plan.holes), timeout=60_000)
    qtbot.waitUntil(lambda: not bench.session.busy)
    return bench


def click(widget, text, qtbot):
    """Click the button that says this."""
    (button,) = [b for b in widget.findChildren(QPushButton) if b.text() == text]
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)


def pixel(canvas: CanvasView, hole) -> QPoint:
    """Where a hole is on the viewport."""
    return canvas.mapFromScene(QPointF(hole.x_mm, hole.y_mm))


def movable(bench, way):  # noqa: F811
    """A hole that is free to move along its stroke by so many pixels, and where to."""
    axis = bench.session.layout.axis
    inside = bench.canvas.viewport().rect().adjusted(30, 30, -30, -30)
    for hole in bench.session.plan.holes:
        for branch in axis.branches:
            near = abs(branch.xy - (hole.x_mm, hole.y_mm)).sum(axis=1)
            at = int(near.argmin())
            ahead = int((branch.s - branch.s[at] > way).argmax())
            if near[at] < 1.0 and ahead > at:
                place = bench.canvas.mapFromScene(QPointF(*branch.xy[ahead]))
                if inside.contains(place) and inside.contains(pixel(bench.canvas, hole)):
                    return hole, place
    raise AssertionError("no hole has room to move")


def drag(canvas, start, end, qtbot):
    """Press, move in small steps, let go."""
    port = canvas.viewport()
    qtbot.mouseMove(port, start)
    qtbot.mousePress(port, Qt.MouseButton.LeftButton, pos=start)
    for step in range(1, 9):
        qtbot.mouseMove(port, start + (end - start) * (step / 8))
        QApplication.processEvents()
    qtbot.mouseRelease(port, Qt.MouseButton.LeftButton, pos=end)


def test_the_demo_is_a_plan_to_cut(demo):
    """The fewest holes, proven; every one within its edge distance."""
    assert demo.session.proposal.proven
    assert len(demo.session.plan.holes) > 10
    for figures in demo.session.evaluation.holes:
        assert figures.edge_distance_mm >= figures.limit_mm - 1e-6


def test_a_drag_is_one_named_step(demo, qtbot):
    """The hole follows the pointer with its figures, and one undo brings it back."""
    hole, place = movable(demo, 40.0)
    count = demo.session.undo_stack.count()
    drag(demo.canvas, pixel(demo.canvas, hole), place, qtbot)
    assert demo.session.undo_stack.count() == count + 1
    assert demo.session.undo_stack.undoText() == f"Move hole {hole.number}"
    moved = next(h for h in demo.session.plan.holes if h.number == hole.number)
    assert (moved.x_mm - hole.x_mm) ** 2 + (moved.y_mm - hole.y_mm) ** 2 > 15**2
    assert demo.session.selected_holes == {hole.number}
    demo.canvas.setFocus()
    qtbot.keyClick(demo.canvas, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    qtbot.waitUntil(lambda: hole in demo.session.plan.holes)


def test_nudged_by_the_arrow_keys(demo, qtbot):
    """An arrow moves the selected hole a millimetre, with Shift a tenth; the view stays."""
    hole = demo.session.plan.holes[3]
    demo.session.select_holes({hole.number})
    demo.canvas.setFocus()
    centre = demo.canvas.mapToScene(demo.canvas.viewport().rect().center())
    qtbot.keyClick(demo.canvas, Qt.Key.Key_Right)
    qtbot.keyClick(demo.canvas, Qt.Key.Key_Up, Qt.KeyboardModifier.ShiftModifier)
    moved = demo.session.plan.holes[3]
    assert moved.x_mm - hole.x_mm == pytest.approx(1.0)
    assert moved.y_mm - hole.y_mm == pytest.approx(0.1)
    assert demo.canvas.mapToScene(demo.canvas.viewport().rect().center()) == centre


def test_save_open_again_export(demo, qtbot, tmp_path, monkeypatch):
    """What was saved comes back whole, and goes out as a drawing with every hole in it."""
    names = [
        str(tmp_path / "shop.holeplan"),
        str(tmp_path / "shop.dxf"),
        str(tmp_path / "shop.csv"),
    ]
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_args: (names.pop(0), ""))
    assert demo.files.save()
    plan = demo.session.plan
    with qtbot.waitSignal(demo.session.opened, timeout=30_000):
        demo.files.open_file(tmp_path / "shop.holeplan")
    assert demo.session.plan == plan
    qtbot.waitUntil(lambda: demo.session.evaluation is not None, timeout=60_000)
    for act in (demo.files.ask_export_drawing, demo.files.ask_export_schedule):
        with qtbot.waitSignal(demo.exporter.written, timeout=60_000):
            act()
    circles = ezdxf.readfile(tmp_path / "shop.dxf").modelspace().query("CIRCLE")
    found = sorted((circle.dxf.center.x, circle.dxf.center.y) for circle in circles)
    wanted = sorted((hole.x_mm, hole.y_mm) for hole in plan.holes)
    assert np.array(found) == pytest.approx(np.array(wanted), abs=1e-4)
    rows = (tmp_path / "shop.csv").read_text("utf-8-sig").splitlines()
    assert sum(row[:1].isdigit() for row in rows) == len(plan.holes)


@pytest.mark.skipif(
    shutil.which("xdotool") is None or not shutil.which("openbox"),
    reason="needs xdotool and a window manager",
)
def test_a_person_at_mouse_and_keys(demo, qtbot):
    """Drag, nudge and undo sent by the X server, not by the toolkit."""
    if QGuiApplication.platformName() != "xcb":
        pytest.skip("needs an X server")
    demo.window.activateWindow()
    qtbot.waitUntil(demo.window.isActiveWindow)
    hole, place = movable(demo, 40.0)
    port = demo.canvas.viewport()
    start = port.mapToGlobal(pixel(demo.canvas, hole))
    end = port.mapToGlobal(place)
    outside(f"mousemove {start.x()} {start.y()}", "mousedown 1")
    for step in range(1, 9):
        at = start + (end - start) * (step / 8)
        outside(f"mousemove {at.x()} {at.y()}")
    outside("mouseup 1")
    wanted = f"Move hole {hole.number}"
    qtbot.waitUntil(lambda: demo.session.undo_stack.undoText() == wanted, timeout=10_000)
    moved = next(h for h in demo.session.plan.holes if h.number == hole.number)
    outside("key Right")
    qtbot.waitUntil(
        lambda: any(h.x_mm == pytest.approx(moved.x_mm + 1) for h in demo.session.plan.holes),
        timeout=10_000,
    )
    outside("key ctrl+z", "key ctrl+z")
    qtbot.waitUntil(lambda: hole in demo.session.plan.holes, timeout=10_000)


def outside(*commands):
    """Act as another program does, and let the window take notice."""
    for command in commands:
        subprocess.run(["xdotool", *command.split()], check=True, timeout=10)
        until = time.monotonic() + 0.05
        while time.monotonic() < until:
            QApplication.processEvents()
