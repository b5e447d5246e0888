"""Medial axis: centres of maximal inscribed discs, as a metric graph with clearance and tips."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from holeplacer.geometry.curve import Points


@dataclass(frozen=True, eq=False)
class Branch:
    """A stretch of axis between two nodes. All arrays are read-only.

    Attributes:
        start, end: Node indices; equal on a closed loop.
        piece: Index of the outline's piece it lies in.
        xy: (k, 2) points from start to end, k >= 2; the polyline strays from the true axis by
            no more than the outline's own tolerance.
        clearance: (k,) radius of the inscribed disc at each point; clear width is twice that.
        s: (k,) way along the branch from its start, mm.
        contacts: (k, 2, 2) the two outline points the disc touches, left then right of the
            direction of travel.
    """

    start: int
    end: int
    piece: int
    xy: Points
    clearance: NDArray[np.float64]
    s: NDArray[np.float64]
    contacts: NDArray[np.float64]

    @property
    def length_mm(self) -> float:
        """Way from start to end."""
        return float(self.s[-1])


@dataclass(frozen=True, eq=False)
class Tip:
    """A stroke's free end.

    Attributes:
        node: The axis end it belongs to (degree 1, or 0 for a blob).
        xy: Outermost outline point of the end's cap.
        reach_mm: Distance from the axis end to that point: what overhang adds to the way along
            the axis.
    """

    node: int
    xy: tuple[float, float]
    reach_mm: float


@dataclass(frozen=True, eq=False)
class Axis:
    """The graph. Compared and cached by identity; all arrays are read-only.

    A node is a junction (degree 3 or more), an end (degree 1), a blob (degree 0: a lone node), or
    the arbitrary start of a closed loop (degree 2).

    Attributes:
        branches: All stretches.
        node_xy: (m, 2) places of the nodes.
        node_clearance: (m,) disc radius there.
        node_piece: (m,) piece each lies in.
        tips: One per axis end; a blob has none.
    """

    branches: tuple[Branch, ...]
    node_xy: Points
    node_clearance: NDArray[np.float64]
    node_piece: NDArray[np.intp]
    tips: tuple[Tip, ...]

    @cached_property
    def degree(self) -> NDArray[np.intp]:
        """(m,) branch ends that meet at each node."""
        ends = [node for branch in self.branches for node in (branch.start, branch.end)]
        return np.bincount(np.array(ends, dtype=np.intp), minlength=len(self.node_xy))

    @property
    def length_mm(self) -> float:
        """Length of all branches."""
        return float(sum(branch.length_mm for branch in self.branches))

    @property
    def junctions(self) -> int:
        """Number of nodes where three or more branches meet."""
        return int(np.count_nonzero(self.degree >= 3))
