"""Export group: what the drawing is to carry, and the buttons that write it."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QCheckBox, QPushButton

from holeplacer.documents import caution
from holeplacer.gui.exporter import VERSIONS, Exporter
from holeplacer.gui.form import Form, quiet
from holeplacer.gui.session import Session
from holeplacer.gui.stages.stage import Choice

_UNITS = (("millimetres", "mm"), ("inches", "in"))


class ExportGroup(QObject):
    """Rows of a form.

    Attributes:
        drawing_wanted: The drawing is to be written; ask where.
        schedule_wanted: The list of holes is to be written; ask where.
    """

    drawing_wanted = Signal()
    schedule_wanted = Signal()

    def __init__(self, form: Form, session: Session, exporter: Exporter) -> None:
        super().__init__(form)
        self._session, self._exporter = session, exporter
        form.heading("For the cutting table")
        self._version = Choice()
        self._units = Choice()
        form.row("DXF version", self._version, "R12 for old controllers: it knows no splines")
        form.row("Drawing units", self._units)
        self._numbers = QCheckBox("Hole numbers on the mark layer")
        self._marks = QCheckBox("Centre marks in holes that are cut")
        form.wide(self._numbers)
        form.wide(self._marks)
        self._drawing = QPushButton("Export drawing (DXF) …")
        self._schedule = QPushButton("Export hole list (CSV) …")
        form.wide(self._drawing)
        form.wide(self._schedule)
        self._note = quiet("Written files are read back and checked before they replace others.")
        form.wide(self._note)
        form.wide(quiet(caution.SHORT))
        self._version.offer(((name, name) for name in VERSIONS), exporter.wanted.version)
        self._units.offer(_UNITS, exporter.wanted.units)
        self._numbers.setChecked(exporter.wanted.numbers)
        self._marks.setChecked(exporter.wanted.centre_marks)
        self._version.chosen.connect(lambda value: self._want(version=value))
        self._units.chosen.connect(lambda value: self._want(units=value))
        self._numbers.toggled.connect(lambda on: self._want(numbers=on))
        self._marks.toggled.connect(lambda on: self._want(centre_marks=on))
        self._drawing.clicked.connect(self.drawing_wanted)
        self._schedule.clicked.connect(self.schedule_wanted)

    def refresh(self) -> None:
        """Enable what can be written."""
        ready = self._exporter.ready
        self._drawing.setEnabled(ready)
        self._schedule.setEnabled(ready)

    def _want(self, **changes: Any) -> None:
        self._exporter.wanted = replace(self._exporter.wanted, **changes)
