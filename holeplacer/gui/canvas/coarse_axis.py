"""The axis thinned for each zoom, so that a stretch of it is a few points to draw."""

from __future__ import annotations

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import LineString

from holeplacer.geometry.curve import Points
from holeplacer.gui.canvas.paths import COARSE_PX, level_of
from holeplacer.medial_axis.axis import Axis
from holeplacer.medial_axis.routes import Part, place_at

_Kept = tuple[NDArray[np.float64], Points]
"""(k,) ways and (k, 2) places of the points of a branch that are kept."""


class CoarseAxis:
    """Copies of every branch, one per power of two of the view's scale, made on demand."""

    def __init__(self, axis: Axis) -> None:
        self._axis = axis
        self._kept: dict[tuple[int, int | None], _Kept] = {}

    def line(self, part: Part, px_per_mm: float) -> Points:
        """Points of a part in the order walked, (n, 2) mm, n >= 2.

        They stray from the axis by no more than `COARSE_PX`; both ends are exact.
        """
        s, xy = self._branch(part.branch, level_of(px_per_mm))
        low, high = min(part.from_mm, part.to_mm), max(part.from_mm, part.to_mm)
        first, last = s.searchsorted(low, "right"), s.searchsorted(high, "left")
        points = np.empty((max(int(last - first), 0) + 2, 2))
        points[0] = place_at(self._axis, part.branch, low)
        points[-1] = place_at(self._axis, part.branch, high)
        points[1:-1] = xy[first:last]
        return points if part.from_mm <= part.to_mm else points[::-1]

    def _branch(self, index: int, level: int | None) -> _Kept:
        key = (index, level)
        if key not in self._kept:
            branch = self._axis.branches[index]
            if level is None:
                self._kept[key] = (branch.s, branch.xy)
            else:
                # The way along the branch rides along as a third coordinate.
                line = LineString(np.column_stack([branch.xy, branch.s]))
                thin = shapely.simplify(line, COARSE_PX / 2 ** (level + 1), preserve_topology=False)
                kept = shapely.get_coordinates(thin, include_z=True)
                self._kept[key] = (kept[:, 2], kept[:, :2])
        return self._kept[key]
