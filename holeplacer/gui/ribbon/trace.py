"""Traces: what is drawn over the unrolled axis, one lane each; the first is the clear width."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from holeplacer.gui.canvas.plate import Line
from holeplacer.gui.ribbon.unrolled import Run
from holeplacer.medial_axis.axis import Axis
from holeplacer.medial_axis.ways import LONE
from holeplacer.units import LengthUnit, format_length

_BLOB_STEPS = 33
_CAP_STEPS = 13
_CROWD = 2.5


@dataclass(frozen=True, eq=False)
class Trace:
    """A figure at every point of the axis.

    Attributes:
        name: What it is, in words.
        values: Per branch, (k,) along the branch's own points, mm.
        at_blob: Per lone node, its figure, mm.
        limit: What it is held to; None without one.
        at_least: The figure must be at least the limit (else at most).
        round_ends: Caps and blobs are drawn round, as the discs they are, not as level lines.
    """

    name: str
    values: tuple[NDArray[np.float64], ...]
    at_blob: dict[int, float]
    limit: float | None = None
    at_least: bool = True
    round_ends: bool = False

    @property
    def live(self) -> bool:
        """Whether it changes while a hole is dragged, so that it is painted part by part."""
        return False

    def profile(self, axis: Axis, run: Run) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        """Places on the ribbon, rising, and the figure at each."""
        if run.branch == LONE:
            return self._blob(run)
        branch, values = axis.branches[run.branch], self.values[run.branch]
        along = run.start_mm + run.before_mm + branch.s
        if run.backwards:
            along = run.start_mm + run.before_mm + run.axis_mm - branch.s[::-1]
            values = values[::-1]
        before = self._cap(run.start_mm + run.before_mm, -run.before_mm, float(values[0]))
        after = self._cap(run.start_mm + run.before_mm + run.axis_mm, run.after_mm,
                          float(values[-1]))  # fmt: skip
        return (
            np.concatenate([before[0][::-1], along, after[0]]),
            np.concatenate([before[1][::-1], values, after[1]]),
        )

    def value(self, axis: Axis, run: Run, x_mm: float) -> float:
        """The figure at one place of a run."""
        places, values = self.profile(axis, run)
        return float(np.interp(x_mm, places, values))

    def line(self, axis: Axis, run: Run, x_mm: float, unit: LengthUnit) -> Line:
        """The figure at one place beside its limit, in words."""
        value = self.value(axis, run, x_mm)
        broken = bool(self.breaks(np.array([value]))[0])
        return Line(self.name, format_length(value, unit), self.limit_words(unit), broken=broken)

    def breaks(self, values: NDArray[np.float64]) -> NDArray[np.bool_]:
        """Which figures break the limit."""
        if self.limit is None:
            return np.zeros(values.shape, bool)
        return values < self.limit if self.at_least else values > self.limit

    def height(self) -> float:
        """Figure that fills the lane: the greatest, unless a few tower above all others."""
        values = np.concatenate([*self.values, np.array(list(self.at_blob.values())), [0.0]])
        usual = float(np.percentile(values, 95)) * 1.15
        top = min(float(values.max()), _CROWD * usual)
        return max(top, 1.25 * (self.limit or 0.0), 1e-6)

    def limit_words(self, unit: LengthUnit) -> str:
        """The limit with its sign and unit; empty without one."""
        if self.limit is None:
            return ""
        return f"{'≥' if self.at_least else '≤'} {format_length(self.limit, unit)}"

    def _cap(
        self, from_mm: float, reach_mm: float, value: float
    ) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        """What lies beyond an axis end, as far as its tip: a rounded cap, or a level line."""
        if reach_mm == 0.0:
            return np.empty(0), np.empty(0)
        share = np.linspace(0.0, 1.0, _CAP_STEPS)[1:]
        level = np.full(len(share), value)
        return from_mm + share * reach_mm, value * np.sqrt(
            1 - share**2
        ) if self.round_ends else level

    def _blob(self, run: Run) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        share = np.linspace(-1.0, 1.0, _BLOB_STEPS)
        places = run.start_mm + (share + 1.0) / 2 * run.length_mm
        value = self.at_blob[run.node]
        if self.round_ends:
            return places, value * np.sqrt(1.0 - share**2)
        return places, np.full(_BLOB_STEPS, value)


def clear_width(axis: Axis, needed_mm: float | None) -> Trace:
    """Clear width, held to what a hole needs: twice the least edge distance."""
    lone = np.flatnonzero(axis.degree == 0).tolist()
    return Trace(
        name="clear width",
        values=tuple(2 * branch.clearance for branch in axis.branches),
        at_blob={node: 2 * float(axis.node_clearance[node]) for node in lone},
        limit=needed_mm,
        round_ends=True,
    )


def alike(one: tuple[Trace, ...], two: tuple[Trace, ...]) -> bool:
    """Whether traces differ in their figures alone: same lanes, same limits, same height."""
    return (
        len(one) == len(two)
        and all(
            (first.name, first.live, first.limit, first.height())
            == (second.name, second.live, second.limit, second.height())
            for first, second in zip(one, two, strict=True)
        )
        and all(trace.live for trace in two)
    )
