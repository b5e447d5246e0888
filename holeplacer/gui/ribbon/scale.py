"""From places on the unrolled axis to pixels and back."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from holeplacer.gui.ribbon.unrolled import Run, Unrolled

GAP_PX = 12.0
LEAST_PX_PER_MM = 0.12
"""However long the ribbon is: a span of 300 mm is 36 pixels then, and the rest is scrolled to."""
SIDE_PX = 14.0


@dataclass(frozen=True)
class Scale:
    """Where the ribbon's pixels are.

    Strokes are a fixed gap apart, whatever the zoom.

    Attributes:
        px_per_mm: Along the axis.
        scroll_px: How far the ribbon is scrolled to the right.
        width_px: Of the view.
        height_px: Of the view.
    """

    px_per_mm: float = 1.0
    scroll_px: float = 0.0
    width_px: int = 0
    height_px: int = 0

    def left_of(self, run: Run) -> float:
        """Pixel at which a run's coordinates would have their zero."""
        return SIDE_PX + run.stroke * GAP_PX - self.scroll_px

    def x_px(self, run: Run, x_mm: float) -> float:
        """Pixel of a place of a run."""
        return self.left_of(run) + x_mm * self.px_per_mm

    def x_mm(self, run: Run, x_px: float) -> float:
        """Place of a pixel, as if it lay on this run."""
        return (x_px - self.left_of(run)) / self.px_per_mm

    def total_px(self, ribbon: Unrolled) -> float:
        """Length of the whole ribbon."""
        gaps = max(len(ribbon.main) - 1, 0) * GAP_PX
        return ribbon.length_mm * self.px_per_mm + gaps + 2 * SIDE_PX

    def fitted(self, ribbon: Unrolled) -> Scale:
        """The whole ribbon within the view, or as much of it as is legible."""
        gaps = max(len(ribbon.main) - 1, 0) * GAP_PX
        whole = (self.width_px - gaps - 2 * SIDE_PX) / max(ribbon.length_mm, 1e-6)
        return replace(self, px_per_mm=max(whole, LEAST_PX_PER_MM), scroll_px=0.0)

    def spans_px(self, ribbon: Unrolled) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        """(runs,) first and last pixel of each run."""
        left = np.array([self.x_px(run, run.start_mm) for run in ribbon.runs])
        length = np.array([run.length_mm for run in ribbon.runs])
        return left, left + length * self.px_per_mm

    def run_at(self, ribbon: Unrolled, x_px: float) -> Run | None:
        """The run at a pixel, or the nearest one; None on an empty ribbon."""
        if not ribbon.runs:
            return None
        left, right = self.spans_px(ribbon)
        away = np.maximum(np.maximum(left - x_px, x_px - right), 0.0)
        return ribbon.runs[int(np.argmin(away))]

    def visible(self, ribbon: Unrolled) -> tuple[Run, ...]:
        """Runs that are in sight."""
        left, right = self.spans_px(ribbon)
        inside = (right >= -GAP_PX) & (left <= self.width_px + GAP_PX)
        return tuple(ribbon.runs[i] for i in np.flatnonzero(inside))
