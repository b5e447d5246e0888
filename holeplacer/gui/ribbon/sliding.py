"""Sliding: from pixels of the ribbon to places on the axis, for the pointer and for holes."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

import numpy as np

from holeplacer.gui.canvas.drag import Places, Point
from holeplacer.gui.ribbon.scale import Scale
from holeplacer.gui.ribbon.ticks import Tick
from holeplacer.gui.ribbon.unrolled import Run, Unrolled
from holeplacer.medial_axis import ways

GRAB_PX = 8.0
"""A tick is grabbed from so far."""


@dataclass(frozen=True, eq=False)
class Sliding:
    """The ribbon at one zoom and scroll."""

    ribbon: Unrolled
    scale: Scale

    def tick_at(self, ticks: Iterable[Tick], x_px: float) -> Tick | None:
        """The tick at a pixel, the nearest where several are."""
        near = [(abs(self.scale.x_px(tick.run, tick.x_mm) - x_px), tick) for tick in ticks]
        away, tick = min(near, key=lambda one: one[0], default=(np.inf, None))
        return tick if away <= GRAB_PX else None

    def run_at(self, x_px: float) -> tuple[Run, float] | None:
        """The run at a pixel and the place on it; None between strokes."""
        run = self.scale.run_at(self.ribbon, x_px)
        if run is None:
            return None
        x_mm = self.scale.x_mm(run, x_px)
        slack = GRAB_PX / self.scale.px_per_mm
        inside = run.start_mm - slack <= x_mm <= run.start_mm + run.length_mm + slack
        return (run, x_mm) if inside else None

    def place(self, run: Run, x_mm: float) -> Point:
        """Where on the sign a place of a run is, mm."""
        point = self.ribbon.point(run, x_mm)
        one = ways.AxisPoints(
            np.array([point.branch]), np.array([point.s_mm]), np.array([point.node])
        )
        x, y = ways.places(self.ribbon.axis, one)[0].tolist()
        return x, y

    def x_px(self, place: Point) -> float:
        """Pixel of the axis point nearest to a place of the sign."""
        foot, _ = ways.foot(self.ribbon.axis, place)
        return self.scale.x_px(*self.ribbon.place(foot))

    def carried(self, held: Places, number: int, moved_px: float) -> Places:
        """Where a drag takes holes: the one in hand under the pointer, the others along.

        Args:
            held: Their places at the press.
            number: The hole in hand; it may change over to another stroke, the others stay on
                theirs.
            moved_px: How far the pointer went.
        """
        carried = {}
        for each, place in held.items():
            foot, _ = ways.foot(self.ribbon.axis, place)
            run, x_mm = self.ribbon.place(foot)
            x_px = self.scale.x_px(run, x_mm) + moved_px
            among = self.ribbon if each == number else self._stroke(run)
            target = self.scale.run_at(among, x_px)
            if target is not None:
                carried[each] = self.place(target, self.scale.x_mm(target, x_px))
        return carried

    def slid(self, tick: Tick, by_mm: float) -> Point:
        """Where a hole is after sliding along its stroke, stopped at its ends."""
        stroke = self._stroke(tick.run).runs
        end = stroke[-1].start_mm + stroke[-1].length_mm
        x_mm = min(max(tick.x_mm + by_mm, stroke[0].start_mm), end)
        run = next(
            run for run in stroke if x_mm <= run.start_mm + run.length_mm or run is stroke[-1]
        )
        return self.place(run, x_mm)

    def _stroke(self, run: Run) -> Unrolled:
        own = tuple(other for other in self.ribbon.runs if other.stroke == run.stroke)
        return replace(self.ribbon, runs=own)
