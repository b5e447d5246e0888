"""Cells: what one piece falls into when every candidate is cut, and which cuts join which cells.

A section is a connected set of cells; dividing the piece is choosing the cuts between them.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from scipy.sparse import csr_matrix
from scipy.sparse.csgraph import connected_components
from shapely.geometry import Polygon

from holeplacer.geometry.curve import Points
from holeplacer.plan.seam import Seam
from holeplacer.seams import sections, stock_fit
from holeplacer.seams.candidates import Candidates
from holeplacer.seams.stock_fit import Usable

_BESIDE_MM = 0.01
_STEPS = 180
"""Steps of a half turn at which extents are compared at once; between them the exact test rules."""

_HALF_STEP_RAD = np.pi / _STEPS / 2


@dataclass(frozen=True, eq=False)
class Cells:
    """Cells of one piece as a graph. All arrays are read-only.

    Attributes:
        polygons: (n,) the cells.
        hulls: Corners of each cell's convex hull.
        reach: (n, 2 * steps) furthest reach of each cell in every direction of a whole turn, mm.
        row: (m,) the candidate each cut is.
        joins: (m, 2) the two cells each cut parts.
        sizes: Where sections must fit.
    """

    polygons: NDArray[np.object_]
    hulls: tuple[Points, ...]
    reach: NDArray[np.float64]
    row: NDArray[np.intp]
    joins: NDArray[np.intp]
    sizes: tuple[Usable, ...]

    def __len__(self) -> int:
        """Number of cells."""
        return len(self.polygons)

    def fits(self, members: NDArray[np.intp]) -> bool:
        """Whether these cells together fit a sheet, exactly."""
        reach = self.reach[members].max(axis=0)[None]
        if self.fits_stepwise(reach)[0]:
            return True
        if not self.may_fit(reach)[0]:
            return False
        points = np.concatenate([self.hulls[member] for member in members.tolist()])
        hull = stock_fit.corners(points)
        return stock_fit.fits(hull, self.sizes)

    def fits_stepwise(self, reach: NDArray[np.float64]) -> NDArray[np.bool_]:
        """Whether each row of reaches fits at one of the angles compared; True is certain."""
        return self._within(reach, 1e-6)

    def may_fit(self, reach: NDArray[np.float64]) -> NDArray[np.bool_]:
        """Whether each row of reaches can fit at any angle; False is certain.

        Half a step away an extent is less by no more than the diagonal times the angle.
        """
        most = max((np.hypot(size.width_mm, size.height_mm) for size in self.sizes), default=0.0)
        return self._within(reach, float(most) * 1.05 * _HALF_STEP_RAD + 1e-6)

    def parts(self, cut: NDArray[np.bool_]) -> NDArray[np.intp]:
        """(n,) the connected part each cell is in when these cuts are made."""
        whole = self.joins[~cut]
        graph = csr_matrix(
            (np.ones(len(whole)), (whole[:, 0], whole[:, 1])), shape=(len(self), len(self))
        )
        return np.asarray(connected_components(graph, directed=False)[1], np.intp)

    def _within(self, reach: NDArray[np.float64], slack_mm: float) -> NDArray[np.bool_]:
        across = reach[:, :_STEPS] + reach[:, _STEPS:]
        up = np.roll(reach, -_STEPS // 2, axis=1)
        up = up[:, :_STEPS] + up[:, _STEPS:]
        found = np.zeros(len(reach), bool)
        for size in self.sizes:
            angles = {"any": slice(None), "quarter": slice(0, _STEPS, _STEPS // 2)}.get(
                size.turning, slice(0, 1)
            )
            inside = across[:, angles] <= size.width_mm + slack_mm
            inside &= up[:, angles] <= size.height_mm + slack_mm
            found |= inside.any(axis=1)
        return found


def cells_of(
    polygon: Polygon,
    cuts: Candidates,
    rows: NDArray[np.intp],
    fixed: Sequence[Seam],
    sizes: tuple[Usable, ...],
) -> Cells:
    """Cells of one piece.

    Args:
        polygon: The piece.
        cuts: Candidates.
        rows: Those that lie in this piece and may be cut.
        fixed: Seams that are cut in any case: cells on either side of one are not joined by it.
        sizes: Where sections must fit.
    """
    seams = [cuts.seam(row) for row in rows.tolist()]
    polygons = np.array(sections.divided(polygon, [*fixed, *seams]), dtype=object)
    joins = _sides(polygons, cuts.ends[rows])
    real = (joins >= 0).all(axis=1) & (joins[:, 0] != joins[:, 1])
    hulls = tuple(stock_fit.hull_of(item) for item in polygons)
    found = Cells(polygons, hulls, _reach(hulls), rows[real], joins[real], sizes)
    for array in (found.polygons, found.reach, found.row, found.joins):
        array.setflags(write=False)
    return found


def _reach(hulls: Sequence[Points]) -> NDArray[np.float64]:
    angle = np.arange(2 * _STEPS) * np.pi / _STEPS
    direction = np.stack([np.cos(angle), np.sin(angle)])
    return np.array([(hull @ direction).max(axis=0) for hull in hulls])


def _sides(polygons: NDArray[np.object_], ends: NDArray[np.float64]) -> NDArray[np.intp]:
    """(m, 2) the cells on either side of each cut's middle, -1 where none is found."""
    way = ends[:, 1] - ends[:, 0]
    normal = np.stack([-way[:, 1], way[:, 0]], axis=1)
    normal /= np.maximum(np.hypot(way[:, 0], way[:, 1]), 1e-12)[:, None]
    tree = shapely.STRtree(polygons)
    found = np.full((len(ends), 2), -1, dtype=np.intp)
    for side, sign in enumerate((-_BESIDE_MM, _BESIDE_MM)):
        at = shapely.points(ends.mean(axis=1) + sign * normal)
        point, cell = tree.query(at, predicate="within")
        found[point, side] = cell
    return found
