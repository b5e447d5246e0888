"""Keeping: what a piece's holes owe each other, besides covering: distance, and a base to hold it.

Both are kept while holes slide: each becomes a straight-line constraint for small slides, and
slides are shortened until the true figures keep it.
"""

from dataclasses import dataclass

import numpy as np
from scipy.sparse import csr_array
from scipy.spatial import cKDTree

from holeplacer.geometry.curve import Points
from holeplacer.medial_axis import ways
from holeplacer.medial_axis.axis import Axis
from holeplacer.medial_axis.ways import Floats, Indices
from holeplacer.placement.refinement import Holes
from holeplacer.rules import turning

_SLACK_MM = 1e-7
_STEP_MM = 0.05


@dataclass(frozen=True, eq=False)
class Owed:
    """What the holes of one piece keep to.

    Attributes:
        axis: The piece's axis.
        stays: (k, 2) centres of the holes that stay.
        apart_mm: Least distance between new holes; holes that stay keep theirs by the room left.
        centre: The piece's centre of gravity.
        base_mm: Least base; None if the piece has no room for two holes that far apart.
    """

    axis: Axis
    stays: Points
    apart_mm: float
    centre: tuple[float, float]
    base_mm: float | None

    def centres(self, holes: Holes) -> Points:
        """(n, 2) of the new holes."""
        return ways.places(self.axis, holes.points)

    def all_centres(self, holes: Holes) -> Points:
        """(n + k, 2) of all holes."""
        return np.concatenate([self.centres(holes), self.stays])

    def too_near(self, holes: Holes) -> Indices:
        """(p, 2) pairs of new holes nearer than allowed."""
        if len(holes) < 2:
            return np.empty((0, 2), np.intp)
        tree = cKDTree(self.centres(holes))
        pairs = tree.query_pairs(self.apart_mm - _SLACK_MM, output_type="ndarray")
        return np.asarray(pairs, np.intp)

    def held(self, holes: Holes) -> bool:
        """Whether the piece can't turn, or nothing can be done about it."""
        if self.base_mm is None:
            return True
        xy = self.all_centres(holes)
        base, _ = turning.holding(xy, self.centre)
        return base > 0 and base >= self.base_mm - _SLACK_MM

    def kept(self, holes: Holes) -> bool:
        """Both."""
        return self.held(holes) and not len(self.too_near(holes))

    def rows(self, holes: Holes, slide_mm: float) -> tuple[csr_array, Floats]:
        """Straight-line constraints `rows @ slides <= room` that keep both, for small slides."""
        xy = self.all_centres(holes)
        along = self._directions(holes)
        pairs, least = self._watched(holes, xy, slide_mm)
        apart = xy[pairs[:, 0]] - xy[pairs[:, 1]]
        distance = np.maximum(np.hypot(*apart.T), 1e-9)
        towards = apart / distance[:, np.newaxis]
        matrix = np.zeros((len(pairs), len(holes)))
        for side, sign in ((0, -1.0), (1, 1.0)):
            hole = pairs[:, side]
            new = np.flatnonzero(hole < len(holes))
            matrix[new, hole[new]] += sign * (towards[new] * along[hole[new]]).sum(axis=1)
        return csr_array(matrix), distance - least

    def _watched(self, holes: Holes, xy: Points, slide_mm: float) -> tuple[Indices, Floats]:
        """Pairs that small slides could spoil, and the distance each keeps."""
        count = len(holes)
        near = np.empty((0, 2), np.intp)
        if count > 1:
            tree = cKDTree(xy[:count])
            reach = self.apart_mm + 2 * slide_mm
            near = np.asarray(tree.query_pairs(reach, output_type="ndarray"), np.intp)
        least = np.full(len(near), self.apart_mm)
        if self.base_mm is None or len(xy) < 2:
            return near, least
        one, two = np.triu_indices(len(xy), 1)
        base = np.where(
            turning.holds(xy[one], xy[two], self.centre), np.hypot(*(xy[two] - xy[one]).T), -1.0
        )
        best = int(np.argmax(base))
        if base[best] < 0:
            return near, least
        pair = np.array([[one[best], two[best]]], np.intp)
        return np.concatenate([near, pair]), np.append(least, self.base_mm)

    def _directions(self, holes: Holes) -> Points:
        room = holes.room
        low = np.maximum(holes.s - _STEP_MM, room.low[holes.stretch])
        high = np.minimum(holes.s + _STEP_MM, room.high[holes.stretch])
        branch = room.branch[holes.stretch]
        before = ways.places(self.axis, ways.AxisPoints.on_branches(branch, low))
        after = ways.places(self.axis, ways.AxisPoints.on_branches(branch, high))
        along: Points = (after - before) / np.maximum(high - low, 1e-9)[:, np.newaxis]
        return along
