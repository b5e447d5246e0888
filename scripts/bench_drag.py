"""Measures frames while one hole is dragged in the whole window, beside a plain QGraphicsView.

A frame is one mouse move with everything it sets off: sliding, every rule, all figures, and the
painting of all that changed, waited for. The peer is a plain view with the same outline as one
path item and the same holes as ellipse items, one of which is dragged; it checks nothing. Both
run in the same process under the present platform, which must be a real X server.
"""

import math
import os
import statistics
import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np
import shapely
from PySide6.QtCore import QEvent, QPoint, QPointF, QRectF, QSettings, Qt
from PySide6.QtGui import QBrush, QColor, QMouseEvent, QPainter, QPen
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QApplication,
    QGraphicsEllipseItem,
    QGraphicsItem,
    QGraphicsPathItem,
    QGraphicsScene,
    QGraphicsView,
    QWidget,
)

from holeplacer.artwork import read, source
from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.artwork.options import ReadOptions
from holeplacer.evaluation import layout
from holeplacer.gui.canvas.paths import painter_path
from holeplacer.gui.main_window import MainWindow
from holeplacer.gui.theme import Choice, Theme
from holeplacer.outline.outline import Outline
from holeplacer.placement import propose
from holeplacer.plan import edit
from holeplacer.plan.plan import Plan
from holeplacer.resources import resource_path

VERTICES = (20_000, 200_000)
FRAMES = 240
WARM_UP = 30
BAR_S = 0.016


@dataclass(frozen=True)
class Frames:
    """Seconds of each frame, and how often the outline was painted meanwhile.

    Attributes:
        seconds: From the mouse move until all that changed is painted.
        cpu: What this process reckoned in that time; less than `seconds` where others had the
            processor or the X server was waited for.
        outline_paints: How often the outline was painted.
    """

    seconds: tuple[float, ...]
    cpu: tuple[float, ...]
    outline_paints: int

    @property
    def p95(self) -> float:
        """What 95 % of the frames keep."""
        return statistics.quantiles(self.seconds, n=20)[-1]

    @property
    def told(self) -> str:
        """Processor time, median and 95th percentile."""
        most = statistics.quantiles(self.cpu, n=20)[-1]
        return f"cpu {statistics.median(self.cpu) * 1e3:.1f}, p95 {most * 1e3:.1f} ms"

    @property
    def kept(self) -> float:
        """Share of frames within the bar."""
        return sum(second <= BAR_S for second in self.seconds) / len(self.seconds)


class CountedPath(QGraphicsPathItem):
    """The peer's outline, which counts its paintings."""

    paints = 0

    def paint(self, painter: QPainter, option: object, widget: QWidget | None = None) -> None:
        """As ever, counted."""
        self.paints += 1
        super().paint(painter, option, widget)


def rows() -> list[tuple[str, float, str, float, float]]:
    """What, our seconds, the peer, its seconds, ratio; a frame's 95th percentile each."""
    app = QApplication.instance() or QApplication(sys.argv[:1])
    found = []
    for count in VERTICES:
        made = dense_layout(count)
        peer = peer_frames(app, made)
        theirs = f"plain view, p95, painted {peer.outline_paints}x"
        frames = our_frames(app, made)
        if count == VERTICES[0]:
            drawn = our_frames(app, windy(made)).items()
            frames |= {f"{where} (1 kPa of wind drawn)": ours for where, ours in drawn}
        for where, ours in frames.items():
            what = f"{where} drag, {made.outline.vertex_count // 1000} 000 vertices, p95, "
            told = f"painted {ours.outline_paints}x, {ours.kept:.0%} < 16, {ours.told}"
            found.append((what + told, ours.p95, theirs, peer.p95, ours.p95 / peer.p95))
    return found


def dense_layout(vertices: int) -> layout.Layout:
    """The demo sign with so many vertices, scattered 5 um about its edge, holes proposed."""
    path = resource_path("demo", "thistledown.svg")
    sign = read.read_artwork(source.load_file(path), ReadOptions()).outline
    region = shapely.segmentize(sign.region, sign.region.length / (vertices * 1.07))
    region = shapely.transform(region, lambda xy: xy + 0.005 * np.sin(9973.0 * xy[:, ::-1]))
    outline = Outline.from_geometry(shapely.make_valid(region))
    plan = Plan(ArtworkFile("dense.svg", svg(outline)), reading=ReadOptions(tolerance_mm=0.001))
    made = layout.lay_out(plan)
    placed = propose.propose(plan, made.outline, made.axis)
    return layout.lay_out(replace(plan, holes=placed.holes), made)


def windy(made: layout.Layout) -> layout.Layout:
    """The same in 1 kPa of wind: strength is reckoned at each move, and drawn."""
    loading = replace(made.plan.loading, method="entered", pressure_out_pa=1000.0)
    return layout.lay_out(edit.with_loading(made.plan, loading), made)


def svg(outline: Outline) -> bytes:
    """The outline as a drawing of straight steps."""
    rings = [
        "M" + " ".join(f"{x:.4f},{-y:.4f}" for x, y in ring.coords[:-1]) + "Z"
        for piece in outline.pieces
        for ring in (piece.polygon.exterior, *piece.polygon.interiors)
    ]
    left, bottom, right, top = outline.bounds_mm
    width, height = right - left, top - bottom
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}mm" height="{height}mm" '
        f'viewBox="{left} {-top} {width} {height}"><path fill-rule="evenodd" d="{"".join(rings)}"/>'
        "</svg>"
    ).encode()


def our_frames(app: QApplication, made: layout.Layout) -> dict[str, Frames]:
    """Drag one hole on the canvas, then its tick on the ribbon, in the whole window."""
    with tempfile.TemporaryDirectory() as folder:
        settings = QSettings(str(Path(folder, "s.ini")), QSettings.Format.IniFormat)
        window = MainWindow(Theme(app, Choice.LIGHT), settings, Path(folder, "unsaved"))
        window.resize(1280, 800)
        window.show()
        QTest.qWaitForWindowExposed(window)
        bench = window.furnish()
        session, canvas = bench.session, bench.canvas
        session.start(made.plan)
        strength = made.plan.loading.method != "none"
        named = {stage.NAME: stage for stage in bench.stages}
        stage = named["Strength"] if strength else bench.hole_stage
        bench.rail.setCurrentRow(bench.stages.index(stage))
        while session.evaluation is None:
            app.processEvents()
        canvas.fit()
        app.processEvents()
        hole = made.plan.holes[len(made.plan.holes) // 2]
        start = canvas.mapFromScene(hole.x_mm, hole.y_mm)
        item = canvas.sign.outline
        frames = {"canvas": dragged(app, canvas.viewport(), start, lambda: item.paints)}
        ribbon = bench.ribbon
        ribbon.bring_into_view(hole.x_mm, hole.y_mm)
        app.processEvents()
        tick = next(tick for tick in ribbon.ticks if tick.mark.number == hole.number)
        start = QPoint(round(ribbon.scale.x_px(tick.run, tick.x_mm)), 60)
        frames["ribbon"] = dragged(app, ribbon.viewport(), start, lambda: item.paints)
        session.undo_stack.setClean()
        session.evaluator.wait()
        window.close()
        window.deleteLater()
        app.processEvents()
    return frames


def peer_frames(app: QApplication, made: layout.Layout) -> Frames:
    """Drag one ellipse in a plain view."""
    scene = QGraphicsScene()
    contours = shapely.get_parts(made.outline.region.boundary)
    outline = CountedPath(painter_path(np.asarray(line.coords) for line in contours))
    pen = QPen(QColor("#272c33"), 1)
    pen.setCosmetic(True)
    outline.setPen(pen)
    outline.setBrush(QBrush(QColor("#d3d8de")))
    scene.addItem(outline)
    radius = made.plan.standoff.cap_mm / 2
    for hole in made.plan.holes:
        ring = QGraphicsEllipseItem(-radius, -radius, 2 * radius, 2 * radius)
        ring.setPos(hole.x_mm, hole.y_mm)
        ring.setFlag(QGraphicsItem.GraphicsItemFlag.ItemIsMovable)
        ring.setBrush(QBrush(QColor("white")))
        scene.addItem(ring)
    view = QGraphicsView(scene)
    view.setRenderHint(QPainter.RenderHint.Antialiasing)
    view.resize(748, 638)
    view.scale(1, -1)
    view.show()
    QTest.qWaitForWindowExposed(view)
    view.fitInView(QRectF(outline.boundingRect()), Qt.AspectRatioMode.KeepAspectRatio)
    app.processEvents()
    hole = made.plan.holes[len(made.plan.holes) // 2]
    start = view.mapFromScene(hole.x_mm, hole.y_mm)
    frames = dragged(app, view.viewport(), start, lambda: outline.paints)
    view.close()
    return frames


def dragged(app: QApplication, target: QWidget, start: QPoint, paints: Callable[[], int]) -> Frames:
    """Press, move along a knot, let go; the frames after the first few."""
    send(app, target, QEvent.Type.MouseButtonPress, start)
    seconds, cpu, before = [], [], 0
    for frame in range(FRAMES + WARM_UP):
        if frame == WARM_UP:
            before = paints()
        across, up = 60 * math.sin(frame / 15), 40 * math.sin(frame / 9)
        began, reckoned = time.perf_counter(), time.process_time()
        send(app, target, QEvent.Type.MouseMove, start + QPoint(round(across), round(up)))
        app.processEvents()
        if frame >= WARM_UP:
            seconds.append(time.perf_counter() - began)
            cpu.append(time.process_time() - reckoned)
    painted = paints() - before
    send(app, target, QEvent.Type.MouseButtonRelease, start)
    app.processEvents()
    return Frames(tuple(seconds), tuple(cpu), painted)


def send(app: QApplication, target: QWidget, kind: QEvent.Type, at: QPoint) -> None:
    """One mouse event with the left button."""
    left, none = Qt.MouseButton.LeftButton, Qt.MouseButton.NoButton
    button = none if kind is QEvent.Type.MouseMove else left
    held = none if kind is QEvent.Type.MouseButtonRelease else left
    place = QPointF(at)
    where = target.mapToGlobal(place)
    keys = Qt.KeyboardModifier.NoModifier
    app.sendEvent(target, QMouseEvent(kind, place, where, button, held, keys))


if __name__ == "__main__":
    print(f"load {os.getloadavg()[0]:.1f}")
    for row in rows():
        print(row)
