"""Feet: where on its stroke each point of the metal is held, across a rigid cross-section."""

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from scipy.spatial import cKDTree

from holeplacer.geometry.curve import Points
from holeplacer.structure import beam
from holeplacer.structure.beam import FREEDOMS
from holeplacer.structure.rows import Rows
from holeplacer.structure.stations import Stations

Floats = NDArray[np.float64]
Indices = NDArray[np.intp]

SAMPLES = 8
"""Discs looked at along each beam."""
_WITHIN = 1.001
"""A point is within the disc of its foot up to rounding."""


@dataclass(frozen=True, eq=False)
class Feet:
    """Where points are held.

    Attributes:
        beam: (k,) beam each foot lies on, -1 at a lone node.
        share: (k,) place along that beam, 0 to 1.
        station: (k,) the nearer station of it.
        off: (k, 2) from foot to point, mm.
    """

    beam: Indices
    share: Floats
    station: Indices
    off: Points

    def taken(self, chosen: Indices) -> "Feet":
        """Some of them."""
        return Feet(self.beam[chosen], self.share[chosen], self.station[chosen], self.off[chosen])


@dataclass(frozen=True, eq=False)
class Strokes:
    """Stations of one piece, ready for feet.

    Attributes:
        stations: The stations.
        step: (m, 2) vector of each beam.
        tree: Search tree of the beams, None for a lone node.
        discs: Places along the beams, lifted off the plane so that the nearest is the one whose
            disc a point is deepest in: at the square root of greatest radius squared less their
            own.
    """

    stations: Stations
    step: Points
    tree: shapely.STRtree | None
    discs: cKDTree

    @staticmethod
    def of(stations: Stations) -> "Strokes":
        """Build the search trees."""
        ends = np.stack([stations.xy[stations.first], stations.xy[stations.last]], axis=1)
        tree = shapely.STRtree(np.asarray(shapely.linestrings(ends), object)) if len(ends) else None
        share = (np.arange(SAMPLES) + 0.5) / SAMPLES
        start, step = ends[:, :1], (ends[:, 1] - ends[:, 0])[:, None]
        radius = stations.clearance
        one, two = radius[stations.first][:, None], radius[stations.last][:, None]
        xy = (start + share[:, None] * step).reshape(-1, 2)
        square = radius.max() ** 2 - (one + share * (two - one)).ravel() ** 2
        discs = cKDTree(np.column_stack([xy, np.sqrt(np.maximum(square, 0.0))]))
        return Strokes(stations, ends[:, 1] - ends[:, 0], tree, discs)

    def feet(self, xy: Points) -> Feet:
        """Foot of each point of the metal.

        It is the nearest point of the axis if the point lies within the disc there. Else another
        stroke may run close by across a gap, and the foot is on the stroke whose disc the point
        lies deepest in, or least far out of.
        """
        at, stations = np.asarray(xy, float), self.stations
        if self.tree is None:
            none = np.zeros(len(at), np.intp)
            return Feet(none - 1, np.zeros(len(at)), none, at - stations.xy[none])
        chosen = np.asarray(self.tree.nearest(shapely.points(at)), np.intp).reshape(-1)
        share, off = self._on(chosen, at)
        radius = self._clearance(chosen, share)
        outside = np.flatnonzero(np.hypot(*off.T) > _WITHIN * radius)
        if len(outside):
            chosen[outside] = self._deepest(at[outside])
            share[outside], off[outside] = self._on(chosen[outside], at[outside])
        near = np.where(share < 0.5, stations.first[chosen], stations.last[chosen])
        return Feet(chosen, share, near, off)

    def _on(self, chosen: Indices, at: Points) -> tuple[Floats, Points]:
        step, start = self.step[chosen], self.stations.xy[self.stations.first[chosen]]
        square = np.maximum((step**2).sum(axis=1), 1e-300)
        share = np.clip(((at - start) * step).sum(axis=1) / square, 0.0, 1.0)
        return share, at - start - share[:, None] * step

    def _clearance(self, chosen: Indices, share: Floats) -> Floats:
        radius = self.stations.clearance
        one, two = radius[self.stations.first[chosen]], radius[self.stations.last[chosen]]
        return one + share * (two - one)

    def _deepest(self, at: Points) -> Indices:
        """The beam in one of whose discs each point lies deepest."""
        _, sample = self.discs.query(np.column_stack([at, np.zeros(len(at))]))
        return np.asarray(sample, np.intp) // SAMPLES

    def at_feet(self, feet: Feet) -> tuple[Points, Points, Points]:
        """What a force and moments on both slopes at points of the metal are at their feet.

        Returns:
            Three (k, 3), for a unit force, for unit moments on dw/dx and on dw/dy: force, moment on
            the slope along the beam, moment on the slope across it.
        """
        step = self.step[feet.beam]
        x, y = (step / np.hypot(*step.T)[:, None]).T
        along, across = feet.off[:, 0] * x + feet.off[:, 1] * y, feet.off[:, 1] * x
        across = across - feet.off[:, 0] * y
        one, none = np.ones_like(x), np.zeros_like(x)
        return (
            np.column_stack([one, along, across]),
            np.column_stack([none, x, -y]),
            np.column_stack([none, y, x]),
        )

    def rows(self, feet: Feet) -> tuple[Rows, Rows, Rows]:
        """Deflection and both slopes of points of the metal, from the freedoms of the stations.

        A cross-section of a stroke stays straight: w = w_foot + off . slope_foot. These rows give
        back every rigid movement exactly, so that loads put on with them keep force and moment.
        """
        stations = self.stations
        lone = feet.beam < 0
        chosen = np.where(lone, 0, feet.beam)
        if self.tree is None:
            first = last = feet.station
            flat = np.zeros((len(chosen), 6))
            w, gx, gy = flat.copy(), flat.copy(), flat.copy()
            w[:, 0], gx[:, 1], gy[:, 2] = 1.0, 1.0, 1.0
        else:
            first, last = stations.first[chosen], stations.last[chosen]
            step = self.step[chosen]
            w, along, across = beam.shapes(step, feet.share)
            unit = step / np.hypot(*step.T)[:, None]
            gx = unit[:, :1] * along - unit[:, 1:] * across
            gy = unit[:, 1:] * along + unit[:, :1] * across
        w = w + feet.off[:, :1] * gx + feet.off[:, 1:] * gy
        freedom = np.concatenate(
            [FREEDOMS * first[:, None] + np.arange(3), FREEDOMS * last[:, None] + np.arange(3)],
            axis=1,
        )
        size = FREEDOMS * len(stations.xy)
        return Rows(freedom, w, size), Rows(freedom, gx, size), Rows(freedom, gy, size)
