"""Body: one piece as an elastic thing, whatever it is reckoned as."""

from dataclasses import dataclass
from functools import cached_property
from typing import Protocol

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.sparse import csc_array, csr_array
from shapely.geometry import Polygon

from holeplacer.geometry.curve import Points
from holeplacer.structure.rows import Rows

Floats = NDArray[np.float64]
Indices = NDArray[np.intp]


class Attachment(Protocol):
    """Says how points of the metal move."""

    def __call__(self, xy: Points) -> tuple[Rows, Rows, Rows]:
        """Three movements of points from the body's freedoms.

        Out of the plane they are the deflection and the slopes dw/dx, dw/dy; within it the
        movements along x and y and the turn.
        """


class AtPoints(Protocol):
    """What point loads do to the stress between the freedoms."""

    def added(self, plain: Floats, xy: Points, forces: Floats) -> tuple[Floats, Indices, Floats]:
        """Components of all gauges with theirs, the gauges nearest to them, their peaks there."""


@dataclass(frozen=True, eq=False)
class Gauges:
    """Places where the stress is read.

    Attributes:
        xy: (g, 2) mm.
        components: (3g, n) stress at the face of the sheet from the freedoms, MPa: along, across
            (at right angles to it) and shear of every gauge in turn.
        preset: (3g,) what the pressure adds to them that acts between the freedoms.
        mean: (g, g) what each component is averaged with; None: by itself.
        points: What standoffs add that hold the body between its freedoms; None: nothing, they are
            averaged over.
        station: (p,) stations of the body, in order, each as often as it has gauges.
        gauge: (p,) one of its gauges.
    """

    xy: Points
    components: csr_array
    preset: Floats
    mean: csr_array | None
    points: AtPoints | None
    station: Indices
    gauge: Indices

    def stress(self, freedoms: Floats, xy: Points, forces: Floats) -> Floats:
        """(g,) von Mises stress of a plane state, sqrt(x^2 - x y + y^2 + 3 s^2), MPa.

        A gauge speaks for a standoff beside it, too, if there is more at that.

        Args:
            freedoms: Movements under 1 MPa off the wall.
            xy: (k, 2) standoffs.
            forces: (k, 1 or 3) what they pull back with, and their moments on both slopes.
        """
        plain = (self.components @ freedoms + self.preset).reshape(3, -1)
        if self.points is None:
            x, y, s = plain if self.mean is None else (self.mean @ plain.T).T
            return _mises(x, y, s)
        plain, beside, peaks = self.points.added(plain, xy, forces)
        found = _mises(*plain)
        np.maximum.at(found, beside, peaks)
        return found

    def along_strokes(self, stress: Floats, stations: int) -> Floats:
        """(stations,) the greatest stress at each station's gauges."""
        greatest = np.zeros(stations)
        if len(self.station):
            owners, first = self._runs
            greatest[owners] = np.maximum.reduceat(stress[self.gauge], first)
        return greatest

    @cached_property
    def _runs(self) -> tuple[Indices, Indices]:
        owners, first = np.unique(self.station, return_index=True)
        return owners, first


def _mises(x: Floats, y: Floats, s: Floats) -> Floats:
    return np.asarray(np.sqrt(np.maximum(x * x - x * y + y * y + 3.0 * s * s, 0.0)), float)


@dataclass(frozen=True, eq=False)
class Place:
    """Where a piece is and how large: what its rigid movements are measured by.

    Attributes:
        centre: (2,) its centre of gravity.
        size_mm: Half the diagonal of its bounds.
        area_mm2: Its area.
    """

    centre: Floats
    size_mm: float
    area_mm2: float

    @staticmethod
    def of(polygon: Polygon) -> "Place":
        """Of a piece's metal."""
        left, bottom, right, top = polygon.bounds
        centre = np.array([polygon.centroid.x, polygon.centroid.y])
        return Place(centre, 0.5 * float(np.hypot(right - left, top - bottom)), polygon.area)

    def rigid_at(self, xy: ArrayLike) -> Floats:
        """(k, 3) deflection of points where all metal rises by 1, or tilts by 1 over the size."""
        away = (np.asarray(xy, float).reshape(-1, 2) - self.centre) / self.size_mm
        return np.column_stack([np.ones(len(away)), away])


def rigid(xy: Points, place: Place) -> Floats:
    """(3k, 3) deflection and slopes of points in the three rigid movements.

    Args:
        xy: (k, 2) points with three freedoms each.
        place: Of their piece.
    """
    moved = np.zeros((3 * len(xy), 3))
    moved[::3] = place.rigid_at(xy)
    moved[1::3, 1] = moved[2::3, 2] = 1.0 / place.size_mm
    return moved


@dataclass(frozen=True, eq=False)
class Elastic:
    """One piece as an elastic thing, out of its plane or within it.

    Attributes:
        place: Where it is and how large.
        stiffness: (n, n) symmetric; its only weak movements are the three rigid ones.
        rigid: (n, 3) freedoms in these.
        load: (n,) forces for a load of 1 N/mm2 over all metal, N.
        held: Freedoms that hold the body while it is factored; spread over it, so that no part
            reaches far from them.
        attach: How points of the metal move.
    """

    place: Place
    stiffness: csc_array
    rigid: Floats
    load: Floats
    held: Indices
    attach: Attachment


@dataclass(frozen=True, eq=False)
class Body(Elastic):
    """One piece out of its plane, under pressure off the wall.

    Attributes:
        piece: Index of the piece.
        branches: Branches of the axis it has.
        first: (b + 1,) where the stations of each of them begin, all laid out in a row.
        along_xy: (s, 2) places of all stations in that row.
        along: Their deflection.
        gauges: Where the stress is read.
        metal_xy: (k, 2) points of it, its edge at least, where the greatest deflection is
            looked for.
        metal: Their deflection.
    """

    piece: int
    branches: tuple[int, ...]
    first: Indices
    along_xy: Points
    along: Rows
    gauges: Gauges
    metal_xy: Points
    metal: Rows
