"""The outline as arrays of straight segments, about a local origin, ready for foot points."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely
from numpy.typing import NDArray

from holeplacer.geometry.curve import Points

Indices = NDArray[np.intp]
Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]
Complexes = NDArray[np.complex128]

THINNING_MM = 0.005
"""Where vertices lie dense, those that move the contour by less than this are left out."""
THINNING = 3e-4
"""The same in half mean stroke widths, for small outlines."""
MANY = 5_000
"""Fewer vertices than this are never thinned: it would gain nothing."""
DENSE = 0.1
"""Mean step, in half mean stroke widths, below which an outline counts as dense."""
NEARER = 1.0 - 1e-9
"""A foot moves on only if that brings it nearer than by rounding."""
LONGEST_WALK = 64
"""Segments a foot may pass on its way to the nearest."""
LONGEST_LEAP = 0.75
"""How far a foot may leap from segment to segment, in distances to it."""


@dataclass(frozen=True, eq=False)
class Boundary:
    """Segments of all rings, metal to the left. A ring's segments are consecutive.

    Attributes:
        start: (n, 2) first point of each segment, about `origin`.
        step: (n, 2) vector to its last point.
        length: (n,) its length, > 0.
        following, previous: (n,) neighbouring segments on the ring.
        ring: (n,) ring of each segment.
        way: (n,) way along the ring to its first point.
        ring_first: (m,) first segment of each ring.
        ring_count: (m,) segments of each ring.
        ring_length: (m,) perimeter of each ring.
        ring_part: (m,) part of the region each ring bounds.
        part_width: (p,) area by perimeter of each part: half the mean stroke width.
        part_piece: (p,) piece of the outline that each part is, or was cut from.
        origin: (2,) what was taken off all coordinates.
        slack_mm: How far the contour may lie from the drawn one.
    """

    start: Points
    step: Points
    length: Floats
    following: Indices
    previous: Indices
    ring: Indices
    way: Floats
    ring_first: Indices
    ring_count: Indices
    ring_length: Floats
    ring_part: Indices
    part_width: Floats
    part_piece: Indices
    origin: Floats
    slack_mm: float

    def feet(self, segment: Indices, at: Points) -> tuple[Points, Floats]:
        """Nearest point of one segment to each point, and its distance.

        Args:
            segment: (k,) segments.
            at: (k, 2) points about the origin.
        """
        foot, distance = self._feet(segment, np.ascontiguousarray(at).view(complex)[:, 0])
        return foot.view(float).reshape(-1, 2), distance

    def _feet(self, segment: Indices, at: Complexes) -> tuple[Complexes, Floats]:
        """The same with points of the plane as complex numbers, which is much quicker."""
        start, step, scale = self._lines
        step = step.take(segment)
        foot = start.take(segment)
        away = at - foot
        along = (away.real * step.real + away.imag * step.imag) * scale.take(segment)
        foot += np.clip(along, 0.0, 1.0, out=along) * step
        return foot, np.abs(at - foot)

    @cached_property
    def _lines(self) -> tuple[Complexes, Complexes, Floats]:
        start, step = (
            np.ascontiguousarray(xy).view(complex)[:, 0] for xy in (self.start, self.step)
        )
        return start, step, 1.0 / np.maximum(self.length, 1e-150) ** 2

    def nearest_by(self, segment: Indices, at: Points) -> Indices:
        """Walk along the ring, from the given segments, to one that is locally nearest.

        The foot may pass small corners on the way, as flattened arcs have them, but never leaps
        by more than `LONGEST_LEAP`: round a square corner lies another side.
        """
        segment = segment.copy()
        place = np.ascontiguousarray(at).view(complex)[:, 0]
        foot, distance = self._feet(segment, place)
        active = np.arange(len(segment))
        for _ in range(LONGEST_WALK):
            moved = np.zeros(len(active), bool)
            here = segment[active]
            for there in (self.previous[here], self.following[here]):
                other_foot, other = self._feet(there, place)
                better = other < NEARER * distance[active]
                better &= np.abs(other_foot - foot[active]) <= LONGEST_LEAP * distance[active]
                which = active[better]
                segment[which], distance[which] = there[better], other[better]
                foot[which] = other_foot[better]
                moved |= better
            active, place = active[moved], place[moved]
            if not len(active):
                break
        return segment

    def way_between(self, segment: Indices, foot: Floats) -> Floats:
        """Way along the ring between points of two segments, the shorter way round.

        Args:
            segment: (k, 2 or more) segments, of which the first two are looked at.
            foot: (k, 2 or more, 2) a point of each.

        Returns:
            (k,) mm; infinite between different rings.
        """
        one, other = segment[:, 0], segment[:, 1]
        around = np.abs(self.way_to(one, foot[:, 0]) - self.way_to(other, foot[:, 1]))
        ring = self.ring[one]
        around = np.minimum(around, self.ring_length[ring] - around)
        return np.where(self.ring[other] == ring, around, np.inf)

    def on_metal_side(self, segment: Indices, at: Points) -> Flags:
        """(k,) whether points are on the metal's side of the contour next to one segment each.

        The nearest point of a contour is an inner corner of the metal only from the metal's side.
        """
        away, step = at - self.start[segment], self.step[segment]
        along = (away * step).sum(axis=1)
        inside: Flags = step[:, 0] * away[:, 1] - step[:, 1] * away[:, 0] > 0.0
        inside |= (along <= 0.0) & self._inner_corner[segment]
        beyond = along >= self.length[segment] ** 2
        inside |= beyond & self._inner_corner[self.following[segment]]
        return inside

    @cached_property
    def _inner_corner(self) -> Flags:
        """Whether the contour turns away from the metal where each segment starts."""
        before = self.step[self.previous]
        inner: Flags = before[:, 0] * self.step[:, 1] - before[:, 1] * self.step[:, 0] < 0.0
        return inner

    def at_way(self, ring: Indices, way: Floats) -> tuple[Indices, Floats]:
        """Segments on which points of rings lie, and how far along them, 0 to 1."""
        before = np.cumsum(self.ring_length) - self.ring_length
        total = before[self.ring] + self.way
        segment = np.searchsorted(total, before[ring] + way, side="right") - 1
        segment = np.clip(
            segment, self.ring_first[ring], self.ring_first[ring] + self.ring_count[ring] - 1
        )
        share = (way - self.way[segment]) / self.length[segment]
        return segment, np.clip(share, 0.0, 1.0)

    @cached_property
    def tree(self) -> shapely.STRtree:
        """Search tree of all segments."""
        ends = np.stack((self.start, self.start + self.step), axis=1)
        return shapely.STRtree(np.asarray(shapely.linestrings(ends), dtype=object))

    def part_of(self, segment: Indices) -> Indices:
        """Part that segments bound."""
        return self.ring_part[self.ring[segment]]

    def piece_of(self, segment: Indices) -> Indices:
        """Piece of the outline that segments bound."""
        return self.part_piece[self.part_of(segment)]

    def way_to(self, segment: Indices, foot: Points) -> Floats:
        """Way along the ring to a point of a segment."""
        away = foot - self.start[segment]
        return self.way[segment] + np.hypot(away[:, 0], away[:, 1])


def boundary_of(
    region: shapely.MultiPolygon, part_piece: Indices, slack_mm: float = 0.0
) -> Boundary:
    """Segments of a valid region; dense rings are thinned first.

    Args:
        region: The metal.
        part_piece: (p,) piece of the outline that each polygon of the region belongs to.
        slack_mm: How far the region's contours lie from the drawn ones.
    """
    origin = np.array(region.bounds).reshape(2, 2).mean(axis=0)
    thin, moved = _thinned(region)
    parts = shapely.orient_polygons(shapely.get_parts(thin))
    rings, ring_part = shapely.get_rings(parts, return_index=True)
    xy, ring = shapely.get_coordinates(rings, return_index=True)
    same = ring[1:] == ring[:-1]
    step = np.diff(xy, axis=0)
    length = np.hypot(step[:, 0], step[:, 1])
    keep = np.flatnonzero(same & (length > 0.0))
    start, step, length = xy[keep] - origin, step[keep], length[keep]
    ring = ring[keep].astype(np.intp)
    count = np.bincount(ring, minlength=len(rings)).astype(np.intp)
    first = np.concatenate(([0], np.cumsum(count)[:-1])).astype(np.intp)
    index = np.arange(len(ring))
    last = first + count - 1
    way = np.cumsum(length) - length
    return Boundary(
        start=start,
        step=step,
        length=length,
        following=np.where(index == last[ring], first[ring], index + 1),
        previous=np.where(index == first[ring], last[ring], index - 1),
        ring=ring,
        way=way - way[first[ring]],
        ring_first=first,
        ring_count=count,
        ring_length=np.bincount(ring, weights=length, minlength=len(rings)).astype(float),
        ring_part=ring_part.astype(np.intp),
        part_width=shapely.area(parts) / shapely.length(parts),
        part_piece=part_piece,
        origin=origin,
        slack_mm=slack_mm + moved,
    )


def _thinned(region: shapely.MultiPolygon) -> tuple[shapely.MultiPolygon, float]:
    """The region with dense vertices left out, and by how far its contours moved at most.

    Contours closer together than that may then cross, which does no harm: feet are sought on
    them, but what lies next to what is told by the triangulation.
    """
    count = shapely.get_num_coordinates(region)
    width = region.area / region.length
    if count < MANY or region.length > DENSE * width * count:
        return region, 0.0
    tolerance = min(THINNING_MM, THINNING * width)
    thin = shapely.simplify(region, tolerance, preserve_topology=False)
    same_rings = shapely.get_parts(thin).shape == shapely.get_parts(
        region
    ).shape and np.array_equal(
        shapely.get_num_interior_rings(shapely.get_parts(thin)),
        shapely.get_num_interior_rings(shapely.get_parts(region)),
    )
    return (thin, tolerance) if same_rings else (region, 0.0)
