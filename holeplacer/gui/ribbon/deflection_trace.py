"""Deflection trace: how far every stroke gives, beside what it may give there."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from holeplacer.gui.canvas.plate import Line
from holeplacer.gui.ribbon.trace import Trace
from holeplacer.gui.ribbon.unrolled import Run
from holeplacer.medial_axis.axis import Axis
from holeplacer.medial_axis.ways import LONE
from holeplacer.units import LengthUnit, format_length

Floats = NDArray[np.float64]

FAR_MM = 1e9
"""Stands for no limit: a finite figure can be interpolated."""


@dataclass(frozen=True, eq=False)
class DeflectionTrace(Trace):
    """Deflection at the stations of every branch, without sign.

    Attributes:
        ways: Per branch, ways along it of the stations, mm.
        allowed: Per branch, what is allowed at each; `FAR_MM` without a limit there. Empty where
            one limit holds everywhere.
        said: The limit in words where it differs from place to place.
        top: Figure that fills the lane, the same as on the canvas.
    """

    ways: tuple[Floats, ...] = ()
    allowed: tuple[Floats, ...] = ()
    said: str = ""
    top: float = 1.0

    @property
    def live(self) -> bool:
        return True

    def height(self) -> float:
        return self.top

    def profile(self, axis: Axis, run: Run) -> tuple[Floats, Floats]:
        del axis  # the stations' ways are known here
        return self._along(run, self.values)

    @cached_property
    def all_values(self) -> Floats:
        """Figures of all branches, one after another."""
        return np.concatenate(self.values or (np.empty(0),))

    @cached_property
    def all_allowed(self) -> Floats:
        """What is allowed at each of them."""
        if self.allowed:
            return np.concatenate(self.allowed)
        return np.full(len(self.all_values), FAR_MM if self.limit is None else self.limit)

    def limits(self, run: Run) -> tuple[Floats, Floats] | None:
        """Places on the ribbon, rising, and what is allowed at each; None without a limit."""
        if self.allowed:
            return self._along(run, self.allowed)
        if self.limit is None:
            return None
        ends = np.array([run.start_mm, run.start_mm + run.length_mm])
        return ends, np.full(2, self.limit)

    def limit_words(self, unit: LengthUnit) -> str:
        return self.said or super().limit_words(unit)

    def line(self, axis: Axis, run: Run, x_mm: float, unit: LengthUnit) -> Line:
        value, limit = self.value(axis, run, x_mm), ""
        found, broken = self.limits(run), False
        if found is not None:
            allowed = float(np.interp(x_mm, *found))
            broken = value > allowed
            limit = f"≤ {format_length(allowed, unit)}" if allowed < FAR_MM else ""
        return Line(self.name, format_length(value, unit), limit, broken=broken)

    def _along(self, run: Run, of: tuple[Floats, ...]) -> tuple[Floats, Floats]:
        """Figures of a run, kept level from the branch's ends to the tips."""
        ends = np.array([run.start_mm, run.start_mm + run.length_mm])
        if run.branch == LONE:
            return ends, np.full(
                2, self.at_blob.get(run.node, 0.0) if of is self.values else np.inf
            )
        way, values = self.ways[run.branch], of[run.branch]
        begin = run.start_mm + run.before_mm
        along = begin + way
        if run.backwards:
            along, values = begin + run.axis_mm - way[::-1], values[::-1]
        return (
            np.concatenate([ends[:1], along, ends[1:]]),
            np.concatenate([values[:1], values, values[-1:]]),
        )
