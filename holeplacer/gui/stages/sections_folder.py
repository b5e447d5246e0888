"""Folder group: how the drawings for the table are wanted, and the act that writes them all."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QCheckBox, QPushButton

from holeplacer.documents import caution
from holeplacer.gui.divider import Divider
from holeplacer.gui.exporter import VERSIONS, Exporter
from holeplacer.gui.form import quiet
from holeplacer.gui.stages.stage import Choice, Stage

_UNITS = (("millimetres", "mm"), ("inches", "in"))
_WHAT = (
    "One drawing per sheet and one of the whole sign, the coupon with its slip, the cut list as "
    "table and paper. Each is read back and checked before it replaces another."
)


class FolderGroup(QObject):
    """Rows of a form.

    Attributes:
        wanted: The folder is to be written; ask where.
    """

    wanted = Signal()

    def __init__(self, stage: Stage, divider: Divider, exporter: Exporter) -> None:
        super().__init__(stage)
        self._divider, self._exporter = divider, exporter
        form = stage.form
        form.heading("For the cutting table")
        self._version = Choice()
        self._units = Choice()
        form.row("DXF version", self._version, "R12 for old controllers: it knows no splines")
        form.row("Drawing units", self._units)
        self.offset = QCheckBox("Paths set off by half the kerf")
        self.offset.setToolTip("Leave it off where the controller sets them off itself")
        self.leads = QCheckBox("Pierces and lead-ins drawn")
        form.wide(self.offset)
        form.wide(self.leads)
        self.write = QPushButton("Write the cut folder …")
        form.wide(self.write)
        form.wide(quiet(_WHAT))
        form.wide(quiet(caution.SHORT))
        self._version.chosen.connect(lambda value: self._want(version=value))
        self._units.chosen.connect(lambda value: self._want(units=value))
        self.offset.toggled.connect(lambda on: self._want(kerf_offset=on))
        self.leads.toggled.connect(lambda on: self._want(leads=on))
        self.write.clicked.connect(self.wanted)
        self.refresh()

    def refresh(self) -> None:
        """Show what is wanted; enable what can be written."""
        wanted = self._exporter.wanted
        self._version.offer(((name, name) for name in VERSIONS), wanted.version)
        self._units.offer(_UNITS, wanted.units)
        self.offset.setChecked(wanted.kerf_offset)
        self.leads.setChecked(wanted.leads)
        found = self._divider.division
        self.write.setEnabled(found is not None and found.layout is not None)

    def _want(self, **changes: Any) -> None:
        self._exporter.wanted = replace(self._exporter.wanted, **changes)
