"""Plate: a piece as thin triangles bent out of their plane, for shapes that are no strokes.

Discrete Kirchhoff triangles: the slopes vary quadratically, with the deflection's own slope along
each side and a linear slope across it; freedoms at each corner are the deflection and both its
slopes, as of a grillage's stations. Source: Batoz, Bathe and Ho, "A study of three-node triangular
plate bending elements", 1980 (from memory; checked against closed forms and Morley triangles).
"""

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from scipy.sparse import coo_array, csc_array

from holeplacer.geometry.curve import Points
from holeplacer.structure.rows import Rows

Floats = NDArray[np.float64]
Indices = NDArray[np.intp]


@dataclass(frozen=True, eq=False)
class Plate:
    """Triangles of one piece.

    Attributes:
        xy: (n, 2) corners.
        corners: (m, 3) triangles, anticlockwise.
        tree: Search tree of the triangles.
    """

    xy: Points
    corners: Indices
    tree: shapely.STRtree

    @staticmethod
    def of(xy: Points, corners: Indices) -> "Plate":
        """Build the search tree."""
        rings = xy[corners[:, [0, 1, 2, 0]]]
        polygons = shapely.polygons(shapely.linearrings(rings))
        return Plate(xy, corners, shapely.STRtree(np.asarray(polygons, object)))

    def stiffness(self, rigidity: float, poisson: float) -> csc_array:
        """(3n, 3n) stiffness.

        Args:
            rigidity: E t^3 / (12 (1 - nu^2)), N mm.
            poisson: nu.
        """
        law = rigidity * np.array(
            [[1.0, poisson, 0.0], [poisson, 1.0, 0.0], [0.0, 0.0, 0.5 * (1.0 - poisson)]]
        )
        area = self.area()
        local = np.zeros((len(self.corners), 9, 9))
        for middle in ((0.5, 0.5, 0.0), (0.0, 0.5, 0.5), (0.5, 0.0, 0.5)):
            bent = self._curvature(np.array(middle))
            local += np.swapaxes(bent, 1, 2) @ (law @ bent)
        local *= area[:, None, None] / 3.0
        freedom = self._freedoms()
        rows, columns = np.repeat(freedom, 9, axis=1).ravel(), np.tile(freedom, (1, 9)).ravel()
        size = 3 * len(self.xy)
        return csc_array(coo_array((local.ravel(), (rows, columns)), shape=(size, size)))

    def curvature(self) -> tuple[Rows, Rows, Rows]:
        """Curvatures w_xx, w_yy and 2 w_xy amid each triangle, as rows of the freedoms."""
        bent = self._curvature(np.full(3, 1.0 / 3.0))
        rows = [Rows(self._freedoms(), bent[:, k], 3 * len(self.xy)) for k in range(3)]
        return rows[0], rows[1], rows[2]

    def rows(self, xy: Points) -> tuple[Rows, Rows, Rows]:
        """Deflection and both slopes of points, as rows of the freedoms.

        Cubic within each triangle; every rigid movement comes out exactly, on triangles and just
        beyond them.
        """
        at = np.asarray(xy, float)
        chosen = self._located(at)
        corner = self.xy[self.corners[chosen]]
        slope = self._slopes(corner)
        share = 1.0 / 3.0 + np.einsum("kdi,kd->ki", slope, at - corner.mean(axis=1))
        value, by_share = _cubic(corner, share)
        freedom = (3 * self.corners[chosen][:, :, None] + np.arange(3)).reshape(-1, 9)
        size = 3 * len(self.xy)
        return (
            Rows(freedom, value, size),
            Rows(freedom, np.einsum("ki,kij->kj", slope[:, 0], by_share), size),
            Rows(freedom, np.einsum("ki,kij->kj", slope[:, 1], by_share), size),
        )

    def _located(self, at: Points) -> Indices:
        """Triangle each point lies in, or the nearest."""
        points = np.asarray(shapely.points(at), object)
        found = np.full(len(at), -1, np.intp)
        which, inside = self.tree.query(points, predicate="intersects")
        found[which] = inside
        off = np.flatnonzero(found < 0)
        if len(off):
            found[off] = np.asarray(self.tree.nearest(points[off]), np.intp)
        return found

    def area(self) -> Floats:
        """(m,) area of each triangle, mm2."""
        a, b, c = np.moveaxis(self.xy[self.corners], 1, 0)
        one, two = b - a, c - a
        area: Floats = 0.5 * (one[:, 0] * two[:, 1] - one[:, 1] * two[:, 0])
        return area

    def _freedoms(self) -> Indices:
        freedoms: Indices = (3 * self.corners[:, :, None] + np.arange(3)).reshape(-1, 9)
        return freedoms

    @staticmethod
    def _slopes(corner: Floats) -> Floats:
        """(k, 2, 3) d/dx and d/dy of the three area coordinates."""
        ahead, behind = np.roll(corner, -1, axis=1), np.roll(corner, -2, axis=1)
        side = behind - ahead
        twice = (ahead[:, 0, 0] - corner[:, 0, 0]) * (behind[:, 0, 1] - corner[:, 0, 1]) - (
            ahead[:, 0, 1] - corner[:, 0, 1]
        ) * (behind[:, 0, 0] - corner[:, 0, 0])
        slopes: Floats = np.stack([-side[..., 1], side[..., 0]], axis=1) / twice[:, None, None]
        return slopes

    def _curvature(self, share: Floats) -> Floats:
        """(m, 3, 9) w_xx, w_yy, 2 w_xy at one place of all triangles, by area coordinates."""
        corner = self.xy[self.corners]
        slope = self._slopes(corner)
        # quadratic shapes: three corners, then the middles of sides 0-1, 1-2, 2-0
        count = len(corner)
        shapes = np.zeros((count, 2, 6))
        for i in range(3):
            j = (i + 1) % 3
            shapes[:, :, i] = (4 * share[i] - 1) * slope[:, :, i]
            shapes[:, :, 3 + i] = 4 * (share[j] * slope[:, :, i] + share[i] * slope[:, :, j])
        gradient = _side_slopes(corner)
        bent = np.empty((count, 3, 9))
        bent[:, 0] = np.einsum("mk,mkj->mj", shapes[:, 0], gradient[:, :, 0])
        bent[:, 1] = np.einsum("mk,mkj->mj", shapes[:, 1], gradient[:, :, 1])
        bent[:, 2] = np.einsum("mk,mkj->mj", shapes[:, 1], gradient[:, :, 0]) + np.einsum(
            "mk,mkj->mj", shapes[:, 0], gradient[:, :, 1]
        )
        return bent


def _side_slopes(corner: Floats) -> Floats:
    """(m, 6, 2, 9) both slopes at corners and middles of sides, from the corners' freedoms."""
    gradient = np.zeros((len(corner), 6, 2, 9))
    for i in range(3):
        gradient[:, i, 0, 3 * i + 1] = gradient[:, i, 1, 3 * i + 2] = 1.0
    for i in range(3):
        j = (i + 1) % 3
        side = corner[:, j] - corner[:, i]
        length = np.hypot(side[:, 0], side[:, 1])
        along = side / length[:, None]
        normal = np.column_stack([-along[:, 1], along[:, 0]])
        for k, sign in ((i, -1.0), (j, 1.0)):
            gradient[:, 3 + i, :, 3 * k] = (1.5 * sign / length)[:, None] * along
            for d in range(2):
                gradient[:, 3 + i, :, 3 * k + 1 + d] = (
                    -0.25 * along[:, d, None] * along + 0.5 * normal[:, d, None] * normal
                )
    return gradient


def _cubic(corner: Floats, share: Floats) -> tuple[Floats, Floats]:
    """Deflection (k, 9) from the corners' freedoms, and its (k, 3, 9) change by area coordinate.

    The cubic of Bazeley, Cheung, Irons and Zienkiewicz (1965).
    """
    value, change = np.zeros((len(share), 9)), np.zeros((len(share), 3, 9))
    for i in range(3):
        j, k = (i + 1) % 3, (i + 2) % 3
        a, b, c = share[:, i], share[:, j], share[:, k]
        value[:, 3 * i] = a + a * a * (b + c) - a * (b * b + c * c)
        change[:, i, 3 * i] = 1 + 2 * a * (b + c) - b * b - c * c
        change[:, j, 3 * i] = a * a - 2 * a * b
        change[:, k, 3 * i] = a * a - 2 * a * c
        one, two = a * a * b + 0.5 * a * b * c, a * a * c + 0.5 * a * b * c
        for d in range(2):
            to_j, to_k = corner[:, j, d] - corner[:, i, d], corner[:, k, d] - corner[:, i, d]
            column = 3 * i + 1 + d
            value[:, column] = to_j * one + to_k * two
            half = 0.5 * (to_j + to_k)
            change[:, i, column] = 2 * a * (to_j * b + to_k * c) + half * b * c
            change[:, j, column] = to_j * a * a + half * a * c
            change[:, k, column] = to_k * a * a + half * a * b
    return value, change
