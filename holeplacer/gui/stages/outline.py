"""Outline: the artwork at its true size, level, and what became of everything in its file."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QSignalBlocker
from PySide6.QtWidgets import QCheckBox, QDoubleSpinBox, QLabel, QPushButton, QWidget

from holeplacer.errors import HoleplacerError, UnitsMissing
from holeplacer.gui.form import Disclosure, ErrorLine, quiet
from holeplacer.gui.rail import StageState
from holeplacer.gui.session import Point, Session
from holeplacer.gui.stages.account_list import AccountList
from holeplacer.gui.stages.known_distance import KnownDistanceForm
from holeplacer.gui.stages.layer_list import LayerList
from holeplacer.gui.stages.stage import Choice, Stage, show_number
from holeplacer.gui.stages.units_question import UnitsQuestion
from holeplacer.gui.workers import Task
from holeplacer.units import DRAWING_UNITS_MM, format_area, format_length, format_way

if TYPE_CHECKING:
    from holeplacer.artwork.artwork import ArtworkFile
    from holeplacer.artwork.options import KnownDistance, ReadOptions
    from holeplacer.evaluation.layout import Layout
    from holeplacer.plan.plan import Plan


class OutlineStage(Stage):
    """How the artwork is read: units, layers, size, level, strokes, curves."""

    NAME = "Outline"

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self._sized: tuple[ArtworkFile, tuple[float, float]] | None = None
        self._build_question()
        self._build_size()
        self._build_level()
        self._build_strokes()
        self._build_account()
        self.form.end()
        session.problem_changed.connect(self._ask_units)

    # --- parts ---

    def _build_question(self) -> None:
        self._problem = ErrorLine()
        self.form.wide(self._problem)
        self._question = UnitsQuestion()
        self._question.answered.connect(self._choose_units)
        self._question.setVisible(False)
        self.form.wide(self._question)
        self.form.heading("Artwork")
        self._facts = quiet()
        self.form.wide(self._facts)
        self._units = Choice()
        self._units_row = self.form.row("Drawn in", self._units)
        self._units.chosen.connect(self._choose_units)
        self._layers_title = QLabel("Layers that are read")
        self.form.wide(self._layers_title)
        self._layers = LayerList()
        self._layers.chosen.connect(self._choose_layers)
        self.form.wide(self._layers)
        for part in (self._layers_title, self._layers):
            part.setVisible(False)

    def _build_size(self) -> None:
        self.form.heading("Size")
        self._width = self.length(
            "Overall width",
            lambda plan: plan.reading.width_mm,
            lambda plan, mm: self._sized_by(plan, width_mm=mm),
            least_mm=1.0,
            step_mm=10.0,
            empty="as drawn",
        )
        self._height = self.length(
            "Overall height",
            lambda plan: plan.reading.height_mm,
            lambda plan, mm: self._sized_by(plan, height_mm=mm),
            least_mm=1.0,
            step_mm=10.0,
            empty="as drawn",
        )
        self._known = KnownDistanceForm(self.session)
        self._known.entered.connect(self._choose_known)
        self.form.wide(Disclosure("Scale by a known distance", self._known))
        self.form.wide(self._known)
        self._as_drawn = QPushButton("Back to the drawn size")
        self._as_drawn.clicked.connect(self._back_to_drawn)
        self.form.wide(self._as_drawn)

    def _build_level(self) -> None:
        self.form.heading("Level")
        self._angle = QDoubleSpinBox()
        self._angle.setRange(-180.0, 180.0)
        self._angle.setDecimals(2)
        self._angle.setSingleStep(0.1)
        self._angle.setSuffix("°")
        self._angle.setKeyboardTracking(False)
        self._angle.valueChanged.connect(self._choose_angle)
        self.form.row("Turned by", self._angle, "anticlockwise, about the drawing's origin")
        pick = QPushButton("Pick two points that shall be level …")
        pick.clicked.connect(self._pick_level)
        self.form.wide(pick)
        self._mirror = QCheckBox("Mirrored left to right")
        self._mirror.toggled.connect(self._choose_mirror)
        self.form.wide(self._mirror)

    def _build_strokes(self) -> None:
        self.form.heading("Strokes and curves")
        self._offset = self.length(
            "Offset of all strokes",
            lambda plan: plan.offset_mm,
            lambda plan, mm: replace(plan, offset_mm=mm or 0.0),
            least_mm=-50.0,
            most_mm=50.0,
            step_mm=0.1,
        )
        self._offset.say("fatter on every side; below zero thinner")
        self._tolerance = self.length(
            "Curve tolerance",
            lambda plan: plan.reading.tolerance_mm,
            lambda plan, mm: self._read_by(plan, tolerance_mm=mm),
            least_mm=0.001,
            most_mm=1.0,
            step_mm=0.01,
        )
        self._tolerance.say("furthest a flattened curve strays; the drawing that goes out keeps "
                            "its own curves")  # fmt: skip
        self._chain = self.length(
            "Gaps closed",
            lambda plan: plan.reading.chain_mm,
            lambda plan, mm: self._read_by(plan, chain_mm=mm),
            most_mm=10.0,
            step_mm=0.05,
        )
        self._chain.say("ends of lines no further apart are joined")

    def _build_account(self) -> None:
        self.form.heading("What became of the file")
        self._account = AccountList()
        self._account.place_wanted.connect(self.session.place_shown)
        self.form.wide(self._account)
        self._account_note = quiet("→ has a place on the sign; choose it to go there")
        self.form.wide(self._account_note)

    # --- showing ---

    def state(self) -> StageState:
        layout, problem = self.session.layout, self.session.problem
        if problem is not None:
            word = "question" if isinstance(problem, UnitsMissing) else "problem"
            return StageState(self.NAME, "units missing" if word == "question" else "can't be read",
                              1, word, ready=True)  # fmt: skip
        if layout is None:
            return StageState(self.NAME)
        width, height = _size(layout.outline.bounds_mm)
        return StageState(self.NAME, f"{self.shown(width)} × {self.shown(height)}", ready=True)

    def show_plan(self, plan: Plan) -> None:
        layout, problem = self.session.layout, self.session.problem
        asking = isinstance(problem, UnitsMissing)
        self._question.setVisible(asking)
        self._problem.say("" if problem is None or asking else str(problem))
        if asking:
            self._question.show_sizes(self._size_of(plan.artwork), self.session.unit)
        reading = plan.reading
        show_number(self._angle, math.degrees(reading.rotation_rad))
        with QSignalBlocker(self._mirror):
            self._mirror.setChecked(reading.mirror)
        self._as_drawn.setEnabled(_is_scaled(reading))
        self._known.show_reading(reading, layout)
        if layout is not None:
            self._show_layout(plan, layout)

    def _show_layout(self, plan: Plan, layout: Layout) -> None:
        outline, axis, artwork = layout.outline, layout.axis, layout.artwork
        width, height = _size(outline.bounds_mm)
        unit = self.session.unit
        for row, value in ((self._width, width), (self._height, height)):
            row.say(f"is {format_length(value, unit)}")
        counters = sum(piece.counters for piece in outline.pieces)
        self._facts.say(
            f"{plan.artwork.name}\n"
            f"{_count(len(outline.pieces), 'piece')}, {_count(counters, 'counter')}, "
            f"{_count(len(axis.tips), 'tip')}\n"
            f"cut edge {format_way(outline.perimeter_mm, unit)}, "
            f"strokes {format_way(axis.length_mm, unit)}, "
            f"metal {format_area(outline.area_mm2, unit)}"
        )
        entries: list[tuple[str, str | None]] = [(name, name) for name in DRAWING_UNITS_MM]
        if artwork.units_stated:
            as_stated = "as stated" if plan.reading.units else f"{artwork.units}, as stated"
            entries.insert(0, (as_stated, None))
        self._units.offer(entries, plan.reading.units)
        factor = _factor(artwork.scale, artwork.units)
        self._units_row.say(f"1 {artwork.units} of the drawing is {factor} mm on the sign")
        layers = tuple(layer for layer in artwork.layers if layer[1])
        self._layers.setVisible(len(layers) > 1)
        self._layers_title.setVisible(len(layers) > 1)
        self._layers.show_layers(layers, plan.reading.layers)
        self._account.show_account(artwork.account, layout.changes)

    def _ask_units(self) -> None:
        """Measure the drawing in its own units, so that each answer shows its size."""
        plan = self.session.plan
        if plan is None or not isinstance(self.session.problem, UnitsMissing):
            return
        if self._size_of(plan.artwork) is not None:
            return
        file, reading = plan.artwork, plan.reading

        def work(_task: Task[Any]) -> tuple[float, float]:
            from holeplacer.artwork import read

            plain = replace(reading, units="mm", width_mm=None, height_mm=None, known=None)
            return _size(read.read_artwork(file, plain).outline.bounds_mm)

        def measured(size: tuple[float, float]) -> None:
            self._sized = (file, size)
            self.refresh_soon()

        self.session.evaluator.run("Measuring the drawing", work, measured, self._not_measured)

    def _size_of(self, file: ArtworkFile) -> tuple[float, float] | None:
        """Width and height in drawing units, once they are measured."""
        return self._sized[1] if self._sized is not None and self._sized[0] == file else None

    def _not_measured(self, error: HoleplacerError) -> None:
        self._problem.say(str(error))

    # --- deciding ---

    def push(self, plan: Plan, text: str, source: QWidget | None = None) -> None:
        """Commit a plan; if its artwork is read otherwise, holes are carried along."""
        committed = self.session.committed
        if committed is not None and plan.reading != committed.reading:
            self.session.read_anew(plan.reading, text)
        else:
            super().push(plan, text, source)

    def _read_by(self, plan: Plan, **changes: Any) -> Plan:
        return replace(plan, reading=replace(plan.reading, **changes))

    def _sized_by(self, plan: Plan, **size: float | KnownDistance | None) -> Plan:
        """One way of scaling takes the place of another."""
        plain = {"width_mm": None, "height_mm": None, "known": None, "scale": 1.0}
        return self._read_by(plan, **{**plain, **size})

    def _read_anew(self, text: str, **changes: Any) -> None:
        plan = self.session.committed
        if plan is not None:
            self.push(self._read_by(plan, **changes), text)

    def _choose_units(self, name: str | None) -> None:
        text = "Take the units the file states" if name is None else f"Read 1 unit as 1 {name}"
        self._read_anew(text, units=name)

    def _choose_layers(self, names: tuple[str, ...]) -> None:
        self._read_anew("Choose layers", layers=names)

    def _choose_known(self, known: KnownDistance) -> None:
        plan = self.session.committed
        if plan is not None:
            self.push(self._sized_by(plan, known=known), "Scale by a known distance")

    def _back_to_drawn(self) -> None:
        plan = self.session.committed
        if plan is not None:
            self.push(self._sized_by(plan), "Go back to the drawn size")

    def _choose_angle(self, degrees: float) -> None:
        self._read_anew(f"Turn to {degrees:.2f}°", rotation_rad=math.radians(degrees))

    def _choose_mirror(self, mirror: bool) -> None:
        self._read_anew("Mirror" if mirror else "Undo mirroring", mirror=mirror)

    def _pick_level(self) -> None:
        self.session.ask_points("Click two points that shall be level", 2, self._level_by)

    def _level_by(self, points: tuple[Point, ...]) -> None:
        plan = self.session.committed
        (x1, y1), (x2, y2) = points
        if plan is None or (x1, y1) == (x2, y2):
            return
        slope = math.remainder(math.atan2(y2 - y1, x2 - x1), math.pi)
        turned = math.remainder(plan.reading.rotation_rad - slope, 2 * math.pi)
        self._read_anew("Level by two points", rotation_rad=turned)


def _size(bounds: tuple[float, float, float, float]) -> tuple[float, float]:
    left, bottom, right, top = bounds
    return right - left, top - bottom


def _is_scaled(reading: ReadOptions) -> bool:
    sizes = (reading.width_mm, reading.height_mm, reading.known)
    return reading.scale != 1.0 or any(size is not None for size in sizes)


def _count(number: int, what: str) -> str:
    return f"{number} {what}" if number == 1 else f"{number} {what}s"


def _factor(scale: float, units: str) -> str:
    return f"{scale * DRAWING_UNITS_MM[units]:.6g}"
