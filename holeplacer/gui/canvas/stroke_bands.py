"""Stroke bands: the strokes cut across into short stretches, each coloured by a figure's class."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from holeplacer.geometry.curve import Points
from holeplacer.medial_axis.axis import Axis

Floats = NDArray[np.float64]
Indices = NDArray[np.intp]

_SHARE = 0.86
"""Of the clear width that is coloured: a rim of metal and the cut edge stay seen."""
_STEP_MM = 4.0
_MOST = 6000
"""Stretches of a sign; a longer one gets longer stretches."""


@dataclass(frozen=True)
class Run:
    """Neighbouring stretches of one class.

    Attributes:
        colour: Class.
        corners: (n, 2) outline of them, mm.
    """

    colour: int
    corners: Points


class StrokeBands:
    """Stretches of every branch, made once for an axis.

    Attributes:
        first: (branches + 1,) the first point of each branch among all points.
        xy: (points, 2) places on the axis.
    """

    def __init__(self, axis: Axis, ways: tuple[Floats, ...]) -> None:
        """Cut the axis.

        Args:
            axis: Medial axis.
            ways: Per branch, ways along it at which figures are known.
        """
        lengths = [branch.length_mm for branch in axis.branches]
        step = max(_STEP_MM, sum(lengths) / _MOST)
        counts = [max(2, int(np.ceil(length / step))) + 1 for length in lengths]
        self.first: Indices = np.concatenate([[0], np.cumsum(counts)]).astype(np.intp)
        # Branches laid end to end on one line, so that one interpolation serves all of them.
        starts = np.concatenate([[0.0], np.cumsum(np.array(lengths) + 1.0)])
        parts = [np.linspace(0, way, count) for way, count in zip(lengths, counts, strict=True)]
        self._line = _joined([s + start for s, start in zip(parts, starts, strict=False)])
        self._known = _joined([way + start for way, start in zip(ways, starts, strict=False)])
        self.xy = _sampled(axis, parts, [branch.xy for branch in axis.branches])
        sides = [[branch.contacts[:, side] for branch in axis.branches] for side in (0, 1)]
        self._left, self._right = (
            self.xy + _SHARE * (_sampled(axis, parts, side) - self.xy) for side in sides
        )

        self._joints = self._joints_of(axis)

    @property
    def branches(self) -> int:
        """How many branches there are."""
        return len(self.first) - 1

    def figures(self, values: tuple[Floats, ...]) -> Floats:
        """Figures at every point, from those at the stations."""
        if not len(self._line):
            return np.empty(0)
        return np.interp(self._line, self._known, np.concatenate(values))

    def classes(self, figures: Floats, top: float, steps: int) -> NDArray[np.int8]:
        """Class of the stretch that begins at each point; the last point of a branch begins none.

        Args:
            figures: At every point, 0 or more.
            top: Upper end of the highest class.
            steps: Number of classes.
        """
        middle = np.append((figures[1:] + figures[:-1]) / 2, 0.0)
        middle[self.first[1:] - 1] = 0.0
        share = np.clip(middle / top * steps, 0, steps - 1)
        return share.astype(np.int8)

    def runs(self, branch: int, classes: NDArray[np.int8]) -> tuple[Run, ...]:
        """Outlines of one branch's stretches, neighbours of one class joined."""
        low, high = int(self.first[branch]), int(self.first[branch + 1]) - 1
        own = classes[low:high]
        cuts = low + np.concatenate([[0], np.flatnonzero(np.diff(own)) + 1, [high - low]])
        found = [
            Run(
                int(classes[one]),
                np.concatenate([self._left[one : two + 1], self._right[one : two + 1][::-1]]),
            )
            for one, two in zip(cuts[:-1].tolist(), cuts[1:].tolist(), strict=True)
        ]
        for at, corners in self._joints.get(branch, ()):
            found.append(Run(int(classes[at]), corners))
        return tuple(found)

    def _joints_of(self, axis: Axis) -> dict[int, list[tuple[int, Points]]]:
        """Metal between the strokes that meet at a junction, given to one of them.

        Returns:
            By branch: the stretch whose class it has, and its corners, mm.
        """
        corners: dict[int, list[Points]] = {}
        owner: dict[int, tuple[int, int]] = {}
        for index, branch in enumerate(axis.branches):
            low, high = int(self.first[index]), int(self.first[index + 1]) - 1
            for node, end, stretch in ((branch.start, low, low), (branch.end, high, high - 1)):
                if axis.degree[node] > 2:
                    corners.setdefault(node, []).extend([self._left[end], self._right[end]])
                    owner.setdefault(node, (index, stretch))
        joints: dict[int, list[tuple[int, Points]]] = {}
        for node, (index, stretch) in owner.items():
            away = np.array(corners[node]) - axis.node_xy[node]
            order = np.argsort(np.arctan2(away[:, 1], away[:, 0]))
            joints.setdefault(index, []).append((stretch, axis.node_xy[node] + away[order]))
        return joints

    def bounds(self, branch: int) -> tuple[float, float, float, float]:
        """Least x, least y, greatest x, greatest y of one branch's stretches."""
        part = slice(int(self.first[branch]), int(self.first[branch + 1]))
        both = np.concatenate([self._left[part], self._right[part]])
        (left, bottom), (right, top) = both.min(axis=0).tolist(), both.max(axis=0).tolist()
        return left, bottom, right, top


def changed_branches(bands: StrokeBands, differs: NDArray[np.bool_]) -> list[int]:
    """Branches in which something differs, (points,) given for every point."""
    if not differs.any():
        return []
    found = np.searchsorted(bands.first, np.flatnonzero(differs), "right") - 1
    return sorted(set(found.tolist()))


def _sampled(axis: Axis, parts: list[Floats], of: list[Points]) -> Points:
    """Places at the points, from those given along each branch."""
    found = [
        np.column_stack([np.interp(s, branch.s, column) for column in places.T])
        for branch, s, places in zip(axis.branches, parts, of, strict=True)
    ]
    return np.concatenate(found or [np.empty((0, 2))])


def _joined(parts: list[Floats]) -> Floats:
    return np.concatenate(parts or [np.empty(0)])
