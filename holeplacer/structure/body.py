"""Body: one piece as an elastic thing, whatever it is reckoned as."""

from dataclasses import dataclass
from typing import Protocol

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import csc_array, csr_array

from holeplacer.geometry.curve import Points

Floats = NDArray[np.float64]
Indices = NDArray[np.intp]


class Attachment(Protocol):
    """Says how points of the metal move."""

    def __call__(self, xy: Points) -> tuple[csr_array, csr_array, csr_array]:
        """Deflection and slopes dw/dx, dw/dy of points from the body's freedoms, as rows."""


@dataclass(frozen=True, eq=False)
class Gauges:
    """Places where the stress is read.

    Attributes:
        xy: (g, 2) mm.
        branch: (g,) branch of the axis each belongs to, -1 for a lone node.
        station: (g,) place in that branch's stations.
        along, across, shear: (g, n) stress at the face of the sheet from the freedoms, MPa;
            `along` and `across` at right angles to each other.
    """

    xy: Points
    branch: Indices
    station: Indices
    along: csr_array
    across: csr_array
    shear: csr_array

    def stress(self, freedoms: Floats) -> Floats:
        """(g,) von Mises stress of a plane state, sqrt(x^2 - x y + y^2 + 3 s^2), MPa."""
        x, y, s = self.along @ freedoms, self.across @ freedoms, self.shear @ freedoms
        mises: Floats = np.sqrt(x * x - x * y + y * y + 3.0 * s * s)
        return mises


@dataclass(frozen=True, eq=False)
class Body:
    """One piece, out of its plane.

    Attributes:
        piece: Index of the piece.
        stiffness: (n, n) symmetric; its only weak movements are the three rigid ones.
        rigid: (n, 3) freedoms when all metal rises by 1, or tilts about `centre` by slope dw/dx
            or dw/dy of 1 / `size`.
        centre, size: What tilts are measured by, mm.
        load: (n,) forces for a pressure of 1 MPa off the wall, N.
        held: Freedoms that hold the body while it is factored; spread over it, so that no part
            reaches far from them.
        attach: How points of the metal move.
        area_mm2: Its area.
        branches: Branches of the axis it has.
        along: For each of them, deflection of its stations.
        gauges: Where the stress is read.
        metal_xy: (k, 2) points of its edge, where the greatest deflection is looked for.
        metal: (k, n) their deflection.
    """

    piece: int
    stiffness: csc_array
    rigid: Floats
    centre: Floats
    size: float
    load: Floats
    held: Indices
    attach: Attachment
    area_mm2: float
    branches: tuple[int, ...]
    along: tuple[csr_array, ...]
    gauges: Gauges
    metal_xy: Points
    metal: csr_array

    def rigid_at(self, xy: Points) -> Floats:
        """(k, 3) deflection of points in the three rigid movements."""
        away = (np.asarray(xy, float).reshape(-1, 2) - self.centre) / self.size
        return np.column_stack([np.ones(len(away)), away])
